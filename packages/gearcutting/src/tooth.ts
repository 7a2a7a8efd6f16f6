import { arcs, type CurvePoint, type Vertex } from './biarc.js'
import { halfAngleAt, type Proportions } from './gear.js'

/** Halves [low, high], on whose ends `above` differs, until it can be halved no more; gives the end where it holds. */
function bisect(above: (t: number) => boolean, low: number, high: number): number {
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (above(middle)) high = middle
    else low = middle
  }
  return high
}

/** A curve near the tooth that stands on the positive x axis: its flank below the axis, run outwards from the root. */
type Curve = (t: number) => CurvePoint

/** The involute, by the angle unwound from the base circle. */
const flank =
  ({ base, halfAtBase }: Proportions): Curve =>
  (unwound) => {
    const dx = Math.cos(unwound - halfAtBase)
    const dy = Math.sin(unwound - halfAtBase)
    return { x: base * (dx + unwound * dy), y: base * (dy - unwound * dx), dx, dy }
  }

/**
 * The fillet that the rounded tip of the rack leaves, by the tangent of the angle between the radius and the normal of
 * contact, from 0 at the root circle to the cotangent of the pressure angle, where the rack's straight flank takes over.
 * The normal passes through the pitch point always (Buckingham, Analytical Mechanics of Gears, on trochoids). By the
 * tangent, as the rack rolls, equal steps take fewer arcs than by the angle.
 */
const trochoid = ({ pitch, root, fillet, corner, teeth }: Proportions): Curve => {
  const below = pitch - root - fillet
  return (slope) => {
    const cos = 1 / Math.hypot(1, slope)
    const sin = slope * cos
    const reach = below / cos + fillet
    const rolled = (below * slope - corner) / pitch
    const axis = -Math.PI / teeth - rolled
    const [ax, ay] = [Math.cos(axis), Math.sin(axis)]
    const [up, aside] = [pitch - reach * cos, reach * sin]
    return { x: ax * up - ay * aside, y: ay * up + ax * aside, dx: ax * sin - ay * cos, dy: ay * sin + ax * cos }
  }
}

/** A tooth whose waist is thinner than twice this, in mm, is cut through. */
const LEAST_WAIST = 1e-5

/** Half a tooth, from the root circle to the tip. Null when undercutting leaves no tooth or no flank. */
function halfTooth(gear: Proportions, tolerance: number): Vertex[] | null {
  const { angle, base, tip, started } = gear
  const fillet = trochoid(gear)
  const involute = flank(gear)
  const radiusAt = (slope: number): number => Math.hypot(fillet(slope).x, fillet(slope).y)
  const unwoundAt = (radius: number): number => Math.sqrt((radius / base) ** 2 - 1)
  const inSpace = (slope: number): boolean => {
    const { x, y } = fillet(slope)
    return Math.atan2(y, x) < -halfAngleAt(gear, Math.max(base, Math.hypot(x, y)))
  }
  // The fillet runs into the involute; where it undercuts, it comes out of the tooth again and they cross.
  let join = 1 / Math.tan(angle)
  if (started < 0)
    join = bisect(
      inSpace,
      bisect((slope) => radiusAt(slope) >= base, 0, join),
      join,
    )
  const [from, to] = [started < 0 ? unwoundAt(radiusAt(join)) : started / base, unwoundAt(tip)]
  if (!(from < to)) return null
  // The fillet comes nearest to the middle of the tooth where it turns away from it, or at its end.
  const waist = -fillet(bisect((slope) => fillet(slope).dy < 0, 0, join)).y
  if (waist < LEAST_WAIST) return null
  const { x, y } = involute(to)
  return [
    ...arcs(fillet, 0, join, Math.min(tolerance, waist)),
    ...arcs(involute, from, to, tolerance),
    { x, y, bulge: Math.tan(halfAngleAt(gear, tip) / 2) },
  ]
}

/**
 * One tooth, symmetrical about the positive x axis, anticlockwise: fillet, involute, tip, and back to the root circle,
 * whose arc leads on to the next tooth. Null when undercutting leaves no tooth or no flank.
 */
export function tooth(gear: Proportions, tolerance: number): Vertex[] | null {
  const half = halfTooth(gear, tolerance)
  if (!half) return null
  const rootArc = Math.tan(gear.corner / gear.pitch / 2)
  const other = half.map(({ x, y }, i) => ({ x, y: -y, bulge: i === 0 ? rootArc : half[i - 1].bulge })).reverse()
  return [...half, ...(rootArc > 0 ? other : other.slice(0, -1))]
}
