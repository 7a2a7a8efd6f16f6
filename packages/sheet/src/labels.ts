import type { Point } from './chain.js'
import type { DrawnGear } from './drawing.js'
import { reading } from './figures.js'
import { type Foot, footOf } from './foot.js'
import type { Paper } from './paper.js'
import { spread } from './spread.js'
import { element, escapeText, lines } from './svg.js'
import { type Box, boxRound } from './view.js'

/** Gears are named beside a chain that stands and below one that lies; distances are on the side across. */
export type Side = 'right' | 'below'

export interface Labelled {
  svg: string[]
  /** The drawing with its labels. */
  box: Box
  notes: string[]
}

interface Label {
  /** Where the leader ends, on paper, when it starts at `from`. */
  target: (from: Point) => Point
  wish: Point
  lines: { text: string; scale: number }[]
}

/** Heights in text sizes. A letter is taken as 0.52 of its height wide, which holds for the narrow faces and most others. */
const BIG = 1.5
const SMALL = 0.84
const LETTER = 0.52
const LEADER = 1.1
const GAP = 0.35

export const sideOf = (box: Box): Side => (box.bottom - box.top >= box.right - box.left ? 'right' : 'below')

/** Names every gear, distance and setting round a drawing that takes up `box`, with a scale and notes beneath. */
export function labelsRound(paper: Paper, box: Box): Labelled {
  const side = sideOf(box)
  const near = side === 'right' ? box.right : box.bottom
  const far = side === 'right' ? box.left : box.top
  const gears = setLabels(paper, gearLabels(paper), side, near, 1)
  const distances = setLabels(paper, distanceLabels(paper), side, far, -1)
  const whole = boxRound([box, gears.box, distances.box])
  const foot: Foot = footOf(paper, whole)
  const edge = paper.size * 0.3
  return {
    svg: [...gears.svg, ...distances.svg, ...foot.svg],
    notes: foot.notes,
    box: {
      left: whole.left - edge,
      top: whole.top - edge,
      right: Math.max(whole.right, foot.right) + edge,
      bottom: foot.bottom + edge,
    },
  }
}

const small = (text: string) => ({ text, scale: SMALL })

/** The point of a gear's rim that is nearest to `from`. */
const rim =
  ({ at }: Paper, gear: DrawnGear) =>
  (from: Point): Point => {
    const centre = at(gear)
    const part = gear.tipRadius / (Math.hypot(from.x - centre.x, from.y - centre.y) || 1)
    return { x: centre.x + (from.x - centre.x) * part, y: centre.y + (from.y - centre.y) * part }
  }

const gearLabels = (paper: Paper): Label[] =>
  paper.drawing.gears.map((gear) => ({
    target: rim(paper, gear),
    wish: paper.at(gear),
    lines: [
      { text: String(gear.teeth), scale: BIG },
      small(`plane ${gear.plane}`),
      ...(gear.size === null ? [] : [small(gear.size)]),
    ],
  }))

function distanceLabels({ at, drawing, view }: Paper): Label[] {
  const label = (point: Point, what: string, mm: number): Label => {
    const spot = at(point)
    return { target: () => spot, wish: spot, lines: [small(what), { text: reading(mm, view.units), scale: 1 }] }
  }
  const centres = drawing.meshes.map((mesh) =>
    label(mesh, mesh.between.map((i) => drawing.shafts[i]!.letter).join('–'), mesh.centreDistance),
  )
  const settings = drawing.shafts.flatMap((shaft) =>
    shaft.setting ? [label(shaft, `${shaft.letter}, slot ${shaft.setting.slot}`, shaft.setting.along)] : [],
  )
  return [...centres, ...settings]
}

/** Sets labels along one side of the drawing; `out` is 1 for right or below, -1 for left or above. */
function setLabels(paper: Paper, labels: readonly Label[], side: Side, edge: number, out: 1 | -1) {
  const { size } = paper
  const stands = side === 'right'
  const wide = labels.map((label) => size * LETTER * Math.max(...label.lines.map((l) => l.text.length * l.scale)))
  const tall = labels.map((label) => size * label.lines.reduce((sum, l) => sum + l.scale, 0))
  const along = stands ? tall : wide
  const across = Math.max(...(stands ? wide : tall))
  const places = spread(
    labels.map(({ wish }) => (stands ? wish.y : wish.x)),
    along,
    size * GAP,
  )
  const start = edge + out * size * LEADER
  const svg = labels.map((label, i) => {
    const from = stands ? { x: start, y: places[i]! } : { x: places[i]!, y: start }
    return leader(paper, from, label.target(from)) + words(paper, label, from, side, out, tall[i]!)
  })
  const low = Math.min(...places.map((place, i) => place - along[i]! / 2))
  const high = Math.max(...places.map((place, i) => place + along[i]! / 2))
  const end = start + out * (across + size * GAP)
  const [near, far] = [Math.min(edge, end), Math.max(edge, end)]
  const box: Box = stands
    ? { left: near, right: far, top: low, bottom: high }
    : { left: low, right: high, top: near, bottom: far }
  return { svg, box }
}

function leader({ size, narrow }: Paper, from: Point, to: Point): string {
  const d = lines([
    [from.x, from.y],
    [to.x, to.y],
  ])
  const dot = element('circle', { cx: to.x, cy: to.y, r: size * 0.14, fill: '#000', stroke: 'none' })
  return element('g', { class: 'leader' }, element('path', { d, 'stroke-width': narrow }) + dot)
}

function words({ size }: Paper, label: Label, from: Point, side: Side, out: 1 | -1, tall: number): string {
  const stands = side === 'right'
  const x = stands ? from.x + out * size * 0.25 : from.x
  let y = stands ? from.y - tall / 2 : out > 0 ? from.y + size * 0.15 : from.y - tall - size * 0.1
  const spans = label.lines.map(({ text, scale }) => {
    y += size * scale
    // Capitals and figures stand on the base line and are some 0.72 of the height tall: centre what the eye sees.
    const at = { x, y: y - size * scale * 0.12, 'font-size': size * scale }
    return element('tspan', scale === BIG ? { ...at, 'font-weight': 700 } : at, escapeText(text))
  })
  const anchor = stands ? (out > 0 ? 'start' : 'end') : 'middle'
  return element('text', { fill: '#000', stroke: 'none', 'text-anchor': anchor }, spans)
}
