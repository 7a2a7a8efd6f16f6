import { ANGLE, Checks, MODULE, radians, rounded, SHIFT, TEETH } from './checks.js'
import { involute } from './gear.js'

interface Pair {
  teeth: [number, number]
  module: number
  angle: number
  shift: [number, number]
}

const involuteAtWork = ({ teeth, angle, shift }: Pair): number =>
  involute(angle) + (2 * Math.tan(angle) * (shift[0] + shift[1])) / (teeth[0] + teeth[1])

/** The pressure angle at which the two gears run together without play. */
function workingAngle(pair: Pair): number {
  const { angle, shift } = pair
  if (shift[0] + shift[1] === 0) return angle
  const wanted = involuteAtWork(pair)
  let found = angle
  // Newton: the slope of the involute function is tan^2. Quadratic, so a dozen rounds are plenty.
  for (let round = 0; round < 12; round++) found -= (involute(found) - wanted) / Math.tan(found) ** 2
  return found
}

/** @throws InputError when anything was wrong with the pair, or it cannot mesh. */
function checked(pair: Pair, checks: Checks): Pair {
  if (involuteAtWork(pair) <= 0) checks.add('shift', 'shift-sum')
  checks.done()
  return pair
}

const distance = (pair: Pair): number =>
  ((pair.module * (pair.teeth[0] + pair.teeth[1])) / 2) * (Math.cos(pair.angle) / Math.cos(workingAngle(pair)))

/**
 * Distance in mm between two gears that mesh without play: module x (z1 + z2) / 2, and more or less with profile shift
 * (geometry of the involute).
 * @throws InputError for teeth that are not whole or not 6 to 1000, a module that is not 0.01 to 100 mm, shifts that
 * cannot mesh.
 */
export function centreDistance(
  a: { teeth: number; shift?: number },
  b: { teeth: number; shift?: number },
  module: number,
  pressureAngle = 20,
): number {
  const checks = new Checks()
  const [one, other] = [
    [a, 'a'],
    [b, 'b'],
  ].map(([gear, name]) => {
    const { teeth, shift = 0 } = checks.object(gear as typeof a)
    return [checks.whole(teeth, `${name}.teeth`, ...TEETH), checks.number(shift, `${name}.shift`, ...SHIFT)]
  })
  const pair: Pair = {
    teeth: [one[0], other[0]],
    module: checks.number(module, 'module', ...MODULE),
    angle: radians(checks.number(pressureAngle, 'pressureAngle', ...ANGLE)),
    shift: [one[1], other[1]],
  }
  return rounded(distance(checked(pair, checks)))
}

/** Two gears that mesh. */
export interface MeshQuestion {
  /** Whole, 6 to 1000 each. */
  teeth: [number, number]
  /** mm, 0.01 to 100. */
  module: number
  /** 10 to 30 degrees; default 20. */
  pressureAngle?: number
  /** Profile shifts in modules, -1 to 1 each; default [0, 0]. */
  shift?: [number, number]
}

function readMesh(q: MeshQuestion): Pair {
  const checks = new Checks()
  const { teeth, module, pressureAngle = 20, shift = [0, 0] } = checks.object(q)
  const each = (read: (i: number) => number): [number, number] => [read(0), read(1)]
  const pair: Pair = {
    teeth: each((i) => checks.whole(teeth?.[i], `teeth[${i}]`, ...TEETH)),
    module: checks.number(module, 'module', ...MODULE),
    angle: radians(checks.number(pressureAngle, 'pressureAngle', ...ANGLE)),
    shift: each((i) => checks.number(shift?.[i], `shift[${i}]`, ...SHIFT)),
  }
  return checked(pair, checks)
}

/** How far along the line of action, from its own base circle, the tip of each gear works; and the line's whole length. */
function lineOfAction(pair: Pair): { tips: number[]; length: number } {
  const { teeth, module, angle, shift } = pair
  const tips = [0, 1].map((i) => {
    const base = ((teeth[i] * module) / 2) * Math.cos(angle)
    const tip = (teeth[i] / 2 + 1 + shift[i]) * module
    return Math.sqrt(tip * tip - base * base)
  })
  return { tips, length: distance(pair) * Math.sin(workingAngle(pair)) }
}

/**
 * Contact ratio of two spur gears with full tips at the distance without play: path of contact over base pitch
 * (Buckingham, Analytical Mechanics of Gears, ch. 4). Where `interferes` is true the real ratio is less.
 * @throws InputError as for a single gear, with paths `teeth[0]`, `teeth[1]`, `shift[0]`, `shift[1]`.
 */
export function contactRatio(q: MeshQuestion): number {
  const pair = readMesh(q)
  const { tips, length } = lineOfAction(pair)
  return rounded((tips[0] + tips[1] - length) / (Math.PI * pair.module * Math.cos(pair.angle)))
}

/**
 * Whether a tip of one gear would run past the base circle of the other: full involutes would jam, and generated ones
 * are undercut for it (geometry of the line of action).
 * @throws InputError as contactRatio.
 */
export function interferes(q: MeshQuestion): boolean {
  const { tips, length } = lineOfAction(readMesh(q))
  return Math.max(...tips) > length + 1e-9
}
