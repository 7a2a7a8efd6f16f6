import type { TrainSearch } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { page as anyPage, shop as anyShop } from '../../test/arbitraries.js'
import { FIRST_VERSION, readNow } from '../../test/first-version.js'
import { memory } from '../../test/memory.js'
import { demo } from '../demo.js'
import { Answers } from './answers.js'
import { Drawer } from './drawer.js'
import { heldFrom, shopOf, shopsOf, typedOf } from './held.js'
import { Job } from './job.js'
import { Keeper } from './keeper.js'
import { blankShop, joinTyped, type Shop, splitTyped } from './kept.js'
import { recall } from './recall.js'

const worker = { findTrains: () => new Promise<TrainSearch>(() => {}) }

/** A tab of the page over a browser's storage, as it is opened. */
function openTab(storage: Storage, session = memory()) {
  const [drawer, tab] = [new Drawer(() => storage), new Drawer(() => session)]
  const { held } = recall(drawer, tab)
  const start = held ?? heldFrom(demo())
  const job = new Job(typedOf(start), new Answers(worker as never))
  let time = 0
  const keeper = new Keeper(start, job, drawer, tab, held === null, () => time)
  return {
    job,
    keeper,
    session,
    wait: () => {
      time += 5000
    },
    get names() {
      return shopsOf(keeper.value.held).map(([, { workshop }]) => workshop.name)
    },
    get name() {
      return job.typed.value.workshop.name
    },
    get pitch() {
      return job.thread.pitch
    },
    get notice() {
      return keeper.value.notice?.code
    },
  }
}
const named = (name: string): Shop => ({ ...blankShop(), workshop: { ...blankShop().workshop, name } })
const [FIRST] = [demo().workshop.name]

describe('what is typed', () => {
  it('is there after a reload, and nothing is kept before', () => {
    const storage = memory()
    const tab = openTab(storage)
    expect(storage.length).toBe(0)
    tab.job.put('wanted.pitch', 'half typ')
    tab.job.put('lathe.studs', '?')
    expect(openTab(storage).job.typed.value).toEqual(tab.job.typed.value)
  })

  it('takes the place of what the first version kept', () => {
    const storage = memory([['trainwright', FIRST_VERSION]])
    openTab(storage).job.put('wanted.pitch', '1 mm')
    expect(storage.getItem('trainwright')).toBeNull()
    expect(openTab(storage).job.typed.value.threads).toEqual(
      readNow().threads.map((thread, i) => (i === 0 ? { ...thread, pitch: '1 mm' } : thread)),
    )
  })

  it('keeps in the storage what a newer page has added', () => {
    const storage = memory()
    openTab(storage).job.put('wanted.pitch', '1')
    const keys = ['trainwright/2/first', 'trainwright/2/page']
    for (const key of keys) storage.setItem(key, JSON.stringify({ ...JSON.parse(storage.getItem(key)!), newer: [1] }))
    const tab = openTab(storage)
    tab.job.put('wanted.pitch', '2')
    tab.job.put('lathe.studs', '3')
    for (const key of keys) expect(JSON.parse(storage.getItem(key)!).newer).toEqual([1])
  })

  it('is told from the start not to be kept, where that is not allowed', () => {
    const denied = new Proxy({} as Storage, {
      get() {
        throw new DOMException('denied', 'SecurityError')
      },
    })
    expect(openTab(denied).keeper.value.kept).toBe(false)
    expect(openTab(memory()).keeper.value.kept).toBe(true)
  })

  it('stays on the page when there is no room, is told, and is kept as soon as there is', () => {
    const storage = memory([], 20_000)
    const filler = 'x'.repeat(19_500)
    storage.setItem('else', filler)
    const tab = openTab(storage)
    tab.job.put('wanted.pitch', '1')
    expect(tab.keeper.value.kept).toBe(false)
    expect(tab.notice).toBe('not-kept')
    tab.job.put('wanted.pitch', '1 m')
    expect(tab.pitch).toBe('1 m')
    expect(tab.notice).toBeUndefined()
    storage.removeItem('else')
    tab.job.put('wanted.pitch', '1 mm')
    expect(tab.keeper.value.kept).toBe(true)
    expect(openTab(storage).job.typed.value).toEqual(tab.job.typed.value)
  })
})

describe('undo', () => {
  it('goes back step by step, says what it undid, and forth again', () => {
    const storage = memory()
    const tab = openTab(storage)
    tab.job.put('wanted.pitch', '1')
    tab.job.put('wanted.pitch', '1 mm')
    tab.wait()
    tab.job.put('lathe.studs', '3')
    tab.job.type({ view: { ...tab.job.typed.value.view, mirror: true } })
    const end = tab.job.typed.value
    const undone = []
    while (tab.keeper.steps.back > 0) {
      tab.keeper.undo()
      undone.push(tab.keeper.value.notice)
    }
    expect(undone).toEqual(['mirror', 'lathe', 'threads'].map((what) => ({ code: 'undone', what })))
    expect(tab.job.typed.value).toEqual(demo())
    while (tab.keeper.steps.forth > 0) tab.keeper.redo()
    expect(tab.notice).toBe('redone')
    expect(tab.job.typed.value).toEqual(end)
    expect(openTab(storage).job.typed.value).toEqual(end)
  })

  it('takes another thread in hand without a step, and shows the thread of which a step is undone', () => {
    const tab = openTab(memory())
    tab.job.put('wanted.pitch', '1')
    tab.job.type({ thread: 2 })
    expect(tab.keeper.steps.back).toBe(1)
    tab.keeper.undo()
    expect(tab.job.typed.value).toEqual(demo())
  })

  it('passes over what was typed back by hand', () => {
    const tab = openTab(memory())
    tab.job.put('lathe.studs', '3')
    tab.wait()
    tab.job.put('wanted.pitch', '40 tp')
    tab.job.put('wanted.pitch', '40 tpi')
    tab.keeper.undo()
    expect(tab.job.typed.value).toEqual(demo())
  })

  it('then redo is the identity, whatever is done', () => {
    const deeds: Record<string, (tab: ReturnType<typeof openTab>) => void> = {
      pitch: (tab) => tab.job.put('wanted.pitch', `${tab.pitch}1`),
      studs: (tab) => tab.job.put('lathe.studs', `${tab.job.typed.value.workshop.lathe.studs}1`),
      thread: (tab) => tab.job.type({ thread: (tab.job.typed.value.thread + 1) % tab.job.typed.value.threads.length }),
      add: (tab) => tab.keeper.add(),
      copy: (tab) => tab.keeper.copy(),
      remove: (tab) => tab.keeper.remove(),
      choose: (tab) => tab.keeper.choose(shopsOf(tab.keeper.value.held)[0]![0]),
      takeIn: (tab) => tab.keeper.takeIn(named('taken in'), splitTyped(demo()).page),
      undo: (tab) => tab.keeper.undo(),
      redo: (tab) => tab.keeper.redo(),
      wait: (tab) => tab.wait(),
    }
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...Object.keys(deeds)), { maxLength: 25 }), (names) => {
        const storage = memory()
        const tab = openTab(storage)
        for (const name of names) deeds[name]!(tab)
        const before = tab.keeper.value.held
        if (tab.keeper.steps.back === 0) return
        tab.keeper.undo()
        if (tab.keeper.steps.forth === 0) return
        tab.keeper.redo()
        expect(tab.keeper.value.held).toEqual(before)
        expect(tab.job.typed.value).toEqual(typedOf(before))
        // What is kept is what is shown.
        expect(openTab(storage, tab.session).keeper.value.held).toEqual(before)
      }),
    )
  })
})

describe('workshops', () => {
  it('a new one is blank and open, and the threads stay', () => {
    const tab = openTab(memory())
    tab.keeper.add()
    expect(tab.job.typed.value).toEqual(joinTyped(blankShop(), splitTyped(demo()).page))
    tab.keeper.undo()
    expect(tab.job.typed.value).toEqual(demo())
    expect(tab.names).toEqual([FIRST])
  })

  it('a copy is changed without its original', () => {
    const tab = openTab(memory())
    tab.keeper.copy()
    tab.job.put('lathe.studs', '5')
    expect(tab.names).toEqual([FIRST, `${FIRST} (copy)`])
    tab.keeper.choose('first')
    expect(tab.job.typed.value.workshop).toEqual(demo().workshop)
    // Undoing a change of the copy shows the copy.
    tab.keeper.undo()
    expect(tab.name).toBe(`${FIRST} (copy)`)
    expect(tab.job.typed.value.workshop.lathe.studs).toBe('2')
  })

  it('one that is removed comes back with undo, the last one too', () => {
    const storage = memory()
    const tab = openTab(storage)
    tab.job.put('name', 'Only one')
    tab.keeper.remove()
    expect(tab.keeper.value.notice).toEqual({ code: 'removed', what: 'Only one' })
    expect(tab.names).toEqual([''])
    expect(openTab(storage).names).toEqual([''])
    tab.keeper.undo()
    expect(tab.name).toBe('Only one')
    expect(openTab(storage).names).toEqual(['Only one'])
  })

  it('one taken in stands beside the others with its threads, and undo takes both away', () => {
    const tab = openTab(memory())
    tab.job.put('name', 'Mine')
    const { page } = splitTyped(demo())
    const extra = { ...page.threads[0]!, name: 'Extra' }
    tab.keeper.takeIn(named('Theirs'), { ...page, threads: [page.threads[1]!, extra], thread: 1 })
    expect(tab.names).toEqual(['Mine', 'Theirs'])
    expect(tab.job.thread).toEqual(extra)
    expect(tab.job.typed.value.threads).toEqual([...page.threads, extra])
    tab.keeper.undo()
    expect(tab.names).toEqual(['Mine'])
    expect(tab.job.typed.value.threads).toEqual(page.threads)
  })

  it('one taken in brings the wishes that are not wished for yet', () => {
    const tab = openTab(memory())
    const { page } = splitTyped(demo())
    const wishing = (list: string) => ({ ...page, wishes: { list, ppm: '' } })
    tab.job.type({ wishes: { list: '1 mm\n26 tpi\n', ppm: '5' } })
    tab.keeper.takeIn(named('Theirs'), wishing('26 tpi\n3 mm'))
    expect(tab.job.typed.value.wishes).toEqual({ list: '1 mm\n26 tpi\n\n3 mm', ppm: '5' })
    tab.keeper.takeIn(named('Others'), wishing('3 mm\n'))
    expect(tab.job.typed.value.wishes).toEqual({ list: '1 mm\n26 tpi\n\n3 mm', ppm: '5' })
  })

  it('one taken in that is there already is opened, not doubled', () => {
    const tab = openTab(memory())
    tab.keeper.add(named('Other'))
    const { shop, page } = splitTyped(demo())
    tab.keeper.takeIn(shop, page)
    expect(tab.names).toEqual([FIRST, 'Other'])
    expect(tab.name).toBe(FIRST)
  })

  it('one taken in takes the place of the demonstration', () => {
    const tab = openTab(memory())
    const { page } = splitTyped(demo())
    tab.keeper.takeIn(named('Theirs'), { ...page, threads: [page.threads[1]!], thread: 0 })
    expect(tab.names).toEqual(['Theirs'])
    expect(tab.job.typed.value.threads).toHaveLength(1)
    tab.keeper.undo()
    expect(tab.job.typed.value).toEqual(demo())
  })

  it('any workshop and page taken in are shown exactly as they came', () => {
    fc.assert(
      fc.property(anyShop, anyPage, (shop, page) => {
        const tab = openTab(memory())
        tab.keeper.takeIn(shop, page)
        expect(tab.job.typed.value).toEqual(joinTyped(shop, page))
      }),
    )
  })
})

describe('a question from a link', () => {
  const visit = (tab: ReturnType<typeof openTab>) => {
    const { page } = splitTyped(demo())
    tab.keeper.visit(
      named('Theirs'),
      { ...page, threads: [{ ...page.threads[0]!, pitch: '9 mm' }], thread: 0 },
      '#question=x',
    )
  }

  it('is shown and typed on, and nothing of one’s own is touched', () => {
    const storage = memory()
    const tab = openTab(storage)
    tab.job.put('wanted.pitch', '1')
    const before = JSON.stringify([...Array(storage.length)].map((_, i) => storage.getItem(storage.key(i)!)))
    visit(tab)
    expect([tab.name, tab.pitch]).toEqual(['Theirs', '9 mm'])
    tab.job.put('wanted.pitch', '8 mm')
    tab.keeper.undo()
    tab.keeper.undo()
    expect(tab.pitch).toBe('9 mm')
    expect(JSON.stringify([...Array(storage.length)].map((_, i) => storage.getItem(storage.key(i)!)))).toBe(before)
    tab.keeper.leave()
    expect([tab.name, tab.pitch]).toEqual([FIRST, '1'])
    tab.keeper.undo()
    expect(tab.job.typed.value).toEqual(demo())
  })

  it('lives through a reload as it was typed on', () => {
    const tab = openTab(memory())
    visit(tab)
    tab.job.put('wanted.pitch', '8 mm')
    const again = recall(new Drawer(() => memory()), new Drawer(() => tab.session)).visit!
    expect(again).toMatchObject({ link: '#question=x', shop: named('Theirs'), page: { threads: [{ pitch: '8 mm' }] } })
    tab.keeper.leave()
    expect(recall(new Drawer(() => memory()), new Drawer(() => tab.session)).visit).toBeNull()
  })

  it('becomes one’s own when it is kept, as it stands', () => {
    const storage = memory()
    const tab = openTab(storage)
    tab.job.put('name', 'Mine')
    visit(tab)
    tab.job.put('wanted.pitch', '8 mm')
    tab.keeper.stay()
    expect(tab.keeper.value).toMatchObject({ visiting: false, notice: { code: 'opened', what: 'Theirs' } })
    expect([tab.names, tab.pitch]).toEqual([['Mine', 'Theirs'], '8 mm'])
    expect(openTab(storage).names).toEqual(['Mine', 'Theirs'])
    tab.keeper.undo()
    expect([tab.names, tab.name, tab.pitch]).toEqual([['Mine'], 'Mine', demo().threads[0]!.pitch])
  })

  it('left after it was typed on comes back by undo, as it was typed on, until something else is typed', () => {
    const tab = openTab(memory())
    tab.job.put('name', 'Mine')
    visit(tab)
    tab.keeper.leave()
    expect([tab.notice, tab.keeper.steps.back]).toEqual([undefined, 1])
    visit(tab)
    tab.job.put('wanted.pitch', '8 mm')
    tab.keeper.leave()
    expect([tab.name, tab.notice, tab.keeper.steps.back]).toEqual(['Mine', 'left', 2])
    tab.keeper.undo()
    expect([tab.name, tab.pitch, tab.keeper.value.visiting]).toEqual(['Theirs', '8 mm', true])
    expect(recall(new Drawer(() => memory()), new Drawer(() => tab.session)).visit).toMatchObject({
      link: '#question=x',
    })
    tab.keeper.undo()
    expect(tab.pitch).toBe('9 mm')
    tab.keeper.redo()
    tab.keeper.leave()
    tab.wait()
    tab.job.put('name', 'Mine still')
    tab.keeper.undo()
    expect([tab.name, tab.keeper.value.visiting]).toEqual(['Mine', false])
  })

  it('takes the place of another, and undo brings that back as it was typed on', () => {
    const tab = openTab(memory())
    visit(tab)
    tab.job.put('wanted.pitch', '8 mm')
    tab.keeper.visit(named('Another'), splitTyped(demo()).page, '#question=y')
    expect(tab.name).toBe('Another')
    tab.keeper.undo()
    expect([tab.name, tab.pitch, tab.keeper.value.visiting]).toEqual(['Theirs', '8 mm', true])
    tab.keeper.leave()
    expect(tab.name).toBe(FIRST)
  })

  it('a second one leaves one’s own in safety as well', () => {
    const tab = openTab(memory())
    tab.job.put('name', 'Mine')
    visit(tab)
    visit(tab)
    tab.keeper.leave()
    expect(tab.name).toBe('Mine')
    tab.keeper.leave()
    expect(tab.name).toBe('Mine')
  })
})

describe('two tabs', () => {
  function two() {
    const storage = memory()
    openTab(storage).job.put('name', 'Ours')
    return { storage, a: openTab(storage), b: openTab(storage) }
  }

  it('the newest stands in both; the other is told and can undo it', () => {
    const { a, b } = two()
    a.job.put('wanted.pitch', '1 mm')
    b.keeper.absorb()
    expect(b.pitch).toBe('1 mm')
    expect(b.notice).toBe('elsewhere')
    b.keeper.undo()
    expect(b.pitch).toBe(demo().threads[0]!.pitch)
    a.keeper.absorb()
    expect([a.pitch, a.notice]).toEqual([b.pitch, 'elsewhere'])
    a.keeper.undo()
    expect(a.pitch).toBe('1 mm')
  })

  it('what both type before either looks is merged by part', () => {
    const { a, b } = two()
    a.job.put('wanted.pitch', '1 mm')
    b.job.put('lathe.studs', '4')
    a.keeper.absorb()
    for (const tab of [a, b]) {
      expect([tab.pitch, tab.job.typed.value.workshop.lathe.studs]).toEqual(['1 mm', '4'])
      expect(tab.notice).toBe('elsewhere')
    }
  })

  it('what both type in one part: the newest stands, and the other lies under it', () => {
    const { a, b } = two()
    a.job.put('lathe.studs', '3')
    b.job.put('lathe.studs', '4')
    expect(b.job.typed.value.workshop.lathe.studs).toBe('4')
    b.keeper.undo()
    expect(b.job.typed.value.workshop.lathe.studs).toBe('3')
    b.keeper.redo()
    a.keeper.absorb()
    expect(a.job.typed.value.workshop.lathe.studs).toBe('4')
    a.keeper.undo()
    expect(a.job.typed.value.workshop.lathe.studs).toBe('3')
  })

  it('each keeps its own workshop and its own thread in hand, after a reload too', () => {
    const { storage, a, b } = two()
    a.keeper.copy()
    a.job.type({ thread: 2 })
    b.keeper.absorb()
    expect([b.name, b.pitch, b.notice]).toEqual(['Ours', demo().threads[0]!.pitch, undefined])
    b.job.put('lathe.studs', '7')
    a.keeper.absorb()
    expect([a.name, a.job.typed.value.workshop.lathe.studs, a.notice]).toEqual(['Ours (copy)', '2', undefined])
    expect(openTab(storage, a.session).name).toBe('Ours (copy)')
    expect(openTab(storage, a.session).pitch).toBe(demo().threads[2]!.pitch)
    expect(openTab(storage, b.session).name).toBe('Ours')
    a.keeper.choose('first')
    expect(a.job.typed.value.workshop.lathe.studs).toBe('7')
  })

  it('threads taken off or put before in one do not change which is in hand in the other', () => {
    const { a, b } = two()
    b.job.type({ thread: 2 })
    const { threads } = a.job.typed.value
    a.job.type({ threads: threads.slice(1), thread: 0 })
    b.keeper.absorb()
    expect(b.job.thread).toEqual(threads[2])
    a.job.type({ threads: [threads[1]!], thread: 0 })
    b.keeper.absorb()
    expect(b.job.thread).toEqual(threads[1])
  })

  it('a workshop removed in one stays in the other where it is open, and is kept again with the next stroke', () => {
    const { storage, a, b } = two()
    a.keeper.copy()
    b.keeper.absorb()
    a.keeper.choose('first')
    a.keeper.remove()
    b.keeper.absorb()
    expect([b.name, b.notice]).toEqual(['Ours', 'gone'])
    expect(openTab(storage).names).toEqual(['Ours (copy)'])
    b.job.put('lathe.studs', '4')
    expect(openTab(storage).names).toEqual(['Ours', 'Ours (copy)'])
    a.keeper.absorb()
    expect(a.names).toEqual(['Ours', 'Ours (copy)'])
  })

  it('a workshop removed in one is gone from the list of the other', () => {
    const { a, b } = two()
    a.keeper.add(named('New'))
    b.keeper.absorb()
    expect(b.names).toEqual(['Ours', 'New'])
    a.keeper.remove()
    b.keeper.absorb()
    expect([b.names, b.notice]).toEqual([['Ours'], undefined])
  })

  it('a storage cleared by hand loses nothing that is open', () => {
    const { storage, a } = two()
    storage.clear()
    a.keeper.absorb()
    a.job.put('wanted.pitch', '2 mm')
    const again = openTab(storage)
    expect([again.name, again.pitch]).toEqual(['Ours', '2 mm'])
  })

  it('neither ever loses a stroke: whatever two tabs type, each text is on the page or can be undone to', () => {
    const deed = fc.record({
      who: fc.constantFrom('a' as const, 'b' as const),
      what: fc.constantFrom('pitch', 'studs', 'look'),
    })
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 12 }), (deeds) => {
        const tabs = two()
        const typed = { a: new Set<string>(), b: new Set<string>() }
        for (const [i, { who, what }] of deeds.entries()) {
          const tab = tabs[who]
          tab.wait()
          if (what === 'look') tab.keeper.absorb()
          else {
            if (what === 'pitch') tab.job.put('wanted.pitch', `${what}${i}`)
            else tab.job.put('lathe.studs', `${what}${i}`)
            typed[who].add(`${what}${i}`)
          }
        }
        for (const who of ['a', 'b'] as const) {
          const tab = tabs[who]
          const seen = new Set<string>()
          const look = () => seen.add(tab.pitch).add(tab.job.typed.value.workshop.lathe.studs)
          look()
          while (tab.keeper.steps.back > 0) {
            tab.keeper.undo()
            look()
          }
          for (const one of typed[who]) expect(seen).toContain(one)
        }
        expect(shopOf(tabs.a.keeper.value.held).workshop.name).toBe('Ours')
      }),
      { numRuns: 60 },
    )
  })
})
