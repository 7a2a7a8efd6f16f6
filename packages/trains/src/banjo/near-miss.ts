import { HAIR } from '../bounds.js'
import type { Banjo } from '../contract.js'
import { PLAY } from '../search/rules.js'
import type { MeshDistance } from './places.js'
import { Arc, turn } from './turn.js'

/** One thing that keeps a chain from standing, and by how much, mm. Studs are counted from the pivot, from 1. */
export type Fault =
  | { what: 'slot'; mm: number; stud: number; slot: number; end: 'near' | 'far' }
  | { what: 'mesh'; mm: number; stud: number; slot: number | null; too: 'far' | 'near' }
  | { what: 'swing'; mm: number; degrees: number; stop: number }

export interface Miss {
  /** Sum of the faults: how far the chain is from standing. */
  mm: number
  faults: Fault[]
}

interface Partial extends Miss {
  x: number
  y: number
}

const meshFault = (gap: number, stud: number, slot: number | null): Fault => ({
  what: 'mesh',
  mm: Math.abs(gap),
  stud,
  slot,
  too: gap > 0 ? 'far' : 'near',
})

/** How much too far apart a mesh stands that nothing can adjust; negative when too near. */
const unadjusted = (apart: number, { mm, module }: MeshDistance): number =>
  apart < mm ? apart - mm : Math.max(0, apart - mm - PLAY * module)

/** Ways of standing kept at each stud, those with least amiss. Few studs and slots never have more. */
const KEPT = 64

/**
 * How nearly a chain of mesh distances, from the pivot to the far shaft, stands on the banjo: every slot, both solutions
 * of each circle, with the ends of slots and swing lifted, and the way that misses least.
 */
export function nearMiss(banjo: Banjo, centreDistance: number, chain: readonly MeshDistance[]): Miss {
  const slots = banjo.slots.map(({ angle = 0, offset = 0, from, to }) => ({ ...turn(angle), offset, from, to }))
  let ways: Partial[] = [{ mm: 0, faults: [], x: 0, y: 0 }]
  const worse = (way: Partial, x: number, y: number, ...faults: (Fault | null)[]): Partial => {
    const found = faults.filter((f): f is Fault => f !== null && f.mm > HAIR)
    return { x, y, faults: [...way.faults, ...found], mm: found.reduce((sum, f) => sum + f.mm, way.mm) }
  }

  chain.slice(0, -1).forEach((distance, i) => {
    const { mm } = distance
    const stud = i + 1
    const next: Partial[] = []
    for (const way of ways) {
      slots.forEach(({ c, s, offset, from, to }, slot) => {
        const put = (along: number, ...faults: (Fault | null)[]) =>
          next.push(worse(way, along * c - offset * s, along * s + offset * c, ...faults))
        const foot = way.x * c + way.y * s
        const aside = offset - (way.y * c - way.x * s)
        if (from === to) {
          const apart = Math.sqrt((from - foot) ** 2 + aside * aside)
          put(from, meshFault(unadjusted(apart, distance), stud, slot))
          return
        }
        const gap = Math.abs(aside) - mm
        const half = gap >= 0 ? 0 : Math.sqrt((mm - aside) * (mm + aside))
        for (const along of half > HAIR ? [foot + half, foot - half] : [foot]) {
          const beyond: Fault | null =
            along < from
              ? { what: 'slot', mm: from - along, stud, slot, end: 'near' }
              : along > to
                ? { what: 'slot', mm: along - to, stud, slot, end: 'far' }
                : null
          put(along, gap > 0 ? meshFault(gap, stud, slot) : null, beyond)
        }
      })
    }
    ways = next.sort((a, b) => a.mm - b.mm).slice(0, KEPT)
  })

  const last = chain[chain.length - 1]
  const { mm } = last
  // The far shaft counts as one stud more.
  const stud = chain.length
  if (stud === 1) return worse(ways[0], 0, 0, meshFault(unadjusted(centreDistance, last), stud, null))
  const arc = new Arc(banjo.swing[0], banjo.swing[1])
  const still = arc.least === arc.greatest ? turn(arc.least) : null
  let best: Partial | null = null
  for (const way of ways) {
    if (still) {
      const apart = Math.sqrt((way.x - centreDistance * still.c) ** 2 + (way.y + centreDistance * still.s) ** 2)
      const done = worse(way, 0, 0, meshFault(unadjusted(apart, last), stud, null))
      if (best === null || done.mm < best.mm) best = done
      continue
    }
    const radius = Math.sqrt(way.x * way.x + way.y * way.y)
    const far = Math.abs(centreDistance - radius) - mm
    const near = mm - centreDistance - radius
    const gap = Math.max(far, near)
    const along = radius > 0 ? (centreDistance ** 2 + (radius - mm) * (radius + mm)) / (2 * radius) : 0
    const bounded = Math.max(-centreDistance, Math.min(centreDistance, along))
    const aside = Math.sqrt(Math.max(0, (centreDistance - bounded) * (centreDistance + bounded)))
    for (const side of [1, -1]) {
      const c = radius > 0 ? (bounded * way.x - side * aside * way.y) / (radius * centreDistance) : 1
      const s = radius > 0 ? -(bounded * way.y + side * aside * way.x) / (radius * centreDistance) : 0
      const degrees = arc.degrees({ c, s })
      const stop = degrees < arc.least ? arc.least : Math.min(degrees, arc.greatest)
      const past = Math.abs(degrees - stop)
      const done = worse(way, 0, 0, gap > 0 ? meshFault(far > 0 ? gap : -gap, stud, null) : null, {
        what: 'swing',
        mm: (past * Math.PI * radius) / 180,
        degrees,
        stop,
      })
      if (best === null || done.mm < best.mm) best = done
    }
  }
  return best!
}
