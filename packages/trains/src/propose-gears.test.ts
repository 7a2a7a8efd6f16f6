import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { box, shop, spell } from '../../../bench/plain/in-brief.js'
import type { GearProposals, ProposeOptions, ThreadWanted, Workshop } from './contract.js'
import { findTrains, proposeGears } from './index.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 60)

const exactly = (...pitches: string[]): ThreadWanted[] => pitches.map((pitch) => ({ pitch, tolerance: { ppm: 0 } }))
const brief = ({ already, proposals, never }: GearProposals) => ({
  already: already.map((a) => a.wanted),
  proposals: proposals.map(({ make, opens }) => [make.map((g) => g.teeth), opens.map((o) => o.wanted)]),
  never,
})
const small = shop(box(20, 30, 40), { studs: 1 })

describe('one gear', () => {
  it('most threads first, then the smallest error, then fewest teeth', () => {
    // 0.5 is there by 20-30-40. 0.4 is 20:50, 0.6 is 30:50; 4/7 is 20:35 and 40:70; and of 20, 30, 40 and one more in two
    // stages only 36 x 20 : 30 x 40 = 0.6 is exact. 0.01 is out of reach: 20/70 x 30/40 is 0.21.
    const wanted = exactly('0.5', '0.4', '0.6', '4/7', '0.01')
    expect(brief(proposeGears(small, wanted, { teeth: [30, 70] }))).toEqual({
      already: [0],
      proposals: [
        [[50], [1, 2]],
        [[35], [3]],
        [[36], [2]],
        [[70], [3]],
      ],
      never: [4],
    })
    // 20:49 and 20:51 are off by 1/49 and 1/51.
    const near = proposeGears(small, [{ pitch: '0.4', tolerance: { ppm: 30_000 } }], { teeth: [49, 51] })
    expect(near.proposals.map(({ make }) => make[0].teeth)).toEqual([50, 51, 49])
    expect(near.proposals.map((p) => p.worstErrorPpm)).toEqual([
      0,
      expect.closeTo(1e6 / 51, 6),
      expect.closeTo(1e6 / 49, 6),
    ])
  })

  it('a second copy, where the same gear stands twice', () => {
    const found = proposeGears(small, exactly('1'), { teeth: [20, 40] })
    expect(brief(found).proposals).toEqual([
      [[20], [0]],
      [[30], [0]],
      [[40], [0]],
    ])
    expect(spell(found.proposals[0].opens[0].train)).toBe('20-30-20')
  })

  it('a gear that only bridges, or turns the other way', () => {
    // 20:40 lacks nothing but an idler; left-handed it lacks a second one beside the 30.
    expect(brief(proposeGears(shop(box(20, 40), { studs: 1 }), exactly('0.5'), { teeth: [50, 52] })).proposals).toEqual(
      [
        [[50], [0]],
        [[51], [0]],
        [[52], [0]],
      ],
    )
    const left = [{ ...exactly('0.5')[0], hand: 'left' as const }]
    const found = proposeGears(shop(box(20, 40, 30)), left, { makeable: [45] })
    expect(found.proposals.map(({ opens }) => spell(opens[0].train))).toEqual(['20-30-45-40'])
  })

  it('a gear that only reaches', () => {
    // 50:30 over 50 mm on a banjo whose slot runs from 33 to 34 mm: an idler of z stands (30 + z)/2 from the output.
    const banjo = { swing: [0, 90] as [number, number], slots: [{ from: 33, to: 34 }] }
    const workshop = shop(box(50, 30, 30, 45), { studs: 1, centreDistance: 50, banjo })
    expect(brief(proposeGears(workshop, exactly('5/3'), {})).proposals).toEqual([
      [[36], [0]],
      [[37], [0]],
      [[38], [0]],
    ])
  })
})

describe('two gears', () => {
  it('only where neither does as much alone', () => {
    // 0.4 wants 50, 4/7 wants 35 or 70: 35 and 70 together open no more than either.
    expect(brief(proposeGears(small, exactly('0.4', '4/7'), { make: 2, makeable: [35, 50, 70] }))).toEqual({
      already: [],
      proposals: [
        [
          [35, 50],
          [0, 1],
        ],
        [
          [50, 70],
          [0, 1],
        ],
      ],
      never: [],
    })
  })

  it('two alike among them', () => {
    // 1 : 1 by 50-x-50 in a box of one gear that meshes with it.
    const found = proposeGears(shop(box(20), { studs: 1 }), exactly('1'), { make: 2, makeable: [50, 60] })
    expect(brief(found).proposals).toEqual([
      [[50, 50], [0]],
      [[60, 60], [0]],
      // 20 twice is not makeable, and 50 beside 60 makes no 1 : 1.
    ])
  })
})

describe('what may be made', () => {
  const counts = (options: ProposeOptions, workshop: Workshop = shop(box(20, 40), { studs: 1 })) =>
    proposeGears(workshop, exactly('0.5'), { limit: 1000, ...options }).proposals.map(({ make }) => make[0].teeth)

  it('is 20 to 127, unless told otherwise', () => {
    const all = counts({})
    expect([all[0], all[all.length - 1], all.length]).toEqual([20, 127, 108])
    expect(counts({ teeth: [30, 33] })).toEqual([30, 31, 32, 33])
    expect(counts({ makeable: [33, 31, 200, 31] })).toEqual([31, 33])
    expect(counts({ teeth: [32, 60], makeable: [31, 33] })).toEqual([33])
    expect(counts({ makeable: [] })).toEqual([])
  })

  it('leaves its wall over bore and keyway', () => {
    // The root of z teeth in module 1 is z/2 - 1.25 mm out; less a bore of 12 and a keyway of 1.5 that is z/2 - 8.75.
    const blank = { bore: 12, keyway: 1.5, wall: 3 }
    expect(counts({ teeth: [20, 26], blank })).toEqual([24, 25, 26])
    expect(counts({ teeth: [20, 26], blank: { ...blank, wall: 3.25 } })).toEqual([24, 25, 26])
    expect(counts({ teeth: [20, 26], blank: { bore: 12, wall: 3 } })).toEqual([21, 22, 23, 24, 25, 26])
    const twice = shop(
      box(20, 40).map((gear) => ({ ...gear, module: 2 })),
      { studs: 1 },
    )
    expect(counts({ teeth: [20, 26], blank }, twice)[0]).toBe(20)
  })

  it('comes in the commonest module of the box, and its commonest angle', () => {
    const gears = [
      { teeth: 20, dp: 20, pressureAngle: 14.5 },
      { teeth: 40, module: 1.27, pressureAngle: 14.5 },
      { teeth: 20, module: 1 },
      { teeth: 60, dp: 20, pressureAngle: 14.5, count: 2, shafts: ['input' as const] },
    ]
    const [first] = proposeGears(shop(gears, { studs: 1 }), exactly('0.5'), { teeth: [50, 50] }).proposals
    expect(first.make).toEqual([{ teeth: 50, module: 1.27, dp: 20, pressureAngle: 14.5 }])
    const asked = proposeGears(shop(gears, { studs: 1 }), exactly('0.5'), {
      makeable: [40],
      module: 1,
      pressureAngle: 20,
    })
    expect(asked.proposals).toEqual([])
    const idler = proposeGears(shop([...gears, { teeth: 40 }], { studs: 1 }), [{ pitch: '1/3' }], {
      makeable: [60],
      module: 1,
      pressureAngle: 20,
    })
    expect(idler.proposals[0].make).toEqual([{ teeth: 60, module: 1, pressureAngle: 20 }])
  })

  it('never changes which gear is fixed', () => {
    // The fixed 30 is one of module 1.5, the only 30; a 30 of module 1 would come first by its bare name.
    const gears = [{ teeth: 30, module: 1.5 }, ...box(20, 40, 60)]
    const workshop = shop(gears, { studs: 1, fixedGears: { input: { teeth: 30 } } })
    const { proposals } = proposeGears(workshop, exactly('0.5', '0.75'), { makeable: [30], module: 1 })
    expect(proposals).toEqual([])
  })
})

describe('a promise', () => {
  const pitches = [
    '0.35',
    '0.4',
    '0.45',
    '0.5',
    '0.6',
    '0.7',
    '0.75',
    '0.8',
    '1',
    '1.25',
    '1.5',
    '26 tpi',
    '32 tpi',
    '0.5 module',
  ]
  const wishes = fc.record({
    gears: fc.array(fc.constantFrom(20, 24, 25, 30, 36, 40, 45, 50, 60, 65), { minLength: 3, maxLength: 6 }),
    studs: fc.constantFrom(1, 2),
    wanted: fc.array(
      fc.record({
        pitch: fc.constantFrom(...pitches),
        hand: fc.constantFrom('right' as const, 'left' as const),
        tolerance: fc.constant({ ppm: 5000 }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    make: fc.constantFrom(1 as const, 2 as const),
    makeable: fc.uniqueArray(fc.integer({ min: 20, max: 80 }), { minLength: 3, maxLength: 8 }),
  })
  const closest = (workshop: Workshop, wanted: ThreadWanted) =>
    findTrains(workshop, wanted, { order: 'closest', limit: 1 }).trains[0] ?? null

  it('is kept: with the gear added, asking again gives the train; and without it there is none', () => {
    let kept = 0
    const property = fc.property(wishes, ({ gears, studs, wanted, make, makeable }) => {
      const workshop = shop(box(...gears), { studs, shaftClearance: 5 })
      const { already, proposals, never } = proposeGears(workshop, wanted, { make, makeable, limit: 4 })
      const without = wanted.map((thread) => closest(workshop, thread))
      expect(already).toEqual(without.flatMap((train, i) => (train ? [{ wanted: i, train }] : [])))
      for (const { make: made, opens, worstErrorPpm } of proposals) {
        const more = { ...workshop, gears: [...workshop.gears, ...made] }
        for (const promised of opens) {
          expect(closest(more, wanted[promised.wanted])).toEqual(promised.train)
          expect(without[promised.wanted]).toBeNull()
          kept++
        }
        expect(worstErrorPpm).toBe(Math.max(...opens.map(({ train }) => Math.abs(train.errorPpm))))
        if (made.length < 2) continue
        // No smaller change does as much.
        for (const gear of made) {
          const one = { ...workshop, gears: [...workshop.gears, gear] }
          const alone = wanted.filter((thread, i) => !without[i] && closest(one, thread))
          expect(alone.length).toBeLessThan(opens.length)
        }
      }
      const settled = new Set([...already.map((a) => a.wanted), ...never])
      for (const { opens } of proposals) for (const o of opens) expect(settled.has(o.wanted)).toBe(false)
    })
    fc.assert(property, { numRuns })
    // A few wishes say little about shares.
    if (numRuns >= 50) expect(kept).toBeGreaterThan(numRuns)
  })

  it('never is never: none of the gears that may be made helps', () => {
    const property = fc.property(wishes, ({ gears, studs, wanted, makeable }) => {
      const workshop = shop(box(...gears), { studs, shaftClearance: 5 })
      for (const thread of proposeGears(workshop, wanted, { makeable }).never) {
        for (const teeth of makeable) {
          const more = { ...workshop, gears: [...workshop.gears, { teeth }] }
          expect(closest(more, wanted[thread])).toBeNull()
        }
      }
    })
    fc.assert(property, { numRuns: Math.min(numRuns, 30) })
  })
})

describe('progress', () => {
  it('is told from nothing to all, never backwards', () => {
    const heard: [number, number][] = []
    const wanted = exactly('0.5', '0.4', '0.6', '4/7', '0.01')
    proposeGears(small, wanted, { onProgress: (done, total) => heard.push([done, total]) })
    expect(heard.length).toBeGreaterThan(2)
    // 0.5 is cut already; the other four are looked at.
    expect(new Set(heard.map(([, total]) => total))).toEqual(new Set([4]))
    expect(heard[0][0]).toBe(0)
    expect(heard[heard.length - 1][0]).toBe(4)
    heard.forEach(([done], i) => {
      if (i > 0) expect(done).toBeGreaterThanOrEqual(heard[i - 1][0])
    })
  })

  it('may break the work off by throwing', () => {
    const stop = () => {
      throw new Error('enough')
    }
    expect(() => proposeGears(small, exactly('0.4'), { onProgress: stop })).toThrow('enough')
    // Nothing is left of it.
    expect(brief(proposeGears(small, exactly('0.4'), { makeable: [50] })).proposals).toEqual([[[50], [0]]])
  })
})
