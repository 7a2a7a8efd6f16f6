import type { Vertex } from './biarc.js'
import { type Keyway, readBore, SIZE } from './bore.js'
import { Checks, rounded } from './checks.js'
import { type GearQuestion, type Proportions, proportions } from './gear.js'
import { tooth } from './tooth.js'

export type { Vertex } from './biarc.js'

export interface OutlineQuestion extends GearQuestion {
  /** Diameter of the bore, mm, 0.01 or more; default none. */
  bore?: number
  /** A keyway in the bore, which must be given, under the tooth on the x axis. */
  keyway?: Keyway
  /**
   * A hole for a driving pin, `diameter` mm, 0.01 or more: its centre is `distance` mm from the gear's, `angle` degrees
   * from the x axis (-360 to 360, default 180).
   */
  pin?: { diameter: number; distance: number; angle?: number }
  /** mm by which the arcs may leave the true curves; 0.00001 to 1; default 0.001. */
  tolerance?: number
}

/** A closed line of arcs and straights, anticlockwise; the last vertex leads back to the first. */
export interface Loop {
  name: 'teeth' | 'bore'
  vertices: Vertex[]
}
/** A hole; its centre and its diameter in mm. */
export interface Circle {
  name: 'bore' | 'pin'
  x: number
  y: number
  diameter: number
}

/** The shape of a gear in mm, its centre at the origin, a tooth on the x axis, y upwards. Plain data. */
export interface Outline {
  title: string
  tipDiameter: number
  loops: Loop[]
  circles: Circle[]
}

function teethLoop(one: Vertex[], count: number): Vertex[] {
  return Array.from({ length: count }, (_, i) => {
    const turned = (2 * Math.PI * i) / count
    const [cos, sin] = [Math.cos(turned), Math.sin(turned)]
    return one.map(({ x, y, bulge }) => ({
      x: rounded(x * cos - y * sin),
      y: rounded(x * sin + y * cos),
      bulge: rounded(bulge),
    }))
  }).flat()
}

/** The bore with its keyway: two arcs of less than half a circle, and three straights. */
function keywayLoop(bore: number, { width, depth }: Keyway): Vertex[] {
  const [radius, half] = [bore / 2, width / 2]
  const edge = Math.sqrt(radius * radius - half * half)
  const arc = Math.tan((Math.PI - Math.asin(half / radius)) / 4)
  return [
    { x: radius + depth, y: -half, bulge: 0 },
    { x: radius + depth, y: half, bulge: 0 },
    { x: edge, y: half, bulge: arc },
    { x: -radius, y: 0, bulge: arc },
    { x: edge, y: -half, bulge: 0 },
  ].map(({ x, y, bulge }) => ({ x: rounded(x), y: rounded(y), bulge: rounded(bulge) }))
}

type Holes = Pick<OutlineQuestion, 'bore' | 'keyway' | 'pin'>

const NO_BORE = { inner: 0, width: 0, depth: 0, reach: 0 }

/** Checks that the holes stay inside the root, the keyway on the bore, and the pin hole off both. */
function checkHoles({ bore, keyway, pin }: Holes, { root }: Proportions, checks: Checks): void {
  const bored = bore !== undefined || keyway !== undefined
  const { inner, width, depth, reach } = bored ? readBore({ bore, keyway }, checks) : NO_BORE
  if (inner >= root) checks.add('bore', 'bore-too-big', rounded(2 * root))
  else if (rounded(root - reach) <= 0)
    checks.add('keyway.depth', 'bore-too-big', rounded(Math.sqrt(root * root - (width * width) / 4) - inner))
  if (pin === undefined) return
  const { angle = 180, ...put } = checks.object(pin)
  const diameter = checks.number(put.diameter, 'pin.diameter', ...SIZE, 'a diameter in mm')
  const distance = checks.number(put.distance, 'pin.distance', ...SIZE, 'a distance in mm')
  const turned = checks.number(angle, 'pin.angle', -360, 360, 'an angle in degrees')
  const [least, most] = [inner + diameter / 2, root - diameter / 2]
  if (Number.isNaN(least + most)) return
  if (distance <= least || distance >= most) checks.add('pin.distance', 'pin-place', rounded(least), rounded(most))
  else if (pinMeetsKeyway({ diameter, distance, angle: turned }, inner + depth, width))
    checks.add('pin.angle', 'pin-keyway')
}

function pinCentre({ distance, angle = 180 }: NonNullable<OutlineQuestion['pin']>): { x: number; y: number } {
  const direction = (angle * Math.PI) / 180
  return { x: rounded(distance * Math.cos(direction)), y: rounded(distance * Math.sin(direction)) }
}

function pinMeetsKeyway(pin: NonNullable<OutlineQuestion['pin']>, floor: number, width: number): boolean {
  const { x, y } = pinCentre(pin)
  const outside = Math.hypot(Math.max(0, -x, x - floor), Math.max(0, Math.abs(y) - width / 2))
  return outside <= pin.diameter / 2
}

/**
 * The shape of a gear for laser, CNC or print: true involute flanks, the root fillet that a rack would generate (with
 * undercut where it makes one), tip and root circles, and the holes. Flanks and fillets are chains of arcs that meet
 * without corners and stay within `tolerance` of the true curves. All of it is geometry.
 *
 * ```ts
 * const gear = outline({ teeth: 32, module: 1, bore: 12, keyway: { width: 4, depth: 1.8 } })
 * gear.loops.map((loop) => loop.name) // ['teeth', 'bore']
 * ```
 * @throws InputError as spurGear, and for a tolerance out of range, holes that do not fit, and teeth that undercutting
 * cuts off.
 */
export function outline(q: OutlineQuestion): Outline {
  const checks = new Checks()
  const gear = proportions(q, checks)
  const { tolerance: asked = 0.001, bore, keyway, pin } = checks.object(q)
  const tolerance = checks.number(asked, 'tolerance', 1e-5, 1, 'a tolerance in mm')
  const one = checks.problems.length > 0 ? [] : tooth(gear, tolerance)
  if (!one) checks.add('teeth', 'severed')
  checkHoles({ bore, keyway, pin } as Holes, gear, checks)
  checks.done()
  const { teeth, module, angle } = gear
  const loops: Loop[] = [{ name: 'teeth', vertices: teethLoop(one!, teeth) }]
  const circles: Circle[] = []
  if (bore && keyway) loops.push({ name: 'bore', vertices: keywayLoop(bore, keyway) })
  else if (bore) circles.push({ name: 'bore', x: 0, y: 0, diameter: bore })
  if (pin) circles.push({ name: 'pin', ...pinCentre(pin), diameter: pin.diameter })
  const size = q.dp === undefined ? `module ${module}` : `${q.dp} dp`
  return {
    title: `${teeth} teeth, ${size}, ${rounded((angle * 180) / Math.PI)}°`,
    tipDiameter: rounded(2 * gear.tip),
    loops,
    circles,
  }
}
