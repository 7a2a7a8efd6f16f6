import type { Banjo } from '@trainwright/trains'
import type { Point } from './chain.js'

export interface DrawnSlot {
  /** Counted from 1. */
  number: number
  /** Where a stud's centre stands at each end; the same place twice for a fixed hole. */
  from: Point
  to: Point
}

/** Half the width at which slots and the metal round them are drawn, mm: nobody measures it, so it is for the eye. */
export const SLOT_RADIUS = 6
const METAL = 9

/** The slots of a banjo swung to `swing` degrees, with shafts `centreDistance` apart, in the frame of the layout. */
export function slotsOf(banjo: Banjo, swing: number, centreDistance: number): DrawnSlot[] {
  const atInput = banjo.pivot === 'input'
  const pivot = pivotOf(banjo, centreDistance)
  return banjo.slots.map(({ angle = 0, offset = 0, from, to }, i) => {
    const turn = ((swing + angle + (atInput ? 180 : 0)) * Math.PI) / 180
    const [ux, uy] = [Math.cos(turn), Math.sin(turn)]
    const at = (along: number): Point => ({
      x: pivot.x + along * ux - offset * uy,
      y: pivot.y + along * uy + offset * ux,
    })
    return { number: i + 1, from: at(from), to: at(to) }
  })
}

export const pivotOf = (banjo: Banjo, centreDistance: number): Point =>
  banjo.pivot === 'input' ? { x: centreDistance, y: 0 } : { x: 0, y: 0 }

/** The plate as a polygon: the convex hull of its pivot and slots with metal round them. */
export function plateOf(pivot: Point, slots: readonly DrawnSlot[]): Point[] {
  const radius = SLOT_RADIUS + METAL
  const rim = [pivot, ...slots.flatMap(({ from, to }) => [from, to])].flatMap(({ x, y }) =>
    Array.from({ length: 32 }, (_, i) => {
      const turn = (i * Math.PI) / 16
      return { x: x + radius * Math.cos(turn), y: y + radius * Math.sin(turn) }
    }),
  )
  return convexHull(rim)
}

/** Andrew's monotone chain, anticlockwise. */
function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y)
  const half = (line: readonly Point[]): Point[] => {
    const hull: Point[] = []
    for (const p of line) {
      while (hull.length > 1 && !turnsLeft(hull.at(-2)!, hull.at(-1)!, p)) hull.pop()
      hull.push(p)
    }
    return hull.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

const turnsLeft = (a: Point, b: Point, c: Point): boolean =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 1e-9
