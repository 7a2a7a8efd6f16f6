import { ANGLE, type Checks, MODULE, radians, SHIFT, TEETH } from './checks.js'

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

/** Checks a question and works out what everything else needs. Problems go to `checks`; null when there are any. */
export function proportions(question: GearQuestion, checks: Checks): Proportions | null {
  const before = checks.problems.length
  const { teeth, dp, pressureAngle = 20, shift = 0, thinning = 0, ...rest } = checks.object(question)
  const { depth = dp === undefined ? 2.25 : 2.157 } = rest
  let { module } = rest
  const whole = checks.whole(teeth, 'teeth', ...TEETH)
  if (dp !== undefined) {
    if (checks.number(dp, 'dp', 0.254, 2540, 'a diametral pitch')) {
      const both = module !== undefined && checks.number(module, 'module', ...MODULE)
      if (both && Math.abs(module! * dp - 25.4) > 1e-6) checks.add('module', 'two-sizes', module!, dp)
      module = 25.4 / dp
    }
  } else if (module === undefined || module === null) checks.add('module', 'no-size')
  else checks.number(module, 'module', ...MODULE)
  checks.number(pressureAngle, 'pressureAngle', ...ANGLE)
  checks.number(shift, 'shift', ...SHIFT)
  checks.number(depth, 'depth', 2, 2.5, 'a whole depth in modules')
  if (checks.problems.length > before || !whole || module === undefined) return null
  if (!checks.number(thinning, 'thinning', 0, module / 2, 'a thinning in mm')) return null

  const angle = radians(pressureAngle)
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
  return checks.problems.length > before ? null : gear
}
