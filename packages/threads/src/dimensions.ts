import { multiply, type PitchText, rational, toNumber } from '@trainwright/measures'
import { Checks } from './checks.js'
import { type Form, type Profile, profileOf } from './forms.js'
import { degrees, rounded } from './rounding.js'

/** A thread by its form, its pitch and one diameter; lengths in mm, above 0, up to 10000. */
export interface ThreadQuestion {
  form: Form
  /** As text, 0.001 to 1000 mm. */
  pitch: PitchText
  /** Default 1, at most 60. */
  starts?: number
  /** Nominal, mm. Exactly one of the two diameters. */
  major?: number
  /** As measured, mm. */
  effective?: number
}

/** Millimetres and degrees. */
export interface ThreadDimensions {
  pitch: number
  lead: number
  /** Included angle. */
  angle: number
  /** Height of the sharp triangle; 0 for a square thread. */
  sharpHeight: number
  /** At the effective diameter. */
  leadAngle: number
  /** The screw; `minor` is its root, `depth` from crest to root. */
  major: number
  effective: number
  minor: number
  depth: number
  /** The nut; `minor` is its hole, `major` its root. */
  internal: { major: number; effective: number; minor: number }
}

/** Refuses an effective diameter that leaves the screw no core. */
export function checkCore(
  effective: number,
  profile: Profile,
  ask: Checks,
  path: 'major' | 'effective' = 'effective',
): void {
  const root = effective - 2 * profile.dedendum
  const least = 2 * profile.dedendum + (path === 'major' ? 2 * profile.addendum : 0)
  if (root <= 0) ask.say(path, 'core', root, least)
}

/** A thread as read: its pitch in mm, its profile, and both diameters from whichever was given. */
export interface ThreadRead {
  ask: Checks
  pitch: number
  profile: Profile
  /** Which one was given. */
  path: 'major' | 'effective' | undefined
  major: number
  effective: number
}

/** Reads form, pitch and the one diameter. */
export function readThread(q: Pick<ThreadQuestion, 'form' | 'pitch' | 'major' | 'effective'>): ThreadRead {
  const ask = new Checks(q)
  const pitch = ask.mm('pitch')
  const profile = profileOf(q.form, pitch, ask)
  const path = ask.one('', 'major', 'effective')
  const given = path ? ask.number(path) : Number.NaN
  const crests = 2 * profile.addendum
  const [major, effective] = path === 'major' ? [given, given - crests] : [given + crests, given]
  return { ask, pitch, profile, path, major, effective }
}

/**
 * Every dimension of a thread, screw and nut, from its form, pitch and one known diameter.
 *
 * Forms: ISO 68-1, ASME B1.1, BS 84, BS 93, ISO 2901, ASME B1.5, Loewenherz, square, sharp V, or your own.
 * @throws InputError for an unknown form, an unreadable pitch, none or two diameters, or diameters that cross.
 */
export function threadDimensions(q: ThreadQuestion): ThreadDimensions {
  const { ask, pitch, profile, path, effective } = readThread(q)
  const starts = ask.whole('starts', 1, 60, 1)
  checkCore(effective, profile, ask, path)
  ask.done()
  const lead = toNumber(multiply(ask.exact('pitch'), rational(starts)))
  const at = (height: number): number => effective + 2 * height
  return rounded({
    pitch,
    lead,
    angle: profile.angle,
    sharpHeight: profile.sharpHeight,
    leadAngle: leadAngleAt(effective, lead),
    major: at(profile.addendum),
    effective,
    minor: at(-profile.dedendum),
    depth: profile.addendum + profile.dedendum,
    internal: { major: at(profile.nutAddendum), effective, minor: at(-profile.nutDedendum) },
  })
}

/** Degrees. */
export const leadAngleAt = (effective: number, lead: number): number => degrees(Math.atan(lead / (Math.PI * effective)))
