import { ANGLE, type Checks, MODULE, PITCH, radians, SHIFT, TEETH } from './checks.js'

/** A spur gear to be made. Lengths in mm, angles in degrees. */
export interface GearQuestion {
  /** Whole, 6 to 1000. */
  teeth: number
  /** mm, 0.01 to 100. */
  module?: number
  /**
   * Diametral pitch, teeth per inch of pitch diameter, 0.254 to 2540; instead of `module`, or beside it when the two
   * agree.
   */
  dp?: number
  /** 10 to 30 degrees; default 20. */
  pressureAngle?: number
  /** Profile shift in modules, -1 to 1; default 0. */
  shift?: number
  /**
   * Whole depth in modules, 2 to 2.5. Default 2.25 (ISO 53), or 2.157 when the gear is given by `dp`, as the cutters
   * of that system are made (Brown & Sharpe practice). The depth stamped on the cutter rules.
   */
  depth?: number
  /** mm by which each tooth is thinned on the pitch circle, for play; 0 to half a module; default 0. */
  thinning?: number
}

/** What a question comes to, in mm and radians. Inside the package only. */
export interface Proportions {
  teeth: number
  module: number
  angle: number
  shift: number
  thinning: number
  /** In mm: pitch, base, tip and root radius, and the depth below the rack's reference line. */
  pitch: number
  base: number
  tip: number
  root: number
  dedendum: number
  /** Half the angle that a tooth fills on the base circle. */
  halfAtBase: number
  /** Tip radius of the rack that generates the tooth, and where the centre of that radius stands from the rack tooth's middle. */
  fillet: number
  corner: number
  /** Where the rack's straight flank starts to cut, along the line of action from the base circle: below 0, it undercuts. */
  started: number
}

/** tan a - a. */
export const involute = (angle: number): number => Math.tan(angle) - angle

/** Half the angle that a tooth fills at `radius` (on or outside the base circle). */
export const halfAngleAt = (gear: Proportions, radius: number): number =>
  gear.halfAtBase - involute(Math.acos(gear.base / radius))

/** The module in mm of what is told by module, by diametral pitch, or by both where they agree; `at` is where it stands. */
export function moduleOf({ module, dp }: { module?: number; dp?: number }, checks: Checks, at = ''): number {
  if (dp === undefined && (module === undefined || module === null)) {
    checks.add(`${at}module`, 'no-size')
    return Number.NaN
  }
  const own = module === undefined ? Number.NaN : checks.number(module, `${at}module`, ...MODULE)
  if (dp === undefined) return own
  const pitch = checks.number(dp, `${at}dp`, ...PITCH)
  if (Math.abs(own * pitch - 25.4) > 1e-6) checks.add(`${at}module`, 'two-sizes', own, pitch)
  return 25.4 / pitch
}

/** Checks a question and works out what everything else needs; NaN wherever that rests on what was refused. */
export function proportions(question: GearQuestion, checks: Checks): Proportions {
  const { pressureAngle = 20, shift: shifted = 0, thinning: thinned = 0, ...rest } = checks.object(question)
  const { depth: deep = rest.dp === undefined ? 2.25 : 2.157 } = rest
  const teeth = checks.whole(rest.teeth, 'teeth', ...TEETH)
  const module = moduleOf(rest, checks)
  const angle = radians(checks.number(pressureAngle, 'pressureAngle', ...ANGLE))
  const shift = checks.number(shifted, 'shift', ...SHIFT)
  const depth = checks.number(deep, 'depth', 2, 2.5, 'a whole depth in modules')
  const thinning = checks.number(thinned, 'thinning', 0, (module || MODULE[1]) / 2, 'a thinning in mm')
  const slope = Math.tan(angle)
  const pitch = (module * teeth) / 2
  const base = pitch * Math.cos(angle)
  const dedendum = (depth - 1) * module
  const halfRack = (Math.PI * module) / 4 + thinning / 2
  // The tip radius begins where the mate's tip passes, so that the clearance alone is rounded; a full round is the most.
  const lead = (1 - Math.sin(angle)) / Math.cos(angle)
  const room = halfRack - dedendum * slope
  const fillet = Math.max(0, Math.min(((depth - 2) * module) / (1 - Math.sin(angle)), room / lead))
  if (room < 0) checks.add('depth', 'depth')
  const gear: Proportions = {
    teeth,
    module,
    angle,
    shift,
    thinning,
    pitch,
    base,
    tip: pitch + (1 + shift) * module,
    root: pitch - dedendum + shift * module,
    dedendum,
    halfAtBase: (Math.PI / 2 + 2 * shift * slope - thinning / module) / teeth + involute(angle),
    fillet,
    corner: Math.max(0, room - fillet * lead),
    started: pitch * Math.sin(angle) - (dedendum - shift * module - fillet * (1 - Math.sin(angle))) / Math.sin(angle),
  }
  if (halfAngleAt(gear, gear.tip) <= 0) checks.add('shift', 'pointed')
  return gear
}
