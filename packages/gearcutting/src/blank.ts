import { Checks, rounded } from './checks.js'
import { type GearQuestion, proportions } from './gear.js'

/** What the gear is cut from; lengths in mm, 0 to 10000. */
export interface Blank {
  /** Diameter of the bore, mm. */
  bore: number
  /** Depth of the keyway from the edge of the bore, mm; default 0. */
  keyway?: number
  /** The least wall wanted between root and bore or keyway, mm; default 0. */
  wall?: number
}

/** What is left of the wall over bore and keyway, and whether that is `enough`. */
export interface BlankCheck {
  /** mm left between the root and the bore, or the bottom of the keyway; negative when it breaks through. */
  wall: number
  enough: boolean
  /** The fewest teeth of this size that leave the wanted wall. */
  fewestTeeth: number
}

/**
 * Whether a gear's root leaves enough wall over the bore and keyway of its blank.
 * @throws InputError as spurGear, and for a bore, keyway or wall that is missing or out of range (mm, to 10000).
 */
export function checkBlank(q: GearQuestion & { blank: Blank }): BlankCheck {
  const checks = new Checks()
  const gear = proportions(q, checks)
  const { bore, keyway = 0, wall: wanted = 0 } = checks.object(q?.blank as Blank)
  checks.number(bore, 'blank.bore', 0, 10_000, 'a bore in mm')
  checks.number(keyway, 'blank.keyway', 0, 10_000, 'a keyway depth in mm')
  checks.number(wanted, 'blank.wall', 0, 10_000, 'a wall in mm')
  checks.done()
  const { module, shift, dedendum, root } = gear
  const taken = bore! / 2 + keyway
  const wall = rounded(root - taken)
  const pitchWanted = taken + wanted + dedendum - shift * module
  return {
    wall,
    enough: wall >= wanted,
    fewestTeeth: Math.max(6, Math.ceil((2 * pitchWanted) / module - 1e-9)),
  }
}
