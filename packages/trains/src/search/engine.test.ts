import { type Rational, rational } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { BOUNDS } from '../bounds.js'
import { makeBox } from './box.js'
import { refuseTooMany, searchSets, Tables } from './engine.js'
import { makeQuestion, type Question } from './question.js'
import type { GearSet, Settler } from './settler.js'

const row = (count: number, from = 20) => Array.from({ length: count }, (_, i) => ({ teeth: from + i }))
const tablesOf = (gears: { teeth: number; count?: number }[], fixed?: Parameters<typeof makeBox>[1]) =>
  new Tables(makeBox(gears, fixed))
const question = (pitch: string, ratios: number[] = [1]): Question =>
  makeQuestion({ leadscrew: { pitch: '1 mm' }, drives: ratios.map((ratio) => ({ ratio })) }, { pitch })
/** Nearly all pairs, whatever their ratio. */
const everything = rational(999_999_999, 1_000_000_000)

describe('the pairs of a window', () => {
  it('are counted, for each ratio', () => {
    // Of 20, 30, 40 in pairs, the same gear twice among them: 1 by each with itself; 2 by 40:20.
    const tables = tablesOf([{ teeth: 20 }, { teeth: 30 }, { teeth: 40 }])
    const count = (pitch: string, ratios?: number[]) => tables.pairs(1, question(pitch, ratios).ratios, rational(0))
    expect([count('1'), count('2'), count('1', [1, 0.5]), count('5')]).toEqual([3, 1, 4, 0])
    expect(tables.of(2)).toBe(tables.of(2))
    expect(tables.of(2).length).toBe(3)
  })

  it('are reckoned from a part of a large box, and then are too many', () => {
    // 200 gears by fours are 64,684,950 products, each with each.
    const tables = tablesOf(row(200, 100))
    const all = 64_684_950 ** 2
    expect(tables.pairs(4, question('1000').ratios, everything) / all).toBeCloseTo(1, 9)
    // Nothing comes near: still more than the bound.
    expect(tables.pairs(4, question('1/1000').ratios, rational(0))).toBe(BOUNDS.pairs + 1)
    // About half of all pairs are below 1 : 1.
    const half = tables.pairs(4, question('0.5').ratios, everything) / all
    expect(half).toBeGreaterThan(0.48)
    expect(half).toBeLessThan(0.55)
  })
})

describe('too many pairs', () => {
  const refusal = (count: number, stages: number, tolerance: Rational, ratios?: number[]) =>
    refuseTooMany(tablesOf(row(count)), { ...question('1000', ratios), tolerance }, stages)

  it('are told with the stages that would do', () => {
    // 150 by twos are 11,175, squared 124,880,625; by ones 22,500.
    expect(refusal(150, 1, everything)).toBeNull()
    expect(refusal(150, 2, everything)).toEqual({ pairs: 11_175 ** 2 + 150 ** 2, stages: 1 })
    // 118 by twos are 6,903: 47,651,409 pairs, and 13,924 by ones, are within the bound; twice as many are not.
    expect(refusal(118, 2, everything)).toBeNull()
    expect(refusal(118, 2, everything, [1, 2])).toEqual({ pairs: 2 * (6903 ** 2 + 118 ** 2), stages: 1 })
    // Narrowed, the same box is searched.
    expect(refusal(150, 2, rational(0))).toBeNull()
  })
})

describe('the sets that are searched', () => {
  /** A settler that takes what `takes` says, at one step a set. */
  function settlerOf(takes: (set: GearSet) => number, possible: (stages: number) => boolean = () => true) {
    let steps = 0
    const settler = {
      possible,
      fewestGears(set: GearSet) {
        steps++
        return takes(set)
      },
      steps: () => steps,
    } as unknown as Settler
    return { settler, asked: () => steps }
  }
  const search = (
    settler: Settler,
    stages: number,
    stop: (n: number) => boolean = () => false,
    patience?: number,
    asked = question('0.5'),
  ) => {
    const seen: string[] = []
    const counts = searchSets(
      tablesOf([{ teeth: 20 }, { teeth: 30 }, { teeth: 40 }, { teeth: 60 }]),
      asked,
      settler,
      stages,
      rational(0),
      (set, ratio, gears) => {
        expect(asked.ratios).toContain(ratio)
        seen.push(`${set.top.product[set.p]}:${set.bottom.product[set.q]} ${gears}`)
        return stop(seen.length)
      },
      patience,
    )
    return { seen, ...counts }
  }

  it('are counted and shown, stage by stage', () => {
    // 1/2 is 20:40 and 30:60; 1/4 is 20 x 30 : 40 x 60.
    const { settler } = settlerOf(() => 3)
    expect(search(settler, 1)).toEqual({
      seen: ['20:40 3', '30:60 3'],
      withinTolerance: 2,
      mountable: 2,
      whole: true,
    })
    expect(search(settler, 2, undefined, undefined, question('1/4'))).toMatchObject({ seen: ['600:2400 3'] })
    expect(search(settler, 1, undefined, undefined, question('1/4')).seen).toEqual([])
  })

  it('are counted but not shown when they cannot be mounted', () => {
    const some = settlerOf((set) => (set.top.product[set.p] === 20 ? 0 : 4))
    expect(search(some.settler, 1)).toEqual({ seen: ['30:60 4'], withinTolerance: 2, mountable: 1, whole: true })
    // Where no train of so many stages stands, none is settled.
    const none = settlerOf(
      () => 3,
      (stages) => stages > 1,
    )
    expect(search(none.settler, 2)).toEqual({ seen: [], withinTolerance: 2, mountable: 0, whole: true })
    expect(none.asked()).toBe(0)
  })

  it('end where the visit says so', () => {
    const { settler, asked } = settlerOf(() => 3)
    expect(search(settler, 2, (n) => n === 1)).toEqual({
      seen: ['20:40 3'],
      withinTolerance: 1,
      mountable: 1,
      whole: false,
    })
    expect(asked()).toBe(1)
  })

  it('end where patience does, of sets that cannot be mounted', () => {
    const steps = (patience: number, takes = 0) => {
      const { settler, asked } = settlerOf(() => takes)
      const { whole } = search(settler, 1, undefined, patience)
      return [asked(), whole]
    }
    expect(steps(0)).toEqual([1, false])
    expect(steps(1)).toEqual([2, false])
    expect(steps(2)).toEqual([2, true])
    // What is found is no reason to give up.
    expect(steps(0, 3)).toEqual([2, true])
  })
})

it('a fixed gear may stand on both sides', () => {
  const fixed = { input: { teeth: 20 }, output: { teeth: 20 } }
  expect(tablesOf([{ teeth: 20, count: 2 }, { teeth: 30 }], fixed).bothSides).toEqual([0])
  expect(tablesOf(row(3), { output: { teeth: 21 } }).bothSides).toEqual([1])
  expect(tablesOf(row(3)).bothSides).toEqual([])
})
