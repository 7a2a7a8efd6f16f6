import { describe, expect, it } from 'vitest'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { meshDistances, spans, tipRadius } from '../../../../bench/plain/clearances.js'
import { box, shop } from '../../../../bench/plain/in-brief.js'
import type { Gear, Lathe } from '../contract.js'
import { makeBox } from './box.js'
import type { Walk } from './chain.js'
import { tightest } from './clearances.js'
import { type Lifted, makeRules } from './rules.js'
import { makeSpanChain } from './span-chain.js'

const gears = box(20, 21, 24, 30, 31, 40, 45, 60, 62)
const { kinds } = makeBox(gears, undefined)
const kindOf = (teeth: number) => kinds.findIndex(({ gear }) => gear.teeth === teeth)
/** '30-40 20-45': driver, idlers, driven of each stage. */
const read = (train: string) => {
  const stages = train.split(' ').map((stage) => stage.split('-').map(Number))
  return { reading: stages.flat().map(kindOf), idlers: stages.map((stage) => stage.length - 2) }
}
const rulesOf = (parts: Partial<Lathe>, lifted: Lifted = {}) =>
  makeRules(shop(gears, parts).lathe, makeBox(gears, undefined), lifted)

describe('the tightest place without a banjo', () => {
  const found = (train: string, parts: Partial<Lathe>) => {
    const arrangement = { ...read(train), common: 0, spare: 0, idlerTeeth: 0, setting: 0 }
    const place = tightest(arrangement, rulesOf(parts))
    return place && [place.mm, kinds[place.kind].gear.teeth, place.near]
  }
  /** Every gear that passes a shaft or a gear on the shaft beside its own, from the shafts of the train. */
  function* places(train: string, lathe: Partial<Lathe>): Generator<[mm: number, teeth: number, near: string]> {
    const stages = train.split(' ').map((stage) => {
      const all = stage.split('-').map((teeth): Gear => ({ teeth: Number(teeth), module: 1, pressureAngle: 20 }))
      return { driver: all[0], idlers: all.slice(1, -1), driven: all[all.length - 1] }
    })
    const shafts = shaftsOf(stages, lathe.planes ?? 2)
    for (const [i, distance] of meshDistances(shafts).entries()) {
      const [left, right] = [shafts[i].gears.slice(0, -1), shafts[i + 1].gears.slice(1)]
      for (const { gear } of [...left, ...right])
        yield [distance - tipRadius(gear) - (lathe.shaftClearance ?? 6.5), gear.teeth, 'shaft']
      for (const a of left)
        for (const b of right)
          if (a.plane === b.plane) yield [distance - tipRadius(a.gear) - tipRadius(b.gear) - 0.5, b.gear.teeth, 'tip']
    }
  }

  const trains = [
    '30-40 20-45',
    '20-45 62-40',
    '20-24-45 62-40',
    '20-45 62-24-40',
    '45-20 30-60 24-40',
    '60-30 45-31 21-40',
    '30-60 31-62 20-24',
    '31-60 62-24 45-20',
    '30-60 31-21-62 20-24',
    '45-24-30 60-31-21 62-20',
    '60-20 45-21 40-24 31-30',
  ]
  it.each(trains)('is that of plain geometry: %s', (train) => {
    for (const parts of [{}, { shaftClearance: 0 }, { shaftClearance: 12 }, { shaftClearance: 0, planes: 3 }]) {
      const [first, second] = [...places(train, parts)].sort(([a], [b]) => a - b)
      const said = found(train, parts)
      expect(said?.[0]).toBeCloseTo(first[0], 9)
      if (second[0] - first[0] > 1e-6) expect(said?.slice(1)).toEqual(first.slice(1))
    }
  })

  it('is between tips where these are nearest: 31:60 62:24 45:20', () => {
    // (62 + 24) / 2 = 43 mm between the studs, tips of 60 and 45 in plane 1: 31 + 23.5 + 0.5.
    expect(found('31-60 62-24 45-20', { shaftClearance: 0 })).toEqual([-12, 45, 'tip'])
    expect(found('31-60 62-24 45-20', { shaftClearance: 0, planes: 3 })?.[2]).toBe('shaft')
  })

  it('is nowhere in a train of one stage', () => {
    for (const train of ['20-40', '20-30-40']) expect(found(train, {})).toBeNull()
  })
})

describe('a chain that must span a distance', () => {
  const none: Walk = { reading: new Int32Array(0), idlers: new Int32Array(0), stages: 0 }
  /** Walks the chain after a wrong way that it takes back. */
  function closed(train: string, centreDistance: number, lifted: Lifted = {}): number | null {
    const { reading } = read(train)
    const chain = makeSpanChain(rulesOf({ centreDistance }, lifted), centreDistance)
    chain.start()
    chain.push(kindOf(62), kindOf(60))
    chain.start()
    for (let i = 0; i + 2 < reading.length; i++) {
      expect(chain.push(kindOf(62), kindOf(60))).toBe(true)
      chain.push(kindOf(20), kindOf(20))
      chain.pop()
      chain.pop()
      expect(chain.push(reading[i], reading[i + 1])).toBe(true)
    }
    return chain.close(reading[reading.length - 2], reading[reading.length - 1], none, 3.25, true)
  }

  it('does so where plain geometry says that its sides close', () => {
    for (const train of [
      '20-40',
      '30-31',
      '62-60-20',
      '20-21-40',
      '20-60-20',
      '45-20-21-24',
      '24-62-20-60',
      '60-20-21-62',
    ]) {
      const stages = train
        .split('-')
        .map((teeth) => ({ gears: [{ gear: { teeth: Number(teeth), module: 1, pressureAngle: 20 }, plane: 1 }] }))
      const sums = meshDistances(stages)
      const total = sums.reduce((a, b) => a + b)
      const longest = Math.max(...sums)
      const edges = [total, 2 * longest - total, longest, 30, 30.5].flatMap((mm) => [
        mm - 0.2,
        mm - 1e-6,
        mm,
        mm + 0.05,
        mm + 0.1,
        mm + 0.2,
      ])
      for (const mm of edges.filter((edge) => edge > 0)) {
        expect([mm, closed(train, mm)]).toEqual([mm, spans(stages, mm) ? 3.25 : null])
        // With the reach lifted: by how much the longest side is too long; no more than 0, whatever is to spare.
        const sides = [...sums, mm]
        const short = 2 * Math.max(...sides) - sides.reduce((a, b) => a + b)
        if (sums.length > 1) expect(closed(train, mm, { reach: true })).toBeCloseTo(-Math.max(0, short), 9)
      }
    }
  })

  it('misses by the difference where two gears mesh directly', () => {
    expect([29, 30, 30.1, 31.5].map((mm) => closed('20-40', mm, { reach: true }))).toEqual([
      -1,
      3.25,
      3.25,
      expect.closeTo(-1.4, 9),
    ])
  })
})
