/** A point of a path and the way that leads on from it. Lengths in mm. */
export interface Vertex {
  x: number
  y: number
  /**
   * The tangent of a quarter of the angle that the arc to the next point turns through, positive anticlockwise; 0 is a
   * straight line. -1 to 1 here: no arc turns through more than half a circle.
   */
  bulge: number
}

/** A point of a smooth curve with the direction in which it runs there, a unit vector. */
export interface CurvePoint {
  x: number
  y: number
  dx: number
  dy: number
}

/** The bulge of the arc that starts at (x, y) in direction (dx, dy) and ends `ex`, `ey` further on. */
function bulge(dx: number, dy: number, ex: number, ey: number): number {
  const length = Math.hypot(ex, ey)
  return length === 0 ? 0 : (dx * ey - dy * ex) / (length + dx * ex + dy * ey)
}

/** Two arcs that join `a` to `b` without a corner, both tangents kept: equal tangent lengths on either side. */
function biarc(a: CurvePoint, b: CurvePoint): [Vertex, Vertex] {
  const [vx, vy] = [b.x - a.x, b.y - a.y]
  const [tx, ty] = [a.dx + b.dx, a.dy + b.dy]
  const along = vx * tx + vy * ty
  const square = vx * vx + vy * vy
  // d solves d^2 (4 - t.t) + 2 d v.t - v.v = 0, t the sum of the tangents; written so that equal tangents are no case apart.
  const d = square / (along + Math.sqrt(along * along + square * Math.max(0, 4 - tx * tx - ty * ty)))
  const x = (a.x + b.x + d * (a.dx - b.dx)) / 2
  const y = (a.y + b.y + d * (a.dy - b.dy)) / 2
  const first = bulge(a.dx, a.dy, x - a.x, y - a.y)
  // Read backward, the second arc starts at b against its tangent; turned round, its bulge changes sign.
  const second = -bulge(-b.dx, -b.dy, x - b.x, y - b.y)
  return [
    { x: a.x, y: a.y, bulge: first },
    { x, y, bulge: second },
  ]
}

/** How far (x, y) lies from the arc that leads from `from` to `to`, as far as it lies beside it. */
function distanceToArc(from: Vertex, to: { x: number; y: number }, x: number, y: number): number {
  const [cx, cy] = [to.x - from.x, to.y - from.y]
  const chord = Math.hypot(cx, cy)
  const along = ((x - from.x) * cx + (y - from.y) * cy) / chord
  const aside = ((x - from.x) * cy - (y - from.y) * cx) / chord
  if (Math.abs(from.bulge) < 1e-9) return Math.abs(aside)
  const radius = (chord * (1 + from.bulge * from.bulge)) / (4 * from.bulge)
  const depth = radius - (chord * from.bulge) / 2
  return Math.abs(Math.hypot(along - chord / 2, aside + depth) - Math.abs(radius))
}

/** Where each step is measured. Two arcs stray most a third from either end of a smooth step, but nearer to one where the curvature changes fast. */
const PLACES = Array.from({ length: 15 }, (_, i) => (i + 1) / 16)

/** Between two of these places the stray may be greater than at either, by a few parts in a hundred. */
const MEASURED = 0.95

/**
 * Arcs along a smooth curve, in equal steps of its parameter from `from` to `to`, as few as keep it within `tolerance`.
 * The last point is not included: the path goes on from there.
 */
export function arcs(curve: (t: number) => CurvePoint, from: number, to: number, tolerance: number): Vertex[] {
  for (let steps = 1; ; steps += Math.ceil(steps / 8)) {
    const at = (i: number): number => from + ((to - from) * i) / steps
    const points = Array.from({ length: steps + 1 }, (_, i) => curve(at(i)))
    const pairs = points.slice(1).map((point, i) => biarc(points[i], point))
    const stray = pairs.some(([a, b], i) =>
      PLACES.some((part) => {
        const { x, y } = curve(at(i + part))
        return Math.min(distanceToArc(a, b, x, y), distanceToArc(b, points[i + 1], x, y)) > MEASURED * tolerance
      }),
    )
    // A curve with a kink would ask for ever; no tooth takes half so many.
    if (!stray || steps > 256) return pairs.flat()
  }
}
