import type { Paper, Pen } from './paper.js'
import { element, lines } from './svg.js'

/** Directions in degrees that hatch the rim of a gear, by plane: plain, one way, the other way, crossed, upright ... */
const directions: readonly (readonly number[])[] = [[], [45], [135], [45, 135], [90], [0]]
const directionsOf = (plane: number): readonly number[] => directions[(plane - 1) % directions.length]!

/** Strokes that fill the rim of a gear in this plane. */
export const rimFill = ({ id }: Paper, plane: number): string[] =>
  directionsOf(plane).map((direction) => `url(#${id}-hatch-${direction})`)

/** Pattern definitions for the planes in use, and the close one for metal to keep out of. */
export function hatches(paper: Paper): string {
  const used = new Set(paper.drawing.gears.flatMap(({ plane }) => directionsOf(plane)))
  const patterns = [...used].map((direction) => pattern(paper, `hatch-${direction}`, direction, paper.size * 0.34))
  if (paper.drawing.keepOut.length) patterns.push(solid(paper))
  return element('defs', {}, patterns)
}

/** Metal to keep out of. */
export const solid = (pen: Pen): string => pattern(pen, 'solid', 45, pen.size * 0.2)

function pattern({ id, narrow }: Pen, name: string, direction: number, step: number): string {
  const attributes = {
    id: `${id}-${name}`,
    width: step,
    height: step,
    patternUnits: 'userSpaceOnUse',
    patternTransform: `rotate(${-direction})`,
  }
  const d = lines([
    [0, step / 2],
    [step, step / 2],
  ])
  return element(
    'pattern',
    attributes,
    element('path', { class: 'hatch', d, stroke: '#000', 'stroke-width': narrow * 1.3 }),
  )
}
