import { describe, expect, it } from 'vitest'
import { bareAnswer } from '../../../bench/plain/alike.js'
import { findTrainsPlain } from '../../../bench/plain/find-trains.js'
import { box, shop, spell } from '../../../bench/plain/in-brief.js'
import type { GearStock } from './contract.js'
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
