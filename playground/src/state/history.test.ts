import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Change, History } from './history.js'

/** Values by key that a history takes back and forth. */
function shelf() {
  let time = 0
  const values = new Map<string, unknown>()
  const history = new History(() => time)
  const put = (key: string, value: unknown) => (value === undefined ? values.delete(key) : values.set(key, value))
  const swap = (change: Change): Change => {
    const back = new Map([...change.keys()].map((key) => [key, values.get(key)]))
    for (const [key, value] of change) put(key, value)
    return back
  }
  return {
    values,
    history,
    wait: (ms: number) => {
      time += ms
    },
    set(key: string, value: unknown, group = '') {
      history.note(new Map([[key, values.get(key)]]), group)
      put(key, value)
    },
    undo: () => history.undo(swap),
    redo: () => history.redo(swap),
  }
}

const steps = fc.array(
  fc.oneof(
    fc.record({
      key: fc.constantFrom('a', 'b', 'c'),
      value: fc.option(fc.nat(9), { nil: undefined }),
      group: fc.constantFrom('', 'a', 'b'),
      pause: fc.constantFrom(1, 2000),
    }),
    fc.constantFrom('undo' as const, 'redo' as const),
  ),
  { maxLength: 40 },
)

function walk(made: ReturnType<typeof shelf>, all: typeof steps extends fc.Arbitrary<infer T> ? T : never) {
  for (const step of all) {
    if (typeof step === 'string') made[step]()
    else {
      made.wait(step.pause)
      made.set(step.key, step.value, step.group)
    }
  }
}

describe('History', () => {
  it('undo then redo is the identity, wherever one stands', () => {
    fc.assert(
      fc.property(steps, (all) => {
        const made = shelf()
        walk(made, all)
        const before = new Map(made.values)
        if (made.undo()) expect(made.redo()).toBe(true)
        expect(made.values).toEqual(before)
      }),
    )
  })

  it('undoing everything leads back to the start, and redoing everything to the end', () => {
    fc.assert(
      fc.property(steps, (all) => {
        const made = shelf()
        walk(made, all)
        while (made.redo());
        const end = new Map(made.values)
        while (made.undo());
        expect(made.values).toEqual(new Map())
        while (made.redo());
        expect(made.values).toEqual(end)
      }),
    )
  })

  it('takes what is typed without a pause as one step', () => {
    const made = shelf()
    for (const text of ['1', '1/', '1/8']) {
      made.wait(300)
      made.set('pitch', text, 'pitch')
    }
    made.wait(1500)
    made.set('pitch', '1/8 in', 'pitch')
    expect(made.history.steps.back).toBe(2)
    made.undo()
    expect(made.values.get('pitch')).toBe('1/8')
    made.undo()
    expect(made.values.has('pitch')).toBe(false)
  })

  it('parts what is typed in two fields, and what is tapped', () => {
    const made = shelf()
    made.set('a', 1, 'a')
    made.set('b', 1, 'b')
    made.set('a', 2)
    made.set('a', 3)
    expect(made.history.steps.back).toBe(4)
  })

  it('does not add to a step that was undone and done again', () => {
    const made = shelf()
    made.set('a', 1, 'a')
    made.undo()
    made.redo()
    made.set('a', 2, 'a')
    made.undo()
    expect(made.values.get('a')).toBe(1)
  })

  it('forgets what was undone once something else is done', () => {
    const made = shelf()
    made.set('a', 1)
    made.undo()
    made.set('a', 2)
    expect(made.redo()).toBe(false)
    expect(made.history.steps).toEqual({ back: 1, forth: 0 })
  })

  it('remembers two hundred steps', () => {
    const made = shelf()
    for (let i = 0; i < 300; i++) made.set('a', i)
    expect(made.history.steps.back).toBe(200)
    while (made.undo());
    expect(made.values.get('a')).toBe(99)
  })
})
