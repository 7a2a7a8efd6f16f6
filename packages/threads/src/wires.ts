import type { PitchText } from '@trainwright/measures'
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
  p: number
  profile: Profile
  found: WireSizes
  /** Half a thousandth of the pitch: tables print these sizes to three decimals of it. NaN, for no judgement, where no wire fits. */
  slack: number
}

/** Reads form and pitch, and finds the wires for them. */
function read(q: { form: Form; pitch: PitchText }): Read {
  const ask = new Checks(q)
  const p = ask.mm('pitch')
  const profile = slopingProfile(q.form, p, ask)
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
  const none = least > greatest
  if (none) ask.say('form', 'no-flanks')
  const best = Math.max(least, p / 2 / Math.cos(profile.half))
  return { ask, p, profile, found: { best, least, greatest }, slack: none ? Number.NaN : p / 2000 }
}

/**
 * The wires that serve three-wire measurement of a thread of a `pitch` given as text, mm: the best touches at the effective diameter.
 * Geometry; for 60 and 29 degrees it gives the published 0.505182 p and 1.010362 p, 0.487263 p and 0.650013 p.
 * @throws InputError for a square thread, or an own form that no wire fits.
 */
export function wireSizes(q: { form: Form; pitch: PitchText }): WireSizes {
  const { ask, found } = read(q)
  ask.done()
  return rounded(found)
}

const faultOf = (wire: number, { found, slack }: Read): 'wire-thin' | 'wire-thick' | '' =>
  wire < found.least - slack ? 'wire-thin' : wire > found.greatest + slack ? 'wire-thick' : ''

/** What M = E + constant + lift / E^2 needs. */
interface Setting {
  ask: Checks
  profile: Profile
  lead: number
  constant: number
  /** By how much the lead angle lifts the wires, times E^2. */
  lift: number
  /** That is wanted in the answer. */
  corrected: boolean
}

function set(q: WireQuestion): Setting {
  const of = read(q)
  const { ask, p, profile, found } = of
  const wire = ask.number('wire')
  const lead = p * ask.whole('starts', 1, 60, 1)
  const fault = faultOf(wire, of)
  if (fault) ask.say('wire', fault, found)
  return {
    ask,
    profile,
    lead,
    constant: wire * (1 + 1 / Math.sin(profile.half)) - profile.sharpHeight,
    lift: (wire / 2) * (lead / Math.PI) ** 2 * Math.cos(profile.half) * cot(profile.half),
    corrected: ask.choice('leadCorrection', [false, true]),
  }
}

/** The effective diameter, when a correction that is wanted holds for its lead angle. */
function correctable(effective: number, { lead, corrected, ask }: Setting): number {
  const angle = leadAngleAt(effective, lead)
  if (!(corrected && angle > LEAD_ANGLE_LIMIT)) return effective
  ask.say('leadCorrection', 'lead-angle', angle, LEAD_ANGLE_LIMIT, lead / (Math.PI * Math.tan(Math.PI / 36)))
  return Number.NaN
}

/**
 * Measurement over three wires, mm: M = E - (p/2) cot(a/2) + w (1 + cosec(a/2)), and with `leadCorrection`
 * + (w/2) tan^2(s) cos(a/2) cot(a/2), s the lead angle (NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2127).
 * That correction comes out 1 to 8 % too large; it is used up to a lead angle of 5 degrees.
 * @throws InputError for wires that do not touch the flanks, diameters that cross, a lead angle past the limit.
 */
export function overWires(q: WireQuestion & { effective: number }): number {
  const of = set(q)
  const { ask, profile, constant, lift, corrected } = of
  const effective = ask.number('effective')
  checkCore(effective, profile, ask)
  correctable(effective, of)
  ask.done()
  return rounded(effective + constant + (corrected ? lift / effective ** 2 : 0))
}

/**
 * The effective diameter, mm, from a measurement over three wires: the inverse of overWires, of the same source.
 * @throws InputError as overWires, and for a measurement too small to be over these wires.
 */
export function effectiveFromWires(q: WireQuestion & { over: number }): number {
  const of = set(q)
  const { ask, profile, constant, lift, corrected } = of
  // Less would leave the screw no core.
  const plain = correctable(ask.number('over', constant + 2 * profile.dedendum + 1e-6) - constant, of)
  let effective = plain
  for (let i = 0; corrected && i < 40; i++) effective = plain - lift / effective ** 2
  correctable(effective, of)
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
  checkCore(effective, profile, ask)
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
  const [wire] = wires.filter((w) => !faultOf(w, of)).sort((a, b) => away(a) - away(b) || a - b)
  return wire === undefined ? null : { wire, away: rounded(wire - found.best) }
}
