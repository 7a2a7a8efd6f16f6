import { SLOT_RADIUS } from '../banjo.js'
import { lineBetween } from '../banjo-svg.js'
import type { Point } from '../chain.js'
import type { Pen } from '../paper.js'
import { element, escapeText, figure, lines } from '../svg.js'
import type { Dimension } from './banjo-drawing.js'

/** A dimension on paper: its lines, and where along it its words may stand, best place first. */
interface Ruled {
  svg: string
  places: Place[]
}
interface Place extends Point {
  /** Degrees clockwise on paper, never upside down. */
  turn: number
}

/** Where words may stand, as parts of the length, and how wide a letter of the narrow faces is for its height. */
const PARTS = [0.5, 0.62, 0.38, 0.74, 0.26, 0.86, 0.14]
const LETTER = 0.48
const LANE = 1.25

/**
 * Draws dimension lines with their words standing in them, so that none covers another's nor comes on a shaft.
 * @param taken places on paper that words keep clear of, with their radii
 */
export function dimensionsSvg(pen: Pen, dimensions: readonly Dimension[], taken: readonly Disc[]): string[] {
  const ruled = dimensions.map((d) => ({ ...(d.kind === 'length' ? straight(pen, d) : arc(pen, d)), dimension: d }))
  const covered = [...taken]
  // The shortest line has the least choice.
  const words = new Map<Dimension, string>()
  for (const { dimension, places } of [...ruled].sort((a, b) => spanOf(a.dimension) - spanOf(b.dimension))) {
    const text = wordsOf(dimension)
    const tried = places.map((place) => {
      const discs = discsOf(pen, place, text)
      return { place, discs, covers: discs.filter((a) => covered.some((b) => touch(a, b))).length }
    })
    const best = tried.reduce((a, b) => (b.covers < a.covers ? b : a))
    covered.push(...best.discs)
    words.set(dimension, wordsAt(pen, best.place, text, isOpen(dimension)))
  }
  const group = (d: Dimension, svg: string) =>
    element('g', { class: isOpen(d) ? 'dimension open' : 'dimension', 'data-field': d.field }, svg)
  return [
    ...ruled.map(({ dimension, svg }) => group(dimension, svg)),
    ...ruled.map(({ dimension: d }) => words.get(d)!),
  ]
}

export interface Disc extends Point {
  r: number
}
const touch = (a: Disc, b: Disc): boolean => Math.hypot(a.x - b.x, a.y - b.y) < a.r + b.r

const spanOf = (d: Dimension): number =>
  d.kind === 'length' ? Math.hypot(d.to.x - d.from.x, d.to.y - d.from.y) : (Math.abs(d.to - d.from) * d.radius) / 57

const isOpen = ({ entry, optional }: Dimension): boolean => entry === null && !optional

/** What was typed may be long: the drawing has no room for more than a figure. */
const short = (entry: string): string => (entry.length > 9 ? `${entry.slice(0, 8)}…` : entry)
const wordsOf = ({ label, entry, optional }: Dimension): string =>
  entry !== null ? `${label}: ${short(entry)}` : optional ? label : `${label}: ?`

/** Words covered with discs in a row. */
function discsOf({ size }: Pen, { x, y, turn }: Place, text: string): Disc[] {
  const half = (text.length * size * LETTER) / 2
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)]
  const count = Math.ceil((2 * half) / size) + 1
  return Array.from({ length: count }, (_, i) => {
    const along = -half + (2 * half * i) / (count - 1)
    return { x: x + along * c, y: y + along * s, r: size * 0.55 }
  })
}

/** Words in a gap of their own: a halo of paper breaks the line under them. */
function wordsAt({ size }: Pen, { x, y, turn }: Place, text: string, open: boolean): string {
  const attributes = {
    class: 'words',
    transform: `translate(${figure(x)} ${figure(y)}) rotate(${figure(turn)})`,
    y: size * 0.35,
    'text-anchor': 'middle',
    fill: '#000',
    stroke: '#fff',
    'stroke-width': size * 0.4,
    'stroke-linejoin': 'round',
    'paint-order': 'stroke',
    ...(open && { 'font-weight': 700 }),
  }
  return element('text', attributes, escapeText(text))
}

const between = (a: Point, b: Point, part: number): Point => ({
  x: a.x + (b.x - a.x) * part,
  y: a.y + (b.y - a.y) * part,
})

/** Turned along the line on paper, and readable from below or from the right. */
function upright(a: Point, b: Point): number {
  const turn = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI
  return turn > 90 ? turn - 180 : turn <= -90 ? turn + 180 : turn
}

/** A line with a head at each end, moved aside by its lane, and the two thin lines that take it there. */
function straight(pen: Pen, { from, to, lane }: Dimension & { kind: 'length' }): Ruled {
  const { size, wide } = pen
  const long = Math.hypot(to.x - from.x, to.y - from.y)
  const [ux, uy] = [(to.x - from.x) / long, (to.y - from.y) / long]
  const way = Math.sign(lane)
  const aside = way * (SLOT_RADIUS + size * (LANE * Math.abs(lane) - 0.5))
  const move = (p: Point, by: number): Point => ({ x: p.x - uy * by, y: p.y + ux * by })
  const [a, b] = [move(from, lane && aside), move(to, lane && aside)]
  const beyond = aside + way * size * 0.25
  const taken = lane === 0 ? '' : lineBetween(pen, from, move(from, beyond)) + lineBetween(pen, to, move(to, beyond))
  const [start, end] = [pen.at(a), pen.at(b)]
  return {
    svg: [
      ...(taken ? [element('path', { class: 'extension', d: taken })] : []),
      element('path', { class: 'measure', d: lineBetween(pen, a, b), 'stroke-width': wide * 0.6 }),
      head(pen, start, end),
      head(pen, end, start),
    ].join(''),
    places: [0, 1, -1].flatMap((beside) => {
      const [from, to] = [a, b].map((p) => pen.at(move(p, beside * size * 1.1))) as [Point, Point]
      return PARTS.map((part) => ({ ...between(from, to, part), turn: upright(from, to) }))
    }),
  }
}

/** An arc about the pivot with a head where it ends, and the two directions between which it lies. */
function arc(pen: Pen, { centre, from, to, radius }: Dimension & { kind: 'angle' }): Ruled {
  const { size, wide } = pen
  const on = (degrees: number, r = radius): Point => {
    const turn = (degrees * Math.PI) / 180
    return pen.at({ x: centre.x + r * Math.cos(turn), y: centre.y + r * Math.sin(turn) })
  }
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 4))
  const points = Array.from({ length: steps + 1 }, (_, i) => on(from + ((to - from) * i) / steps))
  const d = lines(points.map(({ x, y }) => [x, y] as const))
  const c = pen.at(centre)
  const rays = [from, to].map((degrees) => {
    const end = on(degrees, radius + size * 0.4)
    return lines([
      [c.x, c.y],
      [end.x, end.y],
    ])
  })
  return {
    svg: [
      element('path', { class: 'extension', d: rays.join('') }),
      element('path', { class: 'measure', d, 'stroke-width': wide * 0.6 }),
      head(pen, points.at(-1)!, points.at(-2)!),
    ].join(''),
    places: [0, 1, -1, 2].flatMap((beside) => {
      const r = radius + beside * size * 1.1
      return PARTS.map((part) => {
        const at = from + (to - from) * part
        return { ...on(at, r), turn: upright(on(at - 1), on(at + 1)) }
      })
    }),
  }
}

/** The head of a dimension line at `tip`, as narrow as drawings have it. */
function head({ size }: Pen, tip: Point, tail: Point): string {
  const far = Math.hypot(tail.x - tip.x, tail.y - tip.y) || 1
  const [ux, uy] = [(tail.x - tip.x) / far, (tail.y - tip.y) / far]
  const back = size * 0.6
  const half = size * 0.16
  const side = (way: 1 | -1): readonly [number, number] => [
    tip.x + ux * back - way * uy * half,
    tip.y + uy * back + way * ux * half,
  ]
  const d = lines([[tip.x, tip.y], side(1), side(-1)], true)
  return element('path', { class: 'head', d, fill: '#000', stroke: 'none' })
}
