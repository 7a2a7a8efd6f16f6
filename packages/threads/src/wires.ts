import { multiply, type PitchText, type Rational, rational, toNumber } from '@trainwright/measures'
import { Checks } from './checks.js'
import { checkCore, leadAngleAt } from './dimensions.js'
import { type Form, type Profile, slopingProfile } from './forms.js'
import { cot, rounded } from './rounding.js'

/** Lead angle, degrees, up to which the correction is used. */
const LEAD_ANGLE_LIMIT = 5
/** 0.00015 in: what the correction has to exceed before it matters (Machinery's Handbook, 31st ed., p. 2127). */
const MATTERS = 0.00381

/** Diameters of wires, mm. */
export interface WireSizes {
  /** Touches the flanks at the effective diameter; `least`, where that wire would sink below the crests. */
  best: number
  /** Just stands above the crests, and rests on the flanks, not in the root. */
  least: number
  /** Still touches the straight flanks. */
  greatest: number
}
/** A thread and the wires on it. */
export interface WireQuestion {
  form: Form
  /** As text, 0.001 to 1000 mm. */
  pitch: PitchText
  /** Diameter, mm, above 0; between `least` and `greatest` of wireSizes. */
  wire: number
  /** Whole, 1 to 60; default 1. */
  starts?: number
  /** Default false. */
  leadCorrection?: boolean
}

interface Read {
  ask: Checks
  exact: Rational
  profile: Profile
  found: WireSizes
  /** Half a thousandth of the pitch: tables print these sizes to three decimals of it. */
  slack: number
}

/** Reads form and pitch, and finds the wires for them. */
function read(q: { form: Form; pitch: PitchText }): Read {
  const ask = new Checks(q)
  const exact = ask.exact('pitch')
  const p = toNumber(exact)
  const profile = slopingProfile(q.form, p, ask)
  ask.done()
  const sin = Math.sin(profile.half)
  // Below the effective line, where the flanks of the groove would meet.
  const apex = profile.sharpHeight / 2
  const touch = (height: number): number => (2 * (apex + height)) / (1 / sin - sin)
  const greatest = touch(profile.flankTop)
  const least = Math.max(
    (2 * (apex + profile.addendum)) / (1 + 1 / sin),
    touch(-profile.flankBottom),
    (2 * (apex - profile.dedendum)) / (1 / sin - 1),
  )
  if (least > greatest) ask.say('form', 'no-flanks')
  ask.done()
  const best = Math.max(least, p / 2 / Math.cos(profile.half))
  return { ask, exact, profile, found: { best, least, greatest }, slack: p / 2000 }
}

/**
 * The wires that serve three-wire measurement of a thread of a `pitch` given as text, mm: the best touches at the effective diameter.
 * Geometry; for 60 and 29 degrees it gives the published 0.505182 p and 1.010362 p, 0.487263 p and 0.650013 p.
 * @throws InputError for a square thread, or an own form that no wire fits.
 */
export const wireSizes = (q: { form: Form; pitch: PitchText }): WireSizes => rounded(read(q).found)

const tooThin = (wire: number, { found, slack }: Read): boolean => wire < found.least - slack
const tooThick = (wire: number, { found, slack }: Read): boolean => wire > found.greatest + slack

/** What M = E + constant + lift / E^2 needs. */
interface Setting {
  ask: Checks
  profile: Profile
  lead: number
  constant: number
  lift: number
}

function set(q: WireQuestion): Setting {
  const of = read(q)
  const { ask, exact, profile, found } = of
  const wire = ask.number('wire')
  const starts = ask.whole('starts', 1, 60, 1)
  ask.done()
  if (tooThin(wire, of)) ask.say('wire', 'wire-thin', wire, found)
  if (tooThick(wire, of)) ask.say('wire', 'wire-thick', wire, found)
  const lead = toNumber(multiply(exact, rational(starts)))
  return {
    ask,
    profile,
    lead,
    constant: wire * (1 + 1 / Math.sin(profile.half)) - profile.sharpHeight,
    lift: (wire / 2) * (lead / Math.PI) ** 2 * Math.cos(profile.half) * cot(profile.half),
  }
}

function checkLeadAngle(lead: number, effective: number, ask: Checks): void {
  const angle = leadAngleAt(effective, lead)
  if (angle > LEAD_ANGLE_LIMIT)
    ask.say('leadCorrection', 'lead-angle', angle, LEAD_ANGLE_LIMIT, lead / (Math.PI * Math.tan(Math.PI / 36)))
}

/**
 * Measurement over three wires, mm: M = E - (p/2) cot(a/2) + w (1 + cosec(a/2)), and with `leadCorrection`
 * + (w/2) tan^2(s) cos(a/2) cot(a/2), s the lead angle (NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2127).
 * That correction comes out 1 to 8 % too large; it is used up to a lead angle of 5 degrees.
 * @throws InputError for wires that do not touch the flanks, diameters that cross, a lead angle past the limit.
 */
export function overWires(q: WireQuestion & { effective: number }): number {
  const { ask, profile, lead, constant, lift } = set(q)
  const effective = ask.number('effective')
  checkCore(effective, profile, ask, 'effective')
  if (q.leadCorrection) checkLeadAngle(lead, effective, ask)
  ask.done()
  return rounded(effective + constant + (q.leadCorrection ? lift / effective ** 2 : 0))
}

/**
 * The effective diameter, mm, from a measurement over three wires: the inverse of overWires, of the same source.
 * @throws InputError as overWires, and for a measurement too small to be over these wires.
 */
export function effectiveFromWires(q: WireQuestion & { over: number }): number {
  const { ask, profile, lead, constant, lift } = set(q)
  // Less would leave the screw no core.
  const plain = ask.number('over', constant + 2 * profile.dedendum + 1e-6) - constant
  ask.done()
  if (!q.leadCorrection) return rounded(plain)
  checkLeadAngle(lead, plain, ask)
  ask.done()
  let effective = plain
  for (let i = 0; i < 40; i++) effective = plain - lift / effective ** 2
  checkLeadAngle(lead, effective, ask)
  ask.done()
  return rounded(effective)
}

/** The lead-angle correction by itself. */
export interface WireCorrection {
  /** In degrees, at the effective diameter. */
  leadAngle: number
  /** What the lead angle adds to the measurement over wires, mm. */
  correction: number
  /** It exceeds 0.00015 in, so it is worth making. */
  matters: boolean
  /** The lead angle is within the 5 degrees up to which the formula is used. */
  valid: boolean
}

/**
 * How much the lead angle lifts the wires by the formula of overWires, of the same source, whether that matters, and
 * whether the formula still holds. `effective` is a
 * diameter in mm, above 0.
 * @throws InputError as overWires without correction.
 */
export function leadCorrection(q: WireQuestion & { effective: number }): WireCorrection {
  const { ask, profile, lead, lift } = set(q)
  const effective = ask.number('effective')
  checkCore(effective, profile, ask, 'effective')
  ask.done()
  const leadAngle = leadAngleAt(effective, lead)
  const correction = lift / effective ** 2
  return rounded({
    leadAngle,
    correction,
    matters: correction > MATTERS,
    valid: leadAngle <= LEAD_ANGLE_LIMIT,
  })
}

/**
 * Of the wires at hand, the one nearest the best that touches the flanks of this thread; null when none does.
 * The `pitch` is text; `away` is its difference from the best wire, mm.
 * @throws InputError as wireSizes, and for wires that are not sizes in mm.
 */
export function nearestWire(q: {
  form: Form
  pitch: PitchText
  wires: readonly number[]
}): { wire: number; away: number } | null {
  const of = read(q)
  const { ask, found } = of
  const wires = ask.numbers('wires', false)
  ask.done()
  // Ranked in whole micrometres.
  const away = (wire: number): number => Math.round(Math.abs(wire - found.best) * 1000)
  const [wire] = wires.filter((w) => !tooThin(w, of) && !tooThick(w, of)).sort((a, b) => away(a) - away(b) || a - b)
  return wire === undefined ? null : { wire, away: rounded(wire - found.best) }
}
