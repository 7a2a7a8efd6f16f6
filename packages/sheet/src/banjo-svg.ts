import { type DrawnSlot, SLOT_RADIUS } from './banjo.js'
import type { Point } from './chain.js'
import type { Pen } from './paper.js'
import { element, figures, lines } from './svg.js'

/** Pieces of a banjo that every drawing of one shows alike. */

export function circle({ at }: Pen, centre: Point, r: number, attributes: Record<string, string | number>): string {
  const { x, y } = at(centre)
  return element('circle', { cx: x, cy: y, r, ...attributes })
}

/** A straight line between two points of the frame. */
export function lineBetween({ at }: Pen, from: Point, to: Point): string {
  const [a, b] = [at(from), at(to)]
  return lines([
    [a.x, a.y],
    [b.x, b.y],
  ])
}

/** A fat line and a slightly thinner one of paper upon it: round ends come with the line caps. */
export function slotMark(pen: Pen, { from, to }: DrawnSlot): string {
  const { narrow } = pen
  const d = lineBetween(pen, from, to)
  return [
    element('path', { class: 'slot', d, 'stroke-width': 2 * SLOT_RADIUS }),
    element('path', { class: 'slot-inside', d, stroke: '#fff', 'stroke-width': 2 * SLOT_RADIUS - 2 * narrow }),
    element('path', { class: 'slot-axis', d, 'stroke-dasharray': figures(narrow * 12, narrow * 6) }),
  ].join('')
}

/** Castings and bolts, close hatched; the drawing defines the hatching (`solid`). */
export const keepOutMarks = (pen: Pen, keepOut: readonly { x: number; y: number; radius: number }[]): string[] =>
  keepOut.map((c) =>
    circle(pen, c, c.radius, { class: 'keep-out', 'stroke-width': pen.wide, fill: `url(#${pen.id}-solid)` }),
  )
