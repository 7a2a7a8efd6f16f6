import { InputError } from '@trainwright/measures'
import { Checks } from './checks.js'
import { faultsOf } from './no-outline.js'
import type { Outline, Vertex } from './outline.js'

/** Millimetres to a millionth: below any machine's step. */
const mm = (value: number): string => String(Number(value.toFixed(6)) + 0)

/** Flatter than this, an arc over a tooth leaves its chord by less than a nanometre. */
const STRAIGHT = 1e-7

/** SVG counts y downwards: this is the one place where it is turned over. */
const at = (x: number, y: number): string => `${mm(x)} ${mm(-y)}`

function lead({ x, y, bulge }: Vertex, next: Vertex): string {
  if (Math.abs(bulge) < STRAIGHT) return `L${at(next.x, next.y)}`
  const radius = (Math.hypot(next.x - x, next.y - y) * (1 + bulge * bulge)) / (4 * Math.abs(bulge))
  return `A${mm(radius)} ${mm(radius)} 0 0 ${bulge > 0 ? 0 : 1} ${at(next.x, next.y)}`
}

function path({ loops, circles }: Outline): string {
  const closed = loops.map(({ vertices }) => {
    const ways = vertices.map((vertex, i) => lead(vertex, vertices[(i + 1) % vertices.length]))
    return `M${at(vertices[0].x, vertices[0].y)}${ways.join('')}Z`
  })
  const round = circles.map(({ x, y, diameter }) => {
    const radius = diameter / 2
    const half = `A${mm(radius)} ${mm(radius)} 0 0 0 `
    return `M${at(x + radius, y)}${half}${at(x - radius, y)}${half}${at(x + radius, y)}Z`
  })
  return [...closed, ...round].join('')
}

/**
 * The outline as SVG path data in mm, y downwards: the teeth, then each hole, all closed.
 * @throws InputError when it is no outline.
 */
export function outlinePath(outline: Outline): string {
  const faults = faultsOf(outline)
  if (faults.length > 0) throw new InputError(faults)
  return path(outline)
}

/**
 * The outline as an SVG file at full size: one path, drawn as a fine line, even-odd so that holes stay holes if it is
 * filled or extruded.
 * @param options `stroke`: width of the line in mm, 0.001 to 100; default 0.1
 * @throws InputError when it is no outline, or the stroke out of range.
 */
export function outlineSvg(outline: Outline, options: { stroke?: number } = {}): string {
  const checks = new Checks()
  checks.problems.push(...faultsOf(outline))
  const { stroke: asked = 0.1 } = checks.object(options)
  const stroke = checks.number(asked, 'stroke', 0.001, 100, 'a width in mm')
  checks.done()
  const size = mm(outline.tipDiameter + 2)
  const corner = mm(-outline.tipDiameter / 2 - 1)
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${size}mm" height="${size}mm" viewBox="${corner} ${corner} ${size} ${size}">
<title>${outline.title}</title>
<path d="${path(outline)}" fill="none" fill-rule="evenodd" stroke="#000" stroke-width="${mm(stroke)}"/>
</svg>
`
}
