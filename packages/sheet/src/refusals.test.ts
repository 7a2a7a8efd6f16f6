import { InputError } from '@trainwright/measures'
import type { ThreadWanted, Train, Workshop } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import type { SheetOptions } from './contract.js'
import { setUpSheet } from './set-up-sheet.js'
import { readDemo } from './testing/demo.js'
import type { ThreadWork } from './thread-work.js'

const { eyepiece, footScrew, tangentScrew, workshop } = readDemo(demo)

const { wanted, train, work } = footScrew

function refused(read: () => unknown): string[] {
  try {
    read()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    for (const { message } of error.problems) expect(message).toMatch(/^[A-Z“].*[.!]$/s)
    return error.problems.map(({ path, code }) => `${path} ${code}`)
  }
  throw new Error('not refused')
}

const withWork = (more: Partial<ThreadWork>, options?: SheetOptions) =>
  refused(() => setUpSheet(workshop, wanted, train, { ...work, ...more } as ThreadWork, options))

describe('the question', () => {
  it.each<[string, unknown, unknown, unknown, string[]]>([
    ['no workshop', null, wanted, train, ['workshop object']],
    [
      'nothing at all',
      { ...workshop, gears: [] },
      null,
      null,
      ['workshop.gears too-few', 'train object', 'wanted object', 'wanted.pitch missing'],
    ],
    ['a pitch', workshop, { pitch: 'soon' }, train, ['wanted.pitch not-a-number']],
    [
      'starts and hand',
      workshop,
      { ...wanted, starts: 1.5, hand: 'both' },
      train,
      ['wanted.starts number', 'wanted.hand choice'],
    ],
    ['too many starts', workshop, { ...wanted, starts: 61 }, train, ['wanted.starts number']],
    ['a tolerance', workshop, { ...wanted, tolerance: { ppm: -1 } }, train, ['wanted.tolerance tolerance']],
    [
      'a tolerance by length',
      workshop,
      { ...wanted, tolerance: { error: 'x', over: '0 mm' } },
      train,
      ['wanted.tolerance.error not-a-number', 'wanted.tolerance.over zero'],
    ],
    ['no train', workshop, wanted, { stages: train.stages }, ['train no-train']],
    ['a train without stages', workshop, wanted, { ...train, stages: [] }, ['train.stages too-few']],
    [
      'a train of another lathe',
      { ...workshop, lathe: { ...workshop.lathe, leadscrew: { pitch: '3 mm' } } },
      wanted,
      train,
      ['train other-lathe'],
    ],
    [
      'a lathe that turns the other way',
      { ...workshop, lathe: { ...workshop.lathe, leadscrew: { pitch: '8 tpi', hand: 'left' } } },
      wanted,
      train,
      ['train other-lathe'],
    ],
    ['a train for another thread', workshop, eyepiece.wanted, train, ['train other-thread']],
    [
      'a train for the other hand',
      workshop,
      { ...tangentScrew.wanted, hand: 'right' },
      tangentScrew.train,
      ['train other-thread'],
    ],
  ])('%s', (_, shop, asked, by, problems) => {
    expect(refused(() => setUpSheet(shop as Workshop, asked as ThreadWanted, by as Train))).toEqual(problems)
  })
})

describe('the thread', () => {
  it.each<[string, object, string[]]>([
    ['a form', { form: 'crinkly' }, ['thread.form choice']],
    ['two diameters', { effective: 5 }, ['thread.major one', 'thread.effective one']],
    ['a diameter that leaves no core', { major: 0.5 }, ['thread.major core']],
    ['what is cut', { cut: 'both' }, ['thread.cut choice']],
    ['class and allowance', { allowance: 0.1 }, ['thread.allowance class-or-allowance']],
    ['a class of nuts for a screw', { class: '6H' }, ['thread.class wrong-class']],
    ['a class of screws for a nut', { cut: 'nut' }, ['thread.class wrong-class']],
    ['a class that is none', { class: 'tight' }, ['thread.class class']],
    ['a diameter of no table', { major: 500 }, ['thread.major number']],
    ['sharp crests in a nut', { class: '6H', cut: 'nut', crest: 'sharp' }, ['thread.crest crest-of-nut']],
    ['a class where none is kept', { form: 'whitworth', compound: 27 }, ['thread.class no-class']],
    [
      'a class of no BA number',
      { form: 'ba', class: 'close', major: 5.9, compound: 20 },
      ['thread.class not-published'],
    ],
    [
      'several at once',
      { compound: 40, groove: 0.5, engagement: -1, crests: 0 },
      ['thread.engagement number', 'thread.groove number', 'thread.crests number', 'thread.compound number'],
    ],
    ['a nose too broad', { nose: { flat: 0.9 } }, ['thread.nose.flat number']],
    ['a tap', { mate: { tap: { flutes: 7 } } }, ['thread.mate.tap.flutes number']],
    ['engagement of the mate', { mate: { part: true, engagement: 2 } }, ['thread.mate.engagement number']],
    ['crests', { crests: 1 }, ['thread.crests number']],
  ])('%s', (_, more, problems) => {
    const asked = { ...work, ...more } as ThreadWork
    expect(refused(() => setUpSheet(workshop, wanted, train, asked))).toEqual(problems)
  })

  it.each([
    ['screw', { cut: 'screw', class: '6g', crest: 'form', passes: 8 }],
    ['nut', { cut: 'nut', class: '6H', crest: 'form', firstCut: 0.1 }],
  ])('of a %s has a problem at every value that means nothing, and nowhere else', (_, part) => {
    const paths = {
      workshop: ['workshop.lathe.shaftClearance', 'workshop.lathe.leadscrew.pitch', 'workshop.wires[0]'],
      wanted: ['wanted.pitch', 'wanted.starts', 'wanted.hand', 'wanted.tolerance'],
      train: ['train'],
      thread: ['form', 'major', 'engagement', 'compound', 'nose.flat', 'springPasses', ...Object.keys(part)]
        .concat(['groove', 'tool', 'reaction', 'crests', 'mate.engagement', 'mate.tap.flutes', 'mate.tap.tolerance'])
        .map((path) => `thread.${path}`),
      options: ['options.diameters.input', 'options.diameters.stud', 'options.mounted'],
    }
    const thread = { form: 'metric', major: 6, engagement: 12, compound: 29, ...part }
    const cutting = { nose: { flat: 0.1 }, springPasses: 1, groove: 3, tool: 1, reaction: 0.5, crests: 11 }
    const mate = { part: true, engagement: 0.8, tap: { flutes: 3, tolerance: 0.1 } }
    const good = {
      workshop,
      wanted: { ...wanted, starts: 1, hand: 'right', tolerance: { ppm: 500 } },
      train,
      thread: { ...thread, ...cutting, mate },
      options: { diameters: { input: 10, stud: 10 }, mounted: [{ teeth: 40 }] },
    }
    const ask = (q: typeof good) =>
      setUpSheet(q.workshop, q.wanted as ThreadWanted, q.train, q.thread as ThreadWork, q.options)
    expect(ask(good).kind).toBe('set-up')
    fc.assert(
      fc.property(fc.subarray(Object.values(paths).flat(), { minLength: 1 }), (spoilt) => {
        const q = structuredClone(good)
        for (const path of spoilt) {
          const keys = path.match(/\w+/g)!
          const last = keys.pop()!
          const holder = keys.reduce<Record<string, unknown>>((at, key) => at[key] as Record<string, unknown>, q)
          holder[last] = Number.NaN
        }
        // A class is judged by its form.
        const told = spoilt.filter((path) => path !== 'thread.class' || !spoilt.includes('thread.form'))
        expect([...new Set(refused(() => ask(q)).map((problem) => problem.split(' ')[0]))].sort()).toEqual(told.sort())
      }),
      { numRuns: 100 },
    )
  })

  it('takes no allowance of more than half the pitch', () => {
    const { class: _, ...free } = work
    expect(refused(() => setUpSheet(workshop, wanted, train, { ...free, allowance: 0.6 }))).toEqual([
      'thread.allowance number',
    ])
    expect(setUpSheet(workshop, wanted, train, { ...free, allowance: 0.5 }).cutting!.limits!.name).toBe('allowance')
  })

  it('is refused when it is no object', () => {
    expect(refused(() => setUpSheet(workshop, wanted, train, 'M6' as unknown as ThreadWork))).toEqual(['thread object'])
  })

  it('names options by their path', () => {
    const options = { mounted: [{}], diameters: { input: 0, stud: Number.NaN } } as unknown as SheetOptions
    expect(withWork({}, options)).toEqual([
      'options.mounted mounted',
      'options.diameters.input number',
      'options.diameters.stud number',
    ])
    expect(withWork({}, { mounted: 40 } as unknown as SheetOptions)).toEqual(['options.mounted mounted'])
  })
})
