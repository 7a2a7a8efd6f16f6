import { type Keyway, readBore } from './bore.js'
import { Checks, rounded } from './checks.js'
import { type GearQuestion, proportions } from './gear.js'

/** What the gear is cut from; lengths in mm, up to 10000. */
export interface Blank {
  /** Diameter of the bore, mm, 0.01 or more. */
  bore: number
  /** The keyway in it, whose corners count; or its depth alone from the edge of the bore, mm; default 0, none. */
  keyway?: number | Keyway
  /** The least wall wanted between root and bore or keyway, mm; default 0: any. */
  wall?: number
}

/** What is left of the wall over bore and keyway, and whether that is `enough`. */
export interface BlankCheck {
  /** mm left between the root and the bore, or the corners of the keyway; 0 or less when it breaks through. */
  wall: number
  /** As much as was wanted, and not broken through. */
  enough: boolean
  /** The fewest teeth of this size that leave the wanted wall. */
  fewestTeeth: number
}

/**
 * Whether a gear's root leaves enough wall over the bore and keyway of its blank. Of a keyway told by its depth alone the
 * middle of the floor is measured, of one told whole the corners, which stand further out.
 * @throws InputError as spurGear, and for a bore, keyway or wall that is missing or out of range (mm, to 10000), and a
 * keyway as wide as its bore.
 */
export function checkBlank(q: GearQuestion & { blank: Blank }): BlankCheck {
  const checks = new Checks()
  const { module, shift, dedendum, root } = proportions(q, checks)
  const { bore, keyway = 0, wall: asked = 0 } = checks.object(q?.blank as Blank)
  const whole = typeof keyway === 'object' ? keyway : undefined
  const { reach } = readBore({ bore, keyway: whole }, checks, 'blank.')
  const deep = whole === undefined ? checks.number(keyway, 'blank.keyway', 0, 10_000, 'a keyway depth in mm') : 0
  const wanted = checks.number(asked, 'blank.wall', 0, 10_000, 'a wall in mm')
  checks.done()
  const taken = reach + deep
  const wall = rounded(root - taken)
  const count = (2 * (taken + wanted + dedendum - shift * module)) / module
  return {
    wall,
    enough: wall > 0 && wall >= wanted,
    // Where any wall will do, it has to be more than none.
    fewestTeeth: Math.max(6, wanted > 0 ? Math.ceil(count - 1e-9) : Math.floor(count + 1e-9) + 1),
  }
}
