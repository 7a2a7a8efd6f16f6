import { compare, divide, INCH, multiply, parsePitch, rational, toNumber } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { box, shop, spell } from '../../../bench/plain/in-brief.js'
import { rows } from '../../../test-data/rows.js'
import type { Hand, Lathe, SetUp } from './contract.js'
import { findTrains, leadOf, parseBox } from './index.js'

const teeth = (text: string): number[] => text.split(' ').map(Number)
const sorted = (numbers: number[]): number[] => [...numbers].sort((a, b) => a - b)
const setUp = (drivers: number[], driven: number[]): SetUp => ({
  stages: drivers.map((t, i) => ({ driver: { teeth: t }, driven: { teeth: driven[i] } })),
})
const screw = (pitch: string): Lathe => ({ leadscrew: { pitch } })

describe('printed gears', () => {
  const printed = rows('change-gears.csv')

  it('are all here', () => expect(printed).toHaveLength(28))

  it.each(printed)('$thread on $leadscrew by $drivers : $driven ($source)', (row) => {
    const [drivers, driven] = [teeth(row.drivers), teeth(row.driven)]
    const ppm = Number(row.errorPpm)
    const lathe: Lathe = { ...screw(row.leadscrew), studs: 1, shaftClearance: 1 }
    const { trains } = findTrains(
      { lathe, gears: parseBox(row.box) },
      { pitch: row.thread, tolerance: { ppm } },
      { limit: 1000 },
    )
    const found = trains.filter(
      ({ stages }) =>
        JSON.stringify(sorted(stages.map((s) => s.driver.teeth))) === JSON.stringify(sorted(drivers)) &&
        JSON.stringify(sorted(stages.map((s) => s.driven.teeth))) === JSON.stringify(sorted(driven)),
    )
    expect(found).toHaveLength(1)
    expect(found[0].error).toEqual(rational(ppm, 1_000_000))
    expect(found[0].errorPpm).toBe(ppm)
    expect(found[0].hand).toBe('right')
    const { lead } = leadOf(lathe, setUp(drivers, driven))
    expect(lead).toEqual(found[0].lead)
    expect(divide(lead, parsePitch(row.thread).mm)).toEqual(rational(1_000_000 + ppm, 1_000_000))
  })
})

describe('printed rules (F. D. Jones, Turning and Boring, 1914, ch. IV)', () => {
  it('equal wheels cut the screw constant', () => {
    expect(leadOf(screw('6 tpi'), setUp([40], [40])).lead).toEqual(parsePitch('6 tpi').mm)
  })

  it('for m mm on a leadscrew of C threads to the inch, 5 C m drives 127', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 20 }), fc.integer({ min: 1, max: 12 }), (perInch, mm) => {
        const { lead } = leadOf(screw(`${perInch} tpi`), setUp([5 * perInch * mm], [127]))
        expect(lead).toEqual(rational(mm))
      }),
    )
  })

  it('for N threads to the inch on a leadscrew of c mm, 127 drives 5 N c', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 40 }), fc.integer({ min: 1, max: 10 }), (perInch, mm) => {
        const { lead } = leadOf(screw(`${mm} mm`), setUp([127], [5 * perInch * mm]))
        expect(lead).toEqual(divide(INCH, rational(perInch)))
      }),
    )
  })

  it('a pair of 83 and 84 shortens a pitch of 0.200 in to 0.19762 in', () => {
    const { lead } = leadOf(screw('0.2 in'), setUp([83], [84]))
    expect(toNumber(divide(lead, INCH)).toFixed(5)).toBe('0.19762')
  })

  it('an idler of any size leaves the ratio alone', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 12, max: 127 }), { maxLength: 4 }), (idlers) => {
        const stage = { driver: { teeth: 24 }, driven: { teeth: 36 }, idlers: idlers.map((t) => ({ teeth: t })) }
        expect(leadOf(screw('6 tpi'), { stages: [stage] }).lead).toEqual(parsePitch('9 tpi').mm)
      }),
    )
  })

  // An intermediate wheel more reverses the leadscrew: J. Rose, Modern Machine-Shop Practice, 1887-8, says the same.
  it('an odd number of idlers in a simple train cuts as the leadscrew is, an even number the other hand', () => {
    const hands = (leadscrew: Hand) =>
      [0, 1, 2, 3].map((n) => {
        const idlers = Array.from({ length: n }, () => ({ teeth: 30 }))
        const stage = { driver: { teeth: 24 }, driven: { teeth: 36 }, idlers }
        return leadOf({ leadscrew: { pitch: '6 tpi', hand: leadscrew } }, { stages: [stage] }).hand
      })
    expect(hands('right')).toEqual(['left', 'right', 'left', 'right'])
    expect(hands('left')).toEqual(['right', 'left', 'right', 'left'])
    const ask = (hand: Hand) =>
      findTrains(shop(box(24, 36, 48, 50), { ...screw('6 tpi'), shaftClearance: 5 }), { pitch: '9 tpi', hand }).trains
    expect(spell(ask('right')[0])).toBe('24-48-36')
    expect(spell(ask('left')[0])).toBe('24-48-50-36')
  })
})

it('2.3 threads to the inch on 1.8 want a compound train (Construction Tools, 19th c., selection of wheels)', () => {
  // The wheel for a 20 would have 20 x 2.3 / 1.8 = 25.56 teeth; 18/23 is 36 x 30 / (60 x 23), for one.
  const gears = [20, 23, 25, 26, 30, 36, 60]
  const ask = (stages: number) =>
    findTrains(
      shop(box(...gears), { ...screw('1.8 tpi'), studs: 1, shaftClearance: 1 }),
      { pitch: '2.3 tpi', tolerance: { ppm: 0 } },
      { stages },
    ).trains.map(spell)
  expect(ask(1)).toEqual([])
  expect(ask(2).length).toBeGreaterThan(0)
})

it('355/113 and 333/106 come as near to pi as the books have it (continued fraction of pi, from memory)', () => {
  const ask = (driver: number, driven: number) => {
    const gears = box(driver, driven, 30)
    const { trains } = findTrains(shop(gears, { studs: 1 }), { pitch: '1 module', tolerance: { ppm: 30 } })
    expect(trains).toHaveLength(1)
    expect(trains[0].approximate).toBe(true)
    return trains[0].errorPpm
  }
  expect(ask(355, 113)).toBeCloseTo(0.085, 3)
  expect(ask(333, 106)).toBeCloseTo(-26.49, 3)
})

it('a lead is exact to the last digit', () => {
  // 25.4 mm / 6 x 24/36 = 127/45 mm, which is 9 to the inch; and nothing else.
  const { lead } = leadOf(screw('6 tpi'), setUp([24], [36]))
  expect(lead).toEqual({ n: '127', d: '45' })
  expect(compare(multiply(lead, rational(9)), INCH)).toBe(0)
})
