import { describe, expect, it } from 'vitest'
import { box, shop } from '../../../bench/plain/in-brief.js'
import { findTrains, makeChart, proposeGears } from './index.js'
import { WorkshopError } from './workshop-error.js'

/** Counts from `from` on, one gear each. */
const counts = (from: number, n: number) => box(...Array.from({ length: n }, (_, i) => from + i))

describe('questions past the bounds', () => {
  // Wanted is 1000 mm on a leadscrew of 1 mm, so within 999,999 ppm lies every ratio from 0.001 to 1999.999: all of them.
  const everything = { pitch: '1000 mm', tolerance: { ppm: 999_999 } }

  it('are refused with the pairs counted, and the stages that would do', () => {
    // 200 gears: 200 x 200 pairs of one stage. Two of 200 make 19,900 products, so 19,900 x 19,900 pairs of two.
    const found = findTrains(shop(counts(20, 200), { studs: 1 }), everything)
    expect(found).toEqual({
      trains: [],
      counts: { withinTolerance: 0, mountable: 0 },
      closest: null,
      obstacles: [
        {
          code: 'too-many',
          pairs: 200 ** 2 + 19_900 ** 2,
          stages: 1,
          message: expect.stringMatching(
            /396,050,000 pairs.* 50,000,000 is the bound.* 1 stage at most would do \(studs: 0\), or/,
          ),
        },
      ],
    })
    expect(findTrains(shop(counts(20, 200), { studs: 1 }), everything, { stages: 1 }).counts.withinTolerance).toBe(
      200 * 199,
    )
  })

  it('count each fixed ratio for itself, and equal ones once', () => {
    // 100 gears, 4,950 products of two: 24.5 million pairs of each of three ratios; 2/1 and 4/2 are one.
    const drives = [{ ratio: 1 }, { ratio: '1/2' }, { ratio: 2 }, { ratio: '4/2' }]
    const ask = (n: number) =>
      findTrains(shop(counts(20, 100), { studs: 1, drives: drives.slice(0, n) }), everything).obstacles[0]
    const pairs = 100 ** 2 + 4950 ** 2
    expect(ask(3)).toMatchObject({ code: 'too-many', pairs: 3 * pairs, stages: 1 })
    expect(ask(4)).toMatchObject({ code: 'too-many', pairs: 3 * pairs, stages: 1 })
  })

  it('add up over the stages', () => {
    // 80 gears: 3,160 products of two, just under 10 million pairs; 82,160 of three are 6.75 billion.
    const found = findTrains(shop(counts(20, 80)), everything)
    expect(found.obstacles).toMatchObject([{ code: 'too-many', pairs: 80 ** 2 + 3160 ** 2 + 82_160 ** 2, stages: 2 }])
  })

  it('are answered at once even where no table would hold them', () => {
    // 500 gears of four stages: 2.5 billion products a side.
    const large = shop(counts(20, 500), { studs: 3 })
    const [obstacle] = findTrains(large, { pitch: '1 mm' }).obstacles
    expect(obstacle).toMatchObject({ code: 'too-many' })
    if (obstacle.code !== 'too-many') return
    expect(obstacle.pairs).toBeGreaterThan(50_000_000)
    expect(Number.isSafeInteger(obstacle.pairs) || Number.isFinite(obstacle.pairs)).toBe(true)
    expect(obstacle.stages).toBeGreaterThan(0)
    expect(obstacle.stages).toBeLessThan(4)
    // What is said to do, does.
    const { counts: within } = findTrains(large, { pitch: '1 mm' }, { stages: obstacle.stages, limit: 0 })
    expect(within.withinTolerance).toBeGreaterThan(0)
  })

  const problemsOf = (ask: () => unknown) => {
    try {
      ask()
    } catch (error) {
      expect(error).toBeInstanceOf(WorkshopError)
      return (error as WorkshopError).problems
    }
    return []
  }
  const narrow = { pitch: '1/2 mm', tolerance: { ppm: 0 } }
  const tooMany = (thread: number, pairs: string) => ({
    path: `wanted[${thread}]`,
    code: 'too-many',
    message: expect.stringContaining(`About ${pairs} pairs`),
  })

  it('are refused in a chart, by thread', () => {
    const large = shop(counts(20, 200), { studs: 1 })
    const problems = problemsOf(() => makeChart(large, [everything, narrow, everything]))
    expect(problems).toEqual([tooMany(0, '396,050,000'), tooMany(2, '396,050,000')])
    expect(makeChart(large, [everything, narrow], { stages: 1 })[1].train).not.toBeNull()
  })

  it('are refused when a gear is to be made, by thread: of the box as it is', () => {
    const large = shop(counts(20, 200), { studs: 1 })
    const problems = problemsOf(() => proposeGears(large, [narrow, everything], { teeth: [20, 22] }))
    expect(problems).toEqual([tooMany(1, '396,050,000')])
  })

  it('and with the gears that may be made, of a thread that is not cut yet', () => {
    // No two gears mesh, and none to be made with any: nothing is cut. 60 by twos are 1,770; beside 300 they are 18,000.
    const gears = counts(20, 60).map((g, i) => ({ ...g, module: 1 + i / 100 }))
    const asked = { teeth: [400, 699] as [number, number], module: 3 }
    const problems = problemsOf(() => proposeGears(shop(gears, { studs: 1 }), [narrow, everything], asked))
    const pairs = 60 ** 2 + 2 * 300 * 60 + 1770 ** 2 + 2 * 18_000 * 1770
    expect(problems).toEqual([tooMany(1, pairs.toLocaleString('en'))])
    const { never } = proposeGears(shop(gears, { studs: 1 }), [narrow], asked)
    expect(never).toEqual([0])
  })
})

describe('questions at the bounds', () => {
  it('of 500 gears, 16 settings and 8 studs are answered', () => {
    const drives = Array.from({ length: 4 }, (_, i) => ({ ratio: `${i + 2}/7` }))
    const gearbox = Array.from({ length: 4 }, (_, i) => ({ ratio: `${i + 1}/11`, reverses: i % 2 === 1 }))
    const large = shop(counts(20, 500), { drives, gearbox, studs: 8 })
    const { trains, counts: found } = findTrains(large, { pitch: '0.5 mm', tolerance: { ppm: 0 } }, { stages: 1 })
    expect(found.mountable).toBeGreaterThan(0)
    expect(trains.length).toBeGreaterThan(0)
    for (const train of trains) expect(train.stages).toHaveLength(1)
  })

  it('return a thousand trains when as many are asked for', () => {
    const { trains, counts: found } = findTrains(
      shop(counts(20, 60), { studs: 1, shaftClearance: 1 }),
      { pitch: '1 mm', tolerance: { ppm: 20_000 } },
      { limit: 1000 },
    )
    expect(found.mountable).toBeGreaterThan(1000)
    expect(trains).toHaveLength(1000)
    expect(new Set(trains.map((train) => JSON.stringify(train.stages))).size).toBe(1000)
  })
})
