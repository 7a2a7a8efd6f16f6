import { SLOT_RADIUS } from '../banjo.js'
import { circle, keepOutMarks, slotMark } from '../banjo-svg.js'
import type { Point } from '../chain.js'
import { solid } from '../hatching.js'
import type { Pen } from '../paper.js'
import { element, escapeText, figures, lines } from '../svg.js'
import { around, type Box, boxRound, toPaper, type View } from '../view.js'
import type { BanjoDrawing, BanjoPose } from './banjo-drawing.js'
import { dimensionsSvg } from './dimension-svg.js'
import { describeBanjo } from './words.js'

export interface BanjoSvgOptions extends View {
  /** Starts every id in the file; letters, digits, - and _. Default 'banjo'. */
  id?: string
}

/** Text is read when the drawing is as wide as a telephone, and as tall as one and a half times that. */
const ACROSS = 27
const DOWN = 40
const SHAFT = 7
const STUD = SLOT_RADIUS * 0.6

/**
 * A banjo as an SVG file with its dimension lines, each named as the field that holds it and with what stands there.
 * The banjo stands half way between its stops; against them it is drawn in the long-dashed double-dotted lines of
 * extreme positions (ISO 128). `title` and `desc` say the same in words.
 */
export function banjoToSvg(drawing: BanjoDrawing, { id = 'banjo', ...view }: BanjoSvgOptions = {}): string {
  const at = toPaper(view)
  const { shafts, rest, stops, keepOut, dimensions } = drawing
  const bare = boxRound([
    ...shafts.map((p) => around(at(p), SHAFT)),
    ...[rest, ...stops].flatMap(({ plate }) => plate.map((p) => around(at(p), 0))),
    ...keepOut.map((c) => around(at(c), c.radius)),
  ])
  const size = Math.max((bare.right - bare.left) / ACROSS, (bare.bottom - bare.top) / DOWN)
  const pen: Pen = { id, at, size, wide: size / 10, narrow: size / 22 }
  const names = shaftNames(pen, drawing)
  const box = boxRound([grown(bare, size * 1.5), ...names.map((name) => around(name, name.r + size * 0.3))])
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    class: 'train-drawing banjo-drawing',
    viewBox: figures(box.left, box.top, box.right - box.left, box.bottom - box.top),
    role: 'img',
    'aria-labelledby': `${id}-title ${id}-desc`,
    fill: 'none',
    stroke: '#000',
    'stroke-width': pen.narrow,
    'stroke-linecap': 'round',
    'font-family': "'DIN Alternate', Bahnschrift, 'Liberation Sans Narrow', 'Arial Narrow', sans-serif",
    'font-size': size,
  }
  const studs = [...rest.slots.flatMap(({ from, to }) => [from, to]), ...stops.map(({ slots }) => slots[0]!.to)]
  return element('svg', attributes, [
    element('title', { id: `${id}-title` }, 'The banjo, and what to measure on it'),
    element('desc', { id: `${id}-desc` }, escapeText(describeBanjo(drawing, view).join(' '))),
    ...(keepOut.length ? [element('defs', {}, solid(pen))] : []),
    ...stops.map((pose) => outline(pen, pose, true)),
    outline(pen, rest, false),
    ...rest.slots.map((slot) => slotMark(pen, slot)),
    ...studs.map((p) => circle(pen, p, STUD, { class: 'stud' })),
    ...keepOutMarks(pen, keepOut),
    ...shaftMarks(pen, drawing),
    ...names.map(({ svg }) => svg),
    ...dimensionsSvg(pen, dimensions, [...shafts.map((p) => ({ ...at(p), r: SHAFT })), ...names]),
  ])
}

const grown = ({ left, top, right, bottom }: Box, by: number): Box => ({
  left: left - by,
  top: top - by,
  right: right + by,
  bottom: bottom + by,
})

function outline({ at, narrow, size }: Pen, { plate }: BanjoPose, extreme: boolean): string {
  const d = lines(
    plate.map((p) => at(p)).map(({ x, y }) => [x, y] as const),
    true,
  )
  const dashes = figures(size, size * 0.25, 0.01, size * 0.25, 0.01, size * 0.25)
  return element('path', {
    class: extreme ? 'plate extreme' : 'plate',
    d,
    'stroke-width': narrow * 1.5,
    ...(extreme && { 'stroke-dasharray': dashes }),
  })
}

/** The pivot has a disc within its circle, the other shaft a dot. */
const shaftMarks = (pen: Pen, { shafts, pivot }: BanjoDrawing): string[] =>
  shafts.map((shaft) =>
    element('g', { class: 'shaft' }, [
      circle(pen, shaft, SHAFT, { 'stroke-width': pen.wide, fill: '#fff' }),
      circle(pen, shaft, SHAFT * (shaft.x === pivot.x ? 0.5 : 0.12), { class: 'mesh', fill: '#000', stroke: 'none' }),
    ]),
  )

/** 'output' and 'input' on the far sides of the shafts, where nothing is measured. */
function shaftNames({ at, size }: Pen, { shafts }: BanjoDrawing): (Point & { r: number; svg: string })[] {
  const [output, input] = shafts.map((p) => at(p)) as [Point, Point]
  const long = Math.hypot(input.x - output.x, input.y - output.y)
  const [ux, uy] = [(input.x - output.x) / long, (input.y - output.y) / long]
  const away = SHAFT + size * (0.8 + Math.abs(ux))
  return (
    [
      [output, -1, 'output'],
      [input, 1, 'input'],
    ] as const
  ).map(([{ x, y }, way, name]) => {
    const place = { x: x + way * away * ux, y: y + way * away * uy }
    const attributes = { x: place.x, y: place.y + size * 0.35, 'text-anchor': 'middle', fill: '#000', stroke: 'none' }
    return { ...place, r: size, svg: element('text', attributes, name) }
  })
}
