import { circle, keepOutMarks, slotMark } from './banjo-svg.js'
import type { Point } from './chain.js'
import { describeDrawing } from './describe.js'
import type { DrawnGear, TrainDrawing } from './drawing.js'
import { hatches, rimFill } from './hatching.js'
import { labelsRound, type Side, sideOf } from './labels.js'
import type { Paper } from './paper.js'
import { element, escapeText, figures, lines } from './svg.js'
import { type Box, extent, toPaper, turningSeen, type View } from './view.js'

export interface SvgOptions extends View {
  /** Starts every id in the file, so that several drawings can stand on one page; letters, digits, - and _. */
  id?: string
}

/**
 * A drawing as an SVG file: ink on no ground, black unless a style sheet says otherwise, true to scale in itself.
 * Tip circles are wide lines, pitch circles narrow chain lines (as in ISO 2203); planes differ in hatching and are
 * named. `title` and `desc` say in words what is drawn. Text stays upright however the drawing is turned.
 */
export function drawingToSvg(drawing: TrainDrawing, options: SvgOptions = {}): string {
  const { id = 'train', ...view } = options
  const at = toPaper(view)
  const box = extent(drawing, at)
  const size = textSize(box)
  const paper: Paper = { drawing, view, id, at, size, wide: size / 10, narrow: size / 22 }
  const labels = labelsRound(paper, box)
  const { left, top, right, bottom } = labels.box
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    class: 'train-drawing',
    viewBox: figures(left, top, right - left, bottom - top),
    role: 'img',
    'aria-labelledby': `${id}-title ${id}-desc`,
    fill: 'none',
    stroke: '#000',
    'stroke-width': paper.narrow,
    'stroke-linecap': 'round',
    'font-family': "'DIN Alternate', Bahnschrift, 'Liberation Sans Narrow', 'Arial Narrow', sans-serif",
    'font-size': size,
  }
  return element('svg', attributes, [
    element('title', { id: `${id}-title` }, escapeText(titleOf(drawing))),
    element('desc', { id: `${id}-desc` }, escapeText([...describeDrawing(drawing, view), ...labels.notes].join(' '))),
    hatches(paper),
    ...banjo(paper),
    ...drawing.gears.map((gear) => gearFace(paper, gear)),
    ...centreLines(paper),
    ...drawing.gears.map((gear) => arrow(paper, gear, sideOf(box))),
    ...labels.svg,
    ...shaftMarks(paper),
  ])
}

/** So that text is read when the whole drawing is as wide as a telephone, and still leaves the gears the most room. */
function textSize(box: Box): number {
  const [wide, tall] = [box.right - box.left, box.bottom - box.top]
  return sideOf(box) === 'right' ? Math.max(wide / 15, tall / 24) : wide / 23
}

/** 'Gear train 40 to 60 with 30 to 75, to scale'. */
function titleOf(drawing: TrainDrawing): string {
  const counts = drawing.shafts.map((_, i) =>
    drawing.gears
      .filter((gear) => gear.shaft === i)
      .sort((a, b) => Number(b.role === 'driven') - Number(a.role === 'driven'))
      .map((gear) => gear.teeth)
      .join(' with '),
  )
  return `Gear train ${counts.join(' to ')}, to scale${drawing.schematic ? ', studs placed freely' : ''}`
}

function gearFace(paper: Paper, gear: DrawnGear): string {
  const { wide, narrow, size } = paper
  const rim = Math.min(size * 0.8, gear.pitchRadius * 0.3)
  const middle = gear.pitchRadius - rim / 2
  return element('g', { class: `gear plane-${gear.plane}` }, [
    circle(paper, gear, gear.tipRadius, { class: 'tip', 'stroke-width': wide, fill: '#fff', 'fill-opacity': 0.6 }),
    ...rimFill(paper, gear.plane).map((stroke) =>
      circle(paper, gear, middle, { class: 'rim', stroke, 'stroke-width': rim }),
    ),
    circle(paper, gear, gear.pitchRadius, {
      class: 'pitch',
      'stroke-width': narrow * 1.2,
      'stroke-dasharray': figures(size, size * 0.2, size * 0.05, size * 0.2),
    }),
  ])
}

function banjo(paper: Paper): string[] {
  const { at, narrow, drawing } = paper
  const keepOut = keepOutMarks(paper, drawing.keepOut)
  if (!drawing.banjo) return keepOut
  const outline = drawing.banjo.plate.map((p) => at(p)).map(({ x, y }) => [x, y] as const)
  return [
    element('path', { class: 'plate', d: lines(outline, true), 'stroke-width': narrow * 1.5 }),
    ...drawing.banjo.slots.map((slot) => slotMark(paper, slot)),
    ...keepOut,
  ]
}

/** From centre to centre, with a spot where the pitch circles touch. */
const centreLines = (paper: Paper): string[] =>
  paper.drawing.meshes.map((mesh) => {
    const [a, b] = mesh.between.map((i) => paper.at(paper.drawing.shafts[i]!)) as [Point, Point]
    const d = lines([
      [a.x, a.y],
      [b.x, b.y],
    ])
    return (
      element('path', { class: 'centre-line', d, 'stroke-dasharray': figures(paper.narrow * 10, paper.narrow * 5) }) +
      circle(paper, mesh, paper.size * 0.2, { class: 'mesh', fill: '#000', stroke: 'none' })
    )
  })

/** Lettered discs on the shafts, small enough to leave the smallest gear to be seen. */
const shaftMarks = (paper: Paper): string[] =>
  paper.drawing.shafts.map((shaft, i) => {
    const own = paper.drawing.gears.filter((gear) => gear.shaft === i)
    const r = Math.min(paper.size * 0.9, 0.55 * Math.min(...own.map((gear) => gear.pitchRadius)))
    const { x, y } = paper.at(shaft)
    const text = { x, y: y + r * 0.45, 'font-size': r * 1.25, 'text-anchor': 'middle', 'font-weight': 700 }
    return element('g', { class: 'shaft' }, [
      circle(paper, shaft, r, { 'stroke-width': paper.wide * 0.8, fill: '#fff' }),
      element('text', { ...text, fill: '#000', stroke: 'none' }, shaft.letter),
    ])
  })

/** An arc with a head inside the rim, on the side away from the labels; the gears of a pair get different places. */
function arrow(paper: Paper, gear: DrawnGear, side: Side): string {
  const { size, drawing, view } = paper
  const covering = drawing.gears
    .filter((other) => other.shaft === gear.shaft && other.tipRadius < gear.tipRadius)
    .map((other) => other.tipRadius)
  const inner = Math.max(0, ...covering)
  const ring = gear.pitchRadius - inner
  // Where a pair is nearly equal the ring between is too narrow: the larger gear's arrow goes within the smaller.
  const narrow = ring < size * 1.2
  const crowded = drawing.gears.some(
    (o) => o.shaft === gear.shaft && o !== gear && Math.abs(o.tipRadius - gear.tipRadius) < size * 1.2,
  )
  const r = narrow
    ? gear.pitchRadius * 0.75
    : Math.max(gear.pitchRadius - ring / 2, gear.pitchRadius * (crowded ? 0.5 : 0.7))
  const sweep = Math.min(1.7, Math.max(0.7, (size * 4.5) / r))
  const first = side === 'right' ? 0.8 * Math.PI : 0.35 * Math.PI
  const middle = first + (gear.role === 'driver' && gear.shaft > 0 ? 0.55 * Math.PI : 0)
  // Angles as on paper, anticlockwise; the way round is that of the hands of a clock on the paper.
  const way = turningSeen(gear.turning, view) === 'clockwise' ? -1 : 1
  const centre = paper.at(gear)
  const on = (angle: number, radius = r) =>
    [centre.x + radius * Math.cos(angle), centre.y - radius * Math.sin(angle)] as const
  const [from, to] = [middle - (way * sweep) / 2, middle + (way * sweep) / 2]
  const head = Math.min(size * 0.85, r * 0.5)
  const [a, b] = [on(from), on(to)]
  const tip = on(to + (way * head) / r)
  const curve = element('path', {
    d: `${lines([a])}A${figures(r, r, 0, 0, way < 0 ? 1 : 0)} ${lines([b]).slice(1)}`,
    'stroke-width': paper.wide,
  })
  const point = lines([on(to, r - head * 0.38), on(to, r + head * 0.38), tip], true)
  return element('g', { class: `turning ${way < 0 ? 'clockwise' : 'anticlockwise'}` }, [
    curve,
    element('path', { d: point, fill: '#000', stroke: 'none' }),
  ])
}
