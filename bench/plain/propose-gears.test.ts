import type { Lathe, ProposeOptions, ThreadWanted, Workshop } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { findWithinPlain } from './find-trains.js'
import { blankOf, permittedTeeth, proposeGearsPlain } from './propose-gears.js'
import { readShop } from './shop.js'

const shop = (gears: Workshop['gears'], lathe: Partial<Lathe> = {}): Workshop => ({
  lathe: { leadscrew: { pitch: '1 mm' }, studs: 1, ...lathe },
  gears,
})
const ask = (workshop: Workshop, pitches: string[], options: ProposeOptions, ppm = 0) => {
  const wanted: ThreadWanted[] = pitches.map((pitch) => ({ pitch, tolerance: { ppm } }))
  const { already, proposals, never } = proposeGearsPlain(workshop, wanted, options, findWithinPlain)
  return {
    already: already.map((a) => a.wanted),
    proposals: proposals.map(({ make, opens, worstErrorPpm }) => ({
      make: make.map((g) => g.teeth),
      opens: opens.map((o) => o.wanted),
      worst: worstErrorPpm,
    })),
    never,
  }
}
const box = [{ teeth: 20 }, { teeth: 40 }, { teeth: 30 }]

describe('one gear', () => {
  it('opens what it opens, best first', () => {
    // With one stud, from 20, 30, 40 and an idler: 0.5 is there already. 0.4 is 20:50 (idler 30 or 40); 0.6 is 30:50;
    // 4/7 is 40:70 and 20:35; 0.01 is out of reach of any single gear from 30 to 70 (20/70 x 30/40 = 3/14).
    const answer = ask(shop(box), ['0.5', '0.4', '0.6', '4/7', '0.01'], { teeth: [30, 70] })
    expect(answer.already).toEqual([0])
    expect(answer.never).toEqual([4])
    // 50 opens 0.4 and 0.6. 75 would open 0.4 by 30:75, but is out of range. 4/7 is opened by 35 (20:35) and 70 (40:70).
    // 0.4 and 0.6 by compounds of the new gear z with all of 20, 30, 40: drivers x driven is
    // z,20 : 30,40 (z = 24, 36: 36 gives 0.6), z,30 : 20,40 (z < 30), z,40 : 20,30 (z < 30),
    // and upside down 20,30 : z,40 (z = 37.5, 25), 20,40 : z,30 (66.7, 44.4), 30,40 : z,20 (150, 100);
    // 4/7 likewise: z = 120/7 x 2 = 34.3; 26.25; 46.7; 105. So nothing but 36.
    // For the compound 36,20 : 30,40 some arrangement must clear: 20:30 36:40 has 25 - 19 - 6.5 < 0, 20:40 36:30 has
    // 30 - 19 - 6.5 = 4.5 and 33 - 21 - 6.5 = 5.5.
    expect(answer.proposals).toEqual([
      { make: [50], opens: [1, 2], worst: 0 },
      { make: [35], opens: [3], worst: 0 },
      { make: [36], opens: [2], worst: 0 },
      { make: [70], opens: [3], worst: 0 },
    ])
  })

  it('counts a second copy, and a gear that only carries over', () => {
    // 1 : 1 wants two alike: 20:20, 30:30 or 40:40 each with an idler in between.
    expect(ask(shop(box), ['1'], { teeth: [20, 40] }).proposals.map((p) => p.make)).toEqual([[20], [30], [40]])
    // 20:40 is there but has no idler; any gear will do, second copies too.
    const two = ask(shop([{ teeth: 20 }, { teeth: 40 }]), ['0.5'], { teeth: [39, 41] })
    expect(two).toEqual({
      already: [],
      proposals: [
        { make: [39], opens: [0], worst: 0 },
        { make: [40], opens: [0], worst: 0 },
        { make: [41], opens: [0], worst: 0 },
      ],
      never: [],
    })
  })

  it('puts the smaller worst error first among equals', () => {
    // 0.4 within 3 %: 20:50 exactly, 20:49 and 20:51 off by 1/49 and 1/51.
    const answer = ask(shop(box), ['0.4'], { teeth: [49, 51] }, 30_000)
    expect(answer.proposals.map((p) => p.make[0])).toEqual([50, 51, 49])
    expect(answer.proposals[1].worst).toBeCloseTo(1e6 / 51, 6)
  })
})

describe('pairs', () => {
  it('never has one of which a single gear opens as much', () => {
    // 0.4 needs 50, 4/7 needs 35 or 70: so of 35, 50, 70 the pairs 35,50 and 50,70 open both, while 35,70 opens 4/7
    // alone, as either does by itself, and 50,50 or 35,35 no more than one does.
    const answer = ask(shop(box), ['0.4', '4/7'], { make: 2, makeable: [35, 50, 70] })
    expect(answer.proposals).toEqual([
      { make: [35, 50], opens: [0, 1], worst: 0 },
      { make: [50, 70], opens: [0, 1], worst: 0 },
    ])
    expect(answer.never).toEqual([])
  })
})

describe('what can be made', () => {
  it('takes the commonest module and its commonest angle', () => {
    const of = (gears: Workshop['gears'], options = {}) => blankOf(readShop(shop(gears)), options)
    expect(of(box)).toEqual({ module: 1, pressureAngle: 20 })
    const mixed = [
      { teeth: 20, count: 3, dp: 20, pressureAngle: 14.5 },
      { teeth: 30, module: 1 },
      { teeth: 40, module: 1 },
    ]
    expect(of(mixed)).toEqual({ module: 1.27, dp: 20, pressureAngle: 14.5 })
    expect(of(mixed, { module: 1 })).toEqual({ module: 1, pressureAngle: 20 })
    expect(of(mixed, { module: 3 })).toEqual({ module: 3, pressureAngle: 14.5 })
    expect(of([{ teeth: 20, module: 2 }, { teeth: 20 }])).toEqual({ module: 1, pressureAngle: 20 })
  })

  it('leaves wall over bore and keyway', () => {
    // Module 1: the root of z teeth is (z - 2.5) / 2 out. Bore 12 and a keyway of 1.5 leave (z - 2.5) / 2 - 7.5, which
    // is 3 at z = 23.5.
    const blank = { module: 1, pressureAngle: 20 }
    const options = { teeth: [20, 26] as [number, number], blank: { bore: 12, keyway: 1.5, wall: 3 } }
    expect(permittedTeeth(blank, options)).toEqual([24, 25, 26])
    expect(permittedTeeth(blank, { ...options, makeable: [20, 25, 40] })).toEqual([25])
    expect(permittedTeeth(blank, { ...options, blank: { bore: 12, wall: 3 } })).toEqual([21, 22, 23, 24, 25, 26])
  })
})
