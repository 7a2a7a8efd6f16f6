import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Banjo } from '../contract.js'
import { type Fault, nearMiss } from './near-miss.js'
import type { MeshDistance } from './places.js'

// The same by angles: every way of standing, none left out, with the law of cosines at the pivot.
interface Way {
  mm: number
  faults: Fault[]
}
const HAIR = 1e-9
const radians = (degrees: number): number => (degrees * Math.PI) / 180
const polar = (x: number, y: number, by: number): [number, number] => {
  const r = Math.hypot(x, y)
  const angle = Math.atan2(y, x) + radians(by)
  return [r * Math.cos(angle), r * Math.sin(angle)]
}
const also = (way: Way, ...faults: Fault[]): Way => {
  const real = faults.filter(({ mm }) => mm > HAIR)
  return { mm: real.reduce((sum, { mm }) => sum + mm, way.mm), faults: [...way.faults, ...real] }
}
const mesh = (apart: number, { mm, module }: MeshDistance, stud: number, slot: number | null): Fault => ({
  what: 'mesh',
  mm: Math.max(0, mm - apart, apart - mm - module / 10),
  stud,
  slot,
  too: apart > mm ? 'far' : 'near',
})

function everyWay(
  banjo: Banjo,
  centre: number,
  chain: MeshDistance[],
  at: [number, number],
  stud: number,
  way: Way,
): Way[] {
  const [link, ...rest] = chain
  if (rest.length === 0) return atTheFarShaft(banjo, centre, link, at, stud, way)
  return banjo.slots.flatMap(({ angle = 0, offset = 0, from, to }, slot) => {
    const [foot, y] = polar(...at, -angle)
    const aside = Math.abs(offset - y)
    const onFrom = (along: number, ...faults: Fault[]) =>
      everyWay(banjo, centre, rest, polar(along, offset, angle), stud + 1, also(way, ...faults))
    if (from === to) return onFrom(from, mesh(Math.hypot(from - foot, aside), link, stud, slot))
    const half = aside < link.mm ? link.mm * Math.sin(Math.acos(aside / link.mm)) : 0
    return (half > 0 ? [foot - half, foot + half] : [foot]).flatMap((along) => {
      const slotFault = (mm: number, end: 'near' | 'far'): Fault => ({ what: 'slot', mm, stud, slot, end })
      const short = mesh(Math.max(aside, link.mm), { ...link, module: 0 }, stud, slot)
      return onFrom(along, short, slotFault(from - along, 'near'), slotFault(along - to, 'far'))
    })
  })
}

function atTheFarShaft(
  { swing }: Banjo,
  centre: number,
  link: MeshDistance,
  [x, y]: [number, number],
  stud: number,
  way: Way,
) {
  const [least, most] = swing
  if (stud === 1) return [also(way, mesh(centre, link, stud, null))]
  if (least === most) {
    const [turnedX, turnedY] = polar(x, y, least)
    return [also(way, mesh(Math.hypot(turnedX - centre, turnedY), link, stud, null))]
  }
  const r = Math.hypot(x, y)
  // Nearest and furthest that the stud can come.
  const apart = Math.min(Math.max(link.mm, Math.abs(centre - r)), centre + r)
  const cosine = (r * r + centre * centre - link.mm ** 2) / (2 * r * centre)
  const corner = Math.acos(Math.min(1, Math.max(-1, cosine)))
  return [corner, -corner].map((angle) => {
    const raw = ((angle - Math.atan2(y, x)) * 180) / Math.PI
    const turns = [-720, -360, 0, 360, 720].map((turn) => {
      const degrees = raw + turn
      const stop = Math.min(Math.max(degrees, least), most)
      return { what: 'swing', mm: radians(Math.abs(degrees - stop)) * r, degrees, stop } as const
    })
    const past = turns.reduce((a, b) => (b.mm < a.mm ? b : a))
    return also(way, mesh(apart, { ...link, module: 0 }, stud, null), past)
  })
}

const alike = (faults: readonly Fault[]) =>
  faults.map((fault) => ({
    ...fault,
    mm: expect.closeTo(fault.mm, 4),
    ...(fault.what === 'swing' && { degrees: expect.closeTo(fault.degrees, 4), stop: expect.closeTo(fault.stop, 6) }),
  }))

const cases = fc.record({
  swing: fc.tuple(fc.integer({ min: -200, max: 200 }), fc.constantFrom(0, 15, 90, 200)),
  slots: fc.array(
    fc.record({
      angle: fc.integer({ min: -90, max: 90 }),
      offset: fc.integer({ min: -25, max: 25 }),
      from: fc.integer({ min: 5, max: 50 }),
      length: fc.constantFrom(0, 10, 60),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  chain: fc.array(fc.record({ mm: fc.integer({ min: 12, max: 70 }), module: fc.constantFrom(1, 2) }), {
    minLength: 1,
    maxLength: 4,
  }),
  centre: fc.integer({ min: 30, max: 120 }),
})

describe('how nearly a chain stands', () => {
  it('is what misses least of all ways to stand, worked out by angles', () => {
    const tried = { stands: 0, slot: 0, mesh: 0, swing: 0, told: 0 }
    // Three hundred cases, always the same ones.
    for (const { swing, slots, chain, centre } of fc.sample(cases, { numRuns: 300, seed: 20261125 })) {
      const banjo: Banjo = {
        swing: [swing[0], swing[0] + swing[1]],
        slots: slots.map(({ length, ...slot }) => ({ ...slot, to: slot.from + length })),
      }
      const found = nearMiss(banjo, centre, chain)
      const [best, rival] = everyWay(banjo, centre, chain, [0, 0], 1, { mm: 0, faults: [] }).sort((a, b) => a.mm - b.mm)
      expect(found.mm).toBeCloseTo(best.mm, 5)
      if (best.mm < 1e-6) tried.stands++
      for (const { what } of best.faults) tried[what]++
      // Where two ways miss by as much, either may be told.
      if (rival && rival.mm - best.mm < 1e-4) continue
      tried.told++
      expect(found.faults).toEqual(alike(best.faults))
    }
    for (const times of Object.values(tried)) expect(times).toBeGreaterThan(10)
  })

  it('of a stud on the pivot itself is no swing', () => {
    // A hole there stays 5 mm too near to its mesh, and the far shaft is 40 mm away for a mesh of 30, whichever way it lies.
    const banjo: Banjo = { swing: [10, 20], slots: [{ from: 0, to: 0 }] }
    const chain = [5, 30].map((mm) => ({ mm, module: 1 }))
    expect(nearMiss(banjo, 40, chain)).toMatchObject({
      mm: 15,
      faults: [
        { what: 'mesh', mm: 5, stud: 1, slot: 0, too: 'near' },
        { what: 'mesh', mm: 10, stud: 2, slot: null, too: 'far' },
      ],
    })
  })
})
