import type { Lathe, ThreadWanted, Train, Workshop } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { shaftsOf } from './arrangements.js'
import { neighbourSpares } from './clearances.js'
import { findTrainsPlain, toleranceOf } from './find-trains.js'
import { compareFractions, fraction } from './fraction.js'
import { gearSets } from './gear-sets.js'
import { readShop } from './shop.js'

const box = (...teeth: number[]): Workshop['gears'] => teeth.map((t) => ({ teeth: t }))
const shop = (gears: Workshop['gears'], lathe: Partial<Lathe> = {}): Workshop => ({
  lathe: { leadscrew: { pitch: '1 mm' }, ...lathe },
  gears,
})
/** '30-50-60 40-80': driver, idlers, driven of each stage. */
const spell = (train: Train | null | undefined): string | undefined =>
  train?.stages.map((s) => [s.driver, ...s.idlers, s.driven].map((g) => g.teeth).join('-')).join(' ')
const half: ThreadWanted = { pitch: '0.5 mm', tolerance: { ppm: 0 } }

describe('worked examples of F. D. Jones, Turning and Boring, 1914, ch. IV (leadscrew of 6 threads to the inch)', () => {
  const six = { leadscrew: { pitch: '6 tpi' } }

  it('cuts 9 to the inch with 24 driving 36 over an idler', () => {
    // 6/9 = 24/36. One mesh and one idler make two meshes, so the leadscrew turns as the spindle does: right-hand.
    const found = findTrainsPlain(shop(box(24, 36, 50), { ...six, studs: 1 }), { pitch: '9 tpi' })
    expect(found.counts).toEqual({ withinTolerance: 1, mountable: 1 })
    expect(spell(found.trains[0])).toBe('24-50-36')
    expect(found.trains[0]).toMatchObject({
      ratio: { n: '2', d: '3' },
      lead: { n: '127', d: '45' }, // 25.4/9
      error: { n: '0', d: '1' },
      errorPpm: 0,
      hand: 'right',
      cautions: [],
      layout: null,
    })
    expect(found.trains[0].shafts.map((s) => s.shaft)).toEqual(['input', 'stud', 'output'])
  })

  it('cuts 24 to the inch with 40 and 30 driving 80 and 60', () => {
    // 6/24 = 40 x 30 / (80 x 60); no other two of each give it. With 6.5 mm round a shaft the four arrangements spare
    // 30:60 40:80   60/2 - ... : (30+60)/2 - 42/2 - 6.5 = 17.5 and (40+80)/2 - 62/2 - 6.5 = 22.5
    // 30:80 40:60   55 - 21 - 6.5 = 27.5 and 50 - 41 - 6.5 = 2.5
    // 40:60 30:80   50 - 16 - 6.5 = 27.5 and 55 - 31 - 6.5 = 17.5
    // 40:80 30:60   60 - 16 - 6.5 = 37.5 and 45 - 41 - 6.5 = -2.5, which fouls.
    // The first and third have their 5 mm; the first reads smaller.
    const found = findTrainsPlain(shop(box(30, 40, 60, 80), { ...six, studs: 1 }), { pitch: '24 tpi' })
    expect(found.counts).toEqual({ withinTolerance: 1, mountable: 1 })
    expect(spell(found.trains[0])).toBe('30-60 40-80')
    expect(found.trains[0].cautions.map((c) => c.code)).toEqual(['clearance-assumed'])
    expect(found.trains[0].shafts).toMatchObject([
      { shaft: 'input', gears: [{ gear: { teeth: 30 }, plane: 1 }] },
      {
        shaft: 'stud',
        gears: [
          { gear: { teeth: 60 }, plane: 1 },
          { gear: { teeth: 40 }, plane: 2 },
        ],
      },
      { shaft: 'output', gears: [{ gear: { teeth: 80 }, plane: 2 }] },
    ])
  })

  it('keeps to a shaft clearance to the last hair', () => {
    // Both arrangements with most to spare have 45 - 21 = 55 - 31 = 24 mm in all.
    const ask = (shaftClearance: number) =>
      findTrainsPlain(shop(box(30, 40, 60, 80), { ...six, studs: 1, shaftClearance }), { pitch: '24 tpi' })
    expect(ask(24).counts).toEqual({ withinTolerance: 1, mountable: 1 })
    expect(ask(24).trains[0].cautions).toEqual([])
    expect(ask(24.001).counts).toEqual({ withinTolerance: 1, mountable: 0 })
  })
})

describe('ratio and tolerance', () => {
  it('counts a set that stands exactly at the border as inside', () => {
    // 20/40 of 1 mm is 0.5 mm; 0.5 / (1000/2001) = 2001/2000, which is 500 ppm too long.
    const ask = (ppm: number) =>
      findTrainsPlain(shop(box(20, 40, 30)), { pitch: '1000/2001', tolerance: { ppm } }).counts.withinTolerance
    expect(ask(500)).toBe(1)
    expect(ask(499.999999)).toBe(0)
  })

  it('keeps just the sets whose error is at most the tolerance', () => {
    const read = readShop(shop(box(20, 25, 30, 40, 45, 50, 60)))
    const half = fraction(1, 2)
    const every = [...gearSets(read, half, 3, null)]
    // 7 x 6 simple sets, (7 over 2) x (5 over 2) of two stages, (7 over 3) x (4 over 3) of three.
    expect(every.length).toBe(42 + 21 * 10 + 35 * 4)
    // Each error that occurs is a border of its own.
    for (const { off } of every) {
      const kept = every.filter((set) => compareFractions(set.off, off) <= 0)
      if (compareFractions(off, fraction(1)) < 0) expect([...gearSets(read, half, 3, off)]).toEqual(kept)
    }
  })

  it('reads an error over a length', () => {
    // 0.005 mm in 10 mm is 1/2000.
    const { n, d } = toleranceOf({ pitch: '1', tolerance: { error: '0.005 mm', over: '10 mm' } })
    expect(Number(n) * 2000).toBe(Number(d))
  })

  it('takes the lead of several starts', () => {
    // Two starts of 0.25 mm make a lead of 0.5 mm.
    expect(findTrainsPlain(shop(box(20, 40, 30)), { pitch: '0.25', starts: 2 }).counts.withinTolerance).toBe(1)
  })

  it('tells sets apart by kind, not by gear', () => {
    // 20x2 and 40x2: 20:40 once; 20,20 : 40,40 is 1/4. With 30: nothing else gives 1/2.
    const gears = [{ teeth: 20, count: 2 }, { teeth: 40, count: 2 }, { teeth: 30 }]
    expect(findTrainsPlain(shop(gears), half).counts.withinTolerance).toBe(1)
    expect(findTrainsPlain(shop(gears), { pitch: '0.25' }).counts.withinTolerance).toBe(1)
  })

  it('keeps a simple train of two equal gears and leaves out a compound set with one gear on both sides', () => {
    // Ratio 1 from 20x2 and 30x2: 20:20 and 30:30; 20,30 : 20,30 says no more.
    const gears = [
      { teeth: 20, count: 2 },
      { teeth: 30, count: 2 },
    ]
    expect(findTrainsPlain(shop(gears), { pitch: '1' }).counts.withinTolerance).toBe(2)
    // With the 20 fixed on the input, 20 may stand on both sides, but not 30 with it; 20,20 : 20,20 wants four.
    const fixed = { fixedGears: { input: { teeth: 20 } } }
    expect(findTrainsPlain(shop(gears, fixed), { pitch: '1' }).counts.withinTolerance).toBe(2)
    // 20,20 : 20,30 is 2/3 with three gears of 20, and 20:30 too; the shorter is found anyway.
    const three = [{ teeth: 20, count: 3 }, { teeth: 30 }]
    expect(findTrainsPlain(shop(three, fixed), { pitch: '2/3' }).counts.withinTolerance).toBe(2)
    expect(findTrainsPlain(shop(three), { pitch: '2/3' }).counts.withinTolerance).toBe(1)
  })

  it('counts settings of one fixed ratio once, and shows the lowest that turns the right way', () => {
    // Ratio 1/2 by 1 x 20:40, by 2 x 20:80; the tumbler of ratio 1 (index 1, reversing) is the same fixed ratio.
    const drives = [{ ratio: 1 }, { ratio: '1', reverses: true }, { ratio: 2 }]
    const found = findTrainsPlain(shop(box(20, 40, 80), { drives, studs: 1 }), half)
    // also 40:80 by 1, so three sets: (1; 20:40), (1; 40:80), (2; 20:80).
    expect(found.counts).toEqual({ withinTolerance: 3, mountable: 3 })
    // One idler and one stage: even, so the plain way through. Equal in all else, the smaller idler comes first.
    expect(found.trains.map((t) => [t.drive, spell(t)])).toEqual([
      [0, '40-20-80'],
      [2, '20-40-80'],
      [0, '20-80-40'],
    ])
    const left = findTrainsPlain(shop(box(20, 40, 80), { drives, studs: 1 }), { ...half, hand: 'left' })
    expect(left.trains.map((t) => t.drive)).toEqual([1, 1])
  })
})

describe('hand and idlers', () => {
  it('adds an idler to turn the other way, and a left-hand leadscrew turns the rule round', () => {
    // Simple train, two studs: one idler cuts right-hand, two cut left-hand.
    const gears = box(20, 40, 30, 35)
    const ask = (hand: 'left' | 'right', screw: 'left' | 'right') =>
      spell(
        findTrainsPlain(shop(gears, { leadscrew: { pitch: '1 mm', hand: screw }, shaftClearance: 5 }), {
          ...half,
          hand,
        }).trains[0],
      )
    expect(ask('right', 'right')).toBe('20-30-40')
    expect(ask('left', 'right')).toBe('20-30-35-40')
    expect(ask('left', 'left')).toBe('20-30-40')
    expect(ask('right', 'left')).toBe('20-30-35-40')
  })

  it('has no train when the only spare gear cannot be an idler', () => {
    const spare = (gear: Workshop['gears'][0]) =>
      findTrainsPlain(shop([...box(20, 40), gear], { studs: 1 }), half).counts
    expect(spare({ teeth: 30 })).toEqual({ withinTolerance: 1, mountable: 1 })
    expect(spare({ teeth: 30, module: 2 }).mountable).toBe(0)
    expect(spare({ teeth: 30, pressureAngle: 14.5 }).mountable).toBe(0)
    expect(spare({ teeth: 30, shafts: ['input', 'output'] }).mountable).toBe(0)
  })

  it('lets two gears meet directly where there is no stud, or where the shafts stand right', () => {
    const left: ThreadWanted = { ...half, hand: 'left' }
    const ask = (lathe: Partial<Lathe>) => findTrainsPlain(shop(box(20, 40), lathe), left).counts.mountable
    expect(ask({ studs: 0 })).toBe(1)
    expect(ask({ studs: 1 })).toBe(0)
    // (20 + 40) / 2 = 30 mm, and up to a tenth of a module more.
    expect(ask({ studs: 1, centreDistance: 30 })).toBe(1)
    expect(ask({ studs: 1, centreDistance: 30.1 })).toBe(1)
    expect(ask({ studs: 1, centreDistance: 30.11 })).toBe(0)
    expect(ask({ studs: 1, centreDistance: 29.99 })).toBe(0)
  })

  it('wants a chain that can span the centre distance', () => {
    // 20-30-40: meshes of 25 and 35 mm reach from 10 to 60 mm.
    const ask = (centreDistance: number) =>
      findTrainsPlain(shop(box(20, 40, 30), { studs: 1, centreDistance }), half).counts.mountable
    expect([9.9, 10, 60, 60.1].map(ask)).toEqual([0, 1, 1, 0])
  })
})

describe('what may sit where', () => {
  it('keeps fixed gears in place', () => {
    // 1/2 by 20:40 and 40:80; with 40 fixed on the input only the second; its idler is 20.
    const found = findTrainsPlain(shop(box(20, 40, 80), { studs: 1, fixedGears: { input: { teeth: 40 } } }), half)
    expect(found.counts).toEqual({ withinTolerance: 2, mountable: 1 })
    expect(spell(found.trains[0])).toBe('40-20-80')
    const output = findTrainsPlain(shop(box(20, 40, 80), { studs: 1, fixedGears: { output: { teeth: 40 } } }), half)
    expect(spell(output.trains[0])).toBe('20-80-40')
  })

  it('never uses the copy that is kept for one shaft on another', () => {
    // Two 30s: one for the input only, one for the output only. 30:30 with idler 20 works; 20-30-x cannot.
    const gears: Workshop['gears'] = [
      { teeth: 30, shafts: ['input'] },
      { teeth: 30, shafts: ['output'] },
      { teeth: 20 },
      { teeth: 40 },
    ]
    const ask = (pitch: string) => findTrainsPlain(shop(gears, { studs: 1 }), { pitch, tolerance: { ppm: 0 } }).counts
    expect(ask('1')).toEqual({ withinTolerance: 1, mountable: 1 })
    // 20:40 would need a 30 on the stud.
    expect(ask('0.5')).toEqual({ withinTolerance: 1, mountable: 0 })
  })

  it('keeps to the room on the fixed shafts', () => {
    // Tip radius of 40 teeth: 42 / 2 = 21 mm; of 20: 11 mm.
    const ask = (room: { input?: number; output?: number }) =>
      findTrainsPlain(shop(box(20, 40, 30), { studs: 1, room }), half).counts.mountable
    expect(ask({ output: 21 })).toBe(1)
    expect(ask({ output: 20.9 })).toBe(0)
    expect(ask({ input: 11 })).toBe(1)
    expect(ask({ input: 10.9 })).toBe(0)
  })

  it('mounts no compound train in one plane', () => {
    const gears = box(30, 40, 60, 80)
    const quarter: ThreadWanted = { pitch: '0.25' }
    expect(findTrainsPlain(shop(gears, { planes: 1 }), quarter).counts).toEqual({ withinTolerance: 1, mountable: 0 })
    expect(findTrainsPlain(shop(gears, { planes: 2 }), quarter).counts.mountable).toBe(1)
  })

  it('keeps tips in one plane apart', () => {
    // Over the mesh of stage 2 lie stage 1's driven gear and stage 3's driver, with two planes both in plane 1.
    // 22:60 61:24 20:26, with 0 mm round a shaft, spares
    // mesh 1, 41 mm: from the input to 61's tip 41 - 31.5 = 9.5
    // mesh 2, 42.5 mm: from stud 2 to 60's tip 42.5 - 31 = 11.5, from stud 1 to 20's tip 42.5 - 11 = 31.5,
    //   and between those tips 42.5 - 31 - 11 - 0.5 = 0
    // mesh 3, 23 mm: from the output to 24's tip 23 - 13 = 10
    const gear = (teeth: number) => ({ teeth, module: 1, pressureAngle: 20 })
    const pair = (driver: number, driven: number) => ({ driver: gear(driver), idlers: [], driven: gear(driven) })
    const spares = (planes: number) =>
      neighbourSpares(
        { leadscrew: { pitch: '1' }, shaftClearance: 0 },
        shaftsOf([pair(22, 60), pair(61, 24), pair(20, 26)], planes),
      ).sort((a, b) => a - b)
    expect(spares(2)).toEqual([0, 9.5, 10, 11.5, 31.5])
    expect(spares(3)).toEqual([9.5, 10, 11.5, 31.5])

    // 22 fixed on the input and 26 on the output leave four arrangements of {22, 61, 23 : 60, 24, 26}:
    // 22:60 61:24 23:26  42.5 - 31 - 12.5 - 0.5 = -1.5 between the tips of 60 and 23
    // 22:60 23:24 61:26  60's tip of 31 passes stud 2 at 23.5
    // 22:24 61:60 23:26  61's tip of 31.5 passes the input at 23
    // 22:24 23:60 61:26  41.5 - 13 - 31.5 - 0.5 = -3.5 between the tips of 24 and 61
    const counts = (planes: number) =>
      findTrainsPlain(
        shop(box(22, 61, 23, 60, 24, 26), {
          shaftClearance: 0.001,
          planes,
          fixedGears: { input: { teeth: 22 }, output: { teeth: 26 } },
        }),
        { pitch: `${22 * 61 * 23}/${60 * 24 * 26}`, tolerance: { ppm: 0 }, hand: 'left' },
      ).counts
    expect(counts(2)).toEqual({ withinTolerance: 1, mountable: 0 })
    expect(counts(3)).toEqual({ withinTolerance: 1, mountable: 1 })
  })

  it('meshes a module only with itself, and lets a compound pair have two', () => {
    // 20:40 in module 1 and 30:60 in 20 DP: 1/4 in one way only, each stage in its own module.
    const gears: Workshop['gears'] = [...box(20, 40), { teeth: 30, dp: 20 }, { teeth: 60, dp: 20 }]
    const found = findTrainsPlain(shop(gears, { studs: 1 }), { pitch: '0.25', tolerance: { ppm: 0 } })
    expect(found.counts).toEqual({ withinTolerance: 1, mountable: 1 })
    // Spare of 20:40 30:60 : 30 - 1.27 x 32/2 - 6.5 x 1.27 = 1.425 and 1.27 x 45 - 21 - 6.5 = 29.65;
    // of 30:60 20:40 : 57.15 - 11 - 6.5 = 39.65 and 30 - 1.27 x 31 - 8.255 < 0. So the first.
    expect(spell(found.trains[0])).toBe('20-40 30-60')
    expect(found.trains[0].stages[1].driver).toEqual({ teeth: 30, module: 1.27, dp: 20, pressureAngle: 20 })
  })
})

describe('the best first', () => {
  it('prefers what is mounted, then small idlers', () => {
    const gears = box(20, 40, 30, 35)
    const ask = (...mounted: number[]) =>
      spell(
        findTrainsPlain(shop(gears, { studs: 1 }), half, {
          mounted: mounted.map((teeth) => ({ teeth })),
        }).trains[0],
      )
    expect(ask()).toBe('20-30-40')
    expect(ask(35)).toBe('20-35-40')
    expect(ask(35, 99)).toBe('20-35-40')
  })

  it('reads a row of gears that can be read two ways with its idlers nearer the input', () => {
    // 36 fixed on the output may stand on both sides: 20, 36 : 36, 36 is the row 20 36 36 36 36, and the third 36 may
    // be the idler of either stage. Both spare 5 mm and more: 36 - 19 - 4 = 13 or (20 + 36) / 2 - 19 - 4 = 5.
    const gears = [{ teeth: 20 }, { teeth: 36, count: 4 }]
    const found = findTrainsPlain(shop(gears, { shaftClearance: 4, fixedGears: { output: { teeth: 36 } } }), {
      pitch: '5/9',
      hand: 'left',
    })
    expect(found.trains.map(spell)).toEqual(['20-36-36-36', '20-36-36 36-36'])
  })

  it('orders by gears or by error, and gives the closest at any error', () => {
    // Wanted 0.26: 20:77 is 0.2597 (three gears with the idler), 20,39 : 40,75 is 0.26 exactly (four gears).
    const gears = box(20, 77, 39, 40, 75)
    const wanted: ThreadWanted = { pitch: '0.26', tolerance: { ppm: 2000 } }
    const fewest = findTrainsPlain(shop(gears, { studs: 1 }), wanted)
    expect(fewest.trains[0].stages.length).toBe(1)
    expect(fewest.closest?.error).toEqual({ n: '0', d: '1' })
    const closest = findTrainsPlain(shop(gears, { studs: 1 }), wanted, { order: 'closest' })
    expect(closest.trains[0].error).toEqual({ n: '0', d: '1' })
    expect(closest.counts).toEqual(fewest.counts)
    // Nothing near 0.31 within 1 ppm of it.
    const none = findTrainsPlain(shop(box(20, 40, 60), { studs: 1 }), { pitch: '0.31', tolerance: { ppm: 1 } })
    expect(none.trains).toEqual([])
    // Of 20:40, 20:60, 40:60 and their inverses 1/3 is nearest: 0.3333 / 0.31 - 1 = 7/93.
    expect(none.closest?.error).toEqual({ n: '7', d: '93' })
  })

  it('says what to mind', () => {
    // 4 mm from 1 mm by 80:20 steps up 4:1 and turns the leadscrew 4 times; the belt is plain.
    const drives = [{ ratio: 1, belt: 'plain' as const }]
    const found = findTrainsPlain(shop(box(80, 20, 40), { drives, studs: 1 }), { pitch: '4' })
    expect(found.trains[0].cautions.map((c) => c.code)).toEqual(['plain-belt', 'fast-leadscrew', 'steep-step-up'])
  })
})
