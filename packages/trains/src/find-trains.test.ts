import { describe, expect, it } from 'vitest'
import { bareAnswer } from '../../../bench/plain/alike.js'
import { findTrainsPlain } from '../../../bench/plain/find-trains.js'
import { box, shop, spell } from '../../../bench/plain/in-brief.js'
import type { FindOptions, GearStock, Obstacle } from './contract.js'
import { findTrains } from './find-trains.js'

describe('ties', () => {
  it('of arrangements that read alike: idlers late in the train first', () => {
    // 36 x 30 : 30 x 30, the 30 on the output fixed, with one idler: 36-30-30 30-30 and 36-30 30-30-30 read alike.
    const workshop = shop(
      [
        { teeth: 30, count: 5 },
        { teeth: 36, shafts: ['input'] },
      ],
      { studs: 2, shaftClearance: 4, fixedGears: { output: { teeth: 30 } } },
    )
    const found = findTrains(workshop, { pitch: '6/5', hand: 'left', tolerance: { ppm: 0 } })
    expect(found.trains.map(spell)).toEqual(['36-30-30-30', '36-30 30-30-30'])
  })

  it('of sets whose teeth read alike: smaller modules first, then smaller pressure angles', () => {
    // 1/4 by 20:40 20:40 from (module, angle) of (1, 20) twice, of (1, 14.5) and (1, 20), of (1, 14.5) and (2, 20), ...
    const pair = (rest: Partial<GearStock>) => box(20, 40).map((gear) => ({ ...gear, ...rest }))
    const gears = [...pair({ count: 2 }), ...pair({ pressureAngle: 14.5 }), ...pair({ module: 2 })]
    const workshop = shop(gears, { studs: 1, shaftClearance: 1 })
    const found = findTrains(workshop, { pitch: '1/4', tolerance: { ppm: 0 } })
    const sizes = found.trains.map(({ stages }) => stages.map((s) => [s.driver.module, s.driver.pressureAngle]))
    expect(sizes).toEqual([
      [
        [1, 14.5],
        [1, 20],
      ],
      [
        [1, 20],
        [1, 20],
      ],
      [
        [1, 14.5],
        [2, 20],
      ],
      [
        [1, 20],
        [2, 20],
      ],
    ])
    expect(bareAnswer(found)).toEqual(bareAnswer(findTrainsPlain(workshop, { pitch: '1/4', tolerance: { ppm: 0 } })))
  })
})

describe('of many sets the best are kept', () => {
  // By multiples of five many sets are equally far off, or not off at all; between primes hardly two are.
  const fives = shop(box(20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 90, 100, 120), {
    studs: 3,
    shaftClearance: 1,
  })
  const primes = shop(box(20, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83), {
    studs: 3,
    shaftClearance: 1,
  })
  const orders = ['fewest gears', 'closest'] as const

  it.each([
    ['level with each other', fives, { pitch: '0.7', tolerance: { ppm: 0 } }],
    ['level in part', fives, { pitch: '0.7', tolerance: { ppm: 500 } }],
    ['all apart', primes, { pitch: '0.7', tolerance: { ppm: 1000 } }],
  ])('%s: the first few are the first of all', (_, workshop, wanted) => {
    for (const order of orders) {
      const all = findTrains(workshop, wanted, { order, limit: 1000 })
      expect(all.trains.length).toBeGreaterThan(150)
      expect(all.trains.length).toBeLessThan(1000)
      for (const limit of [0, 1, 2, 7, 60]) {
        const some = findTrains(workshop, wanted, { order, limit })
        expect(some).toEqual({ ...all, trains: all.trains.slice(0, limit) })
      }
      const errors = all.trains.map((train) => Math.abs(train.errorPpm))
      const gears = all.trains.map(({ shafts }) => shafts.flatMap((shaft) => shaft.gears).length)
      for (let i = 1; i < errors.length; i++) {
        const [first, then] = order === 'closest' ? [errors, gears] : [gears, errors]
        expect(first[i]).toBeGreaterThanOrEqual(first[i - 1])
        if (first[i] === first[i - 1]) expect(then[i]).toBeGreaterThanOrEqual(then[i - 1])
      }
    }
  })
})

describe('fixed gears', () => {
  // One 30 that may sit on the output, another that may not.
  const thirties: GearStock[] = [
    { teeth: 30, shafts: ['input', 'output'] },
    { teeth: 30, shafts: ['input', 'stud'] },
  ]
  const lathe = { studs: 1, fixedGears: { input: { teeth: 30 }, output: { teeth: 30 } } }

  it('are dealt out of what is owned so that both have their place', () => {
    for (const gears of [thirties, [...thirties].reverse()]) {
      const { trains } = findTrains(shop([...gears, ...box(20)], lathe), { pitch: '1' })
      expect(trains.map(spell)).toEqual(['30-20-30'])
    }
  })

  it('leave the copy that serves elsewhere', () => {
    // 30 fixed on the input drives 40 over the other 30 as idler, or 30 on the output over 40: whichever copy is left.
    for (const gears of [thirties, [...thirties].reverse()]) {
      const workshop = shop([...gears, ...box(40)], { studs: 1, fixedGears: { input: { teeth: 30 } } })
      expect(findTrains(workshop, { pitch: '3/4' }).trains.map(spell)).toEqual(['30-30-40'])
      expect(findTrains(workshop, { pitch: '1' }).trains.map(spell)).toEqual(['30-40-30'])
    }
  })
})

describe('orders', () => {
  it('by hand: a plain train that is off before a compound one that is not, or after it', () => {
    // 20:41 is short by 1/41; 20 x 30 : 25 x 48 is half a turn exactly, with a gear more.
    const workshop = shop(box(20, 25, 30, 41, 48), { studs: 1, shaftClearance: 1 })
    const first = (options?: FindOptions) =>
      findTrains(workshop, { pitch: '1/2', tolerance: { ppm: 30_000 } }, options).trains[0]
    for (const options of [undefined, { order: 'fewest gears' }] as const)
      expect(spell(first(options))).toBe('20-25-41')
    expect(first({ order: 'closest' })).toMatchObject({ errorPpm: 0, stages: [{}, {}] })
  })
})

describe('the closest train, none being within tolerance', () => {
  it('is the least off, not the one with fewest gears', () => {
    // 20 x 30 : 25 x 47 is long by 25/1175, 20:41 short by 1/41, which is more.
    const workshop = shop(box(20, 25, 30, 41, 47), { studs: 1, shaftClearance: 1 })
    const { trains, closest } = findTrains(workshop, { pitch: '1/2', tolerance: { ppm: 0 } })
    expect(trains).toEqual([])
    expect(closest!.errorPpm).toBeCloseTo(25e6 / 1175, 6)
  })

  it('is looked for by each setting that can cut the hand at all', () => {
    // Without studs two gears cut left-hand but over the drive that reverses: 20:40 by half is a quarter.
    const drives = [{ ratio: 1 }, { ratio: '1/2', reverses: true }]
    const { closest } = findTrains(shop(box(20, 40), { studs: 0, drives }), { pitch: '0.3' })
    expect(closest).toMatchObject({ drive: 1, lead: { n: '1', d: '4' } })
  })
})

it('too many pairs are told as such, with the stages that would do', () => {
  // 150 gears by twos are 11,175 products; each pair of them is within so wide a tolerance, as is each of single gears.
  const row = Array.from({ length: 150 }, (_, i) => 20 + i)
  const wanted = { pitch: '1000', tolerance: { ppm: 999_999 } }
  expect(findTrains(shop(box(...row), { studs: 1 }), wanted)).toEqual({
    trains: [],
    counts: { withinTolerance: 0, mountable: 0 },
    closest: null,
    obstacles: [
      expect.objectContaining({ code: 'too-many', pairs: 11_175 ** 2 + 150 ** 2, stages: 1 }) as unknown as Obstacle,
    ],
  })
})

describe('progress', () => {
  // 40 gears by threes: thousands of sets within the tolerance.
  const large = shop(box(...Array.from({ length: 40 }, (_, i) => 20 + i)), { studs: 2 })
  const told = (wanted: Parameters<typeof findTrains>[1], workshop = large) => {
    const heard: [number, number][] = []
    const found = findTrains(workshop, wanted, { onProgress: (done, total) => heard.push([done, total]) })
    return { heard, found }
  }

  it('goes up to what there is, and changes nothing', () => {
    // Three meshes cut left-handed.
    const thread = { pitch: '0.7', hand: 'left' as const }
    const { heard, found } = told(thread)
    expect(found).toEqual(findTrains(large, thread))
    const [, total] = heard[0]
    expect(heard[0]).toEqual([0, total])
    expect(heard.length).toBeGreaterThan(found.counts.withinTolerance / 1024 - 2)
    heard.slice(1).forEach(([done, of], i) => {
      expect([done, of]).toEqual([1024 * (i + 1), total])
    })
    expect(heard.at(-1)![0]).toBeLessThanOrEqual(total)
    expect(found.counts.withinTolerance).toBeGreaterThan(20_000)
  })

  it('is told once where there is little to do', () => {
    expect(told({ pitch: '0.7' }, shop(box(20, 40))).heard).toEqual([[0, 0]])
  })

  it('a listener that throws ends the search', () => {
    const stop = () => {
      throw new Error('enough')
    }
    expect(() => findTrains(large, { pitch: '0.7' }, { onProgress: stop })).toThrow('enough')
  })
})
