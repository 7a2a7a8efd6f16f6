/** mm, in the frame with the output shaft at the origin and the input shaft on the positive x axis. */
export interface Point {
  x: number
  y: number
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0)

/** The arcs that the links cut off a circle; bend 0 is a straight chain, 1 a half turn for the longest link, 2 folded. */
function arcs(links: readonly number[], bend: number): number[] {
  const longest = Math.max(...links)
  const curvature = (bend <= 1 ? bend : 2 - bend) / longest
  const major = bend > 1 ? links.indexOf(longest) : -1
  return links.map((link, i) => {
    const minor = 2 * Math.asin(Math.min(1, link * curvature))
    return i === major ? 2 * Math.PI - minor : minor
  })
}

function walk(links: readonly number[], bend: number): Point[] {
  const points: Point[] = [{ x: 0, y: 0 }]
  let heading = 0
  arcs(links, bend).forEach((arc, i) => {
    const { x, y } = points[i]!
    heading += arc / 2
    points.push({ x: x + links[i]! * Math.cos(heading), y: y + links[i]! * Math.sin(heading) })
    heading += arc / 2
  })
  return points
}

/**
 * Places the shafts of a chain whose links have these lengths, input shaft first, so that its ends stand `span` apart
 * and all shafts on one circle. Of all ways to close a polygon this encloses the most area, so gears that do not mesh
 * keep well apart. The chain bulges to negative y. A span that the chain cannot bridge gives the nearest it can.
 */
export function bendChain(links: readonly number[], span: number): Point[] {
  const reach = (bend: number): number => {
    if (sum(arcs(links, bend)) >= 2 * Math.PI) return 0
    const end = walk(links, bend).at(-1)!
    return Math.hypot(end.x, end.y)
  }
  let [straighter, rounder] = [0, 2]
  if (span >= sum(links)) rounder = 0
  // The reach falls as the bend grows (Cauchy's arm lemma), so halving finds the one bend that spans.
  for (let i = 0; i < 80 && rounder > 0; i++) {
    const middle = (straighter + rounder) / 2
    if (reach(middle) > span) straighter = middle
    else rounder = middle
  }
  const points = walk(links, straighter)
  const end = points.at(-1)!
  const length = Math.hypot(end.x, end.y) || 1
  const [cos, sin] = [end.x / length, end.y / length]
  // Turn the far end onto the x axis, then count from there: the output shaft is the origin.
  return points.map(({ x, y }) => ({ x: length - (x * cos + y * sin), y: y * cos - x * sin }))
}
