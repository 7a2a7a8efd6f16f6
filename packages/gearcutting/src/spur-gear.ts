import { ANGLE, Checks, radians, rounded, SHIFT, TEETH } from './checks.js'
import { type GearQuestion, involute, type Proportions, proportions } from './gear.js'

/** Lengths in mm. */
export interface SpurGear {
  module: number
  pitchDiameter: number
  baseDiameter: number
  /** The diameter to which the blank is turned. */
  tipDiameter: number
  rootDiameter: number
  addendum: number
  /**
   * The depth to which the cutter is fed in from touching the blank, for teeth of full thickness: a form cutter that is to
   * thin them as well goes deeper, until `baseTangent` is reached.
   */
  wholeDepth: number
  /** Along the pitch circle. */
  toothThickness: number
  /** Over so many teeth, between flat jaws. */
  baseTangent: { teeth: number; length: number }
  /** With a tooth caliper: the thickness across the tooth, at this height below the tip. */
  chordal: { thickness: number; height: number }
  /** A rack or hob would undercut it; see `undercutFrom`. A form cutter leaves a fuller root. */
  undercut: boolean
  /** The fewest teeth that are not undercut at this pressure angle and shift. */
  undercutFrom: number
}

/** Undercutting less than a hundredth of a module is let pass, as the trade does with 17 teeth at 20 degrees. */
const LET_PASS = 0.01

const undercutFrom = (angle: number, shift: number): number =>
  Math.max(0, Math.ceil((2 * (1 - shift - LET_PASS)) / Math.sin(angle) ** 2))

/**
 * The fewest teeth that a rack does not undercut: 17 at 20 degrees, 32 at 14.5, unshifted; 2 (1 - shift) / sin^2 of the
 * pressure angle, less a hundredth of a module (MAAG and handbook practice: the exact 17.097 counts as 17).
 * @throws InputError when the angle is not 10 to 30 degrees or the shift not -1 to 1.
 */
export function undercutLimit(q: { pressureAngle?: number; shift?: number } = {}): number {
  const checks = new Checks()
  const { pressureAngle = 20, shift = 0 } = checks.object(q)
  checks.number(pressureAngle, 'pressureAngle', ...ANGLE)
  checks.number(shift, 'shift', ...SHIFT)
  checks.done()
  return undercutFrom(radians(pressureAngle), shift)
}

const spanLength = ({ teeth, module, angle, shift, thinning }: Proportions, over: number): number =>
  module * Math.cos(angle) * (Math.PI * (over - 0.5) + teeth * involute(angle)) +
  2 * shift * module * Math.sin(angle) -
  thinning * Math.cos(angle)

/** The count whose jaws touch nearest to the middle of the teeth, at pitch radius + shift. */
function bestSpan({ teeth, angle, shift }: Proportions): number {
  const reach = 1 + (2 * shift) / teeth
  const roll = Math.sqrt(Math.max(0, (reach / Math.cos(angle)) ** 2 - 1))
  const middle = (teeth * (roll - involute(angle)) - 2 * shift * Math.tan(angle)) / Math.PI
  return Math.max(2, Math.floor(middle + 1 + 1e-9))
}

/** Counts over which both jaws touch involute, between the start of the flank and the tip. */
function spans(gear: Proportions): [number, number] {
  const { base, tip, angle, module, started } = gear
  const first = Math.max(0, started)
  const last = Math.sqrt(tip * tip - base * base)
  const over = (half: number): number => 1 + (2 * half - spanLength(gear, 1)) / (Math.PI * module * Math.cos(angle))
  return [Math.max(1, Math.ceil(over(first) - 1e-9)), Math.floor(over(last) + 1e-9)]
}

/** The count of teeth to measure over that was asked for, or the best. */
function spanOf(gear: Proportions, asked: number | undefined, checks: Checks): number {
  if (asked === undefined) return bestSpan(gear)
  const over = checks.whole(asked, 'span', 1, gear.teeth || TEETH[1], 'a count of teeth')
  const [from, to] = spans(gear)
  if (Number.isFinite(from + to) && (over < from || over > to)) checks.add('span', 'span', over, from, to)
  return over
}

/**
 * Dimensions of a spur gear. Base tangent: W = m cos a (pi (k - 1/2) + z inv a) + 2 x m sin a; chordal thickness
 * z m sin t and height addendum + z m / 2 (1 - cos t), t = half the tooth's angle (SDP/SI, Elements of Metric Gear
 * Technology, tables 10-1 and 10-8).
 *
 * ```ts
 * spurGear({ teeth: 40, module: 1 }).baseTangent // { teeth: 5, length: 13.844761... }
 * ```
 * @param q a gear, and as `span` the count of teeth to measure over; default the one whose jaws touch nearest to the
 * middle of the flanks
 * @throws InputError naming every value that is missing or out of range, teeth that come to a point, a span that cannot
 * be measured.
 */
export function spurGear(q: GearQuestion & { span?: number }): SpurGear {
  const checks = new Checks()
  const gear = proportions(q, checks)
  const { teeth, module, angle, shift, thinning, pitch, base, tip, root } = gear
  const over = spanOf(gear, checks.object(q).span, checks)
  checks.done()
  const thickness = (Math.PI / 2 + 2 * shift * Math.tan(angle)) * module - thinning
  const half = thickness / (2 * pitch)
  const limit = undercutFrom(angle, shift)
  return {
    module: rounded(module),
    pitchDiameter: rounded(2 * pitch),
    baseDiameter: rounded(2 * base),
    tipDiameter: rounded(2 * tip),
    rootDiameter: rounded(2 * root),
    addendum: rounded(tip - pitch),
    wholeDepth: rounded(tip - root),
    toothThickness: rounded(thickness),
    baseTangent: { teeth: over, length: rounded(spanLength(gear, over)) },
    chordal: {
      thickness: rounded(2 * pitch * Math.sin(half)),
      height: rounded(tip - pitch * Math.cos(half)),
    },
    undercut: teeth < limit,
    undercutFrom: limit,
  }
}
