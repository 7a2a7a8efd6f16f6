import type { PitchText } from '@trainwright/measures'
import { Checks } from './checks.js'
import { type Form, slopingProfile } from './forms.js'
import { isoLimits, type Limits } from './iso-limits.js'
import { type VerdictCode, verdictSentence } from './messages.js'
import { cot, rounded } from './rounding.js'

function read(q: { form: Form; engagement: number }): { ask: Checks; half: number; engagement: number } {
  const ask = new Checks(q)
  const { half } = slopingProfile(q.form, 1, ask)
  return { ask, half, engagement: ask.number('engagement') }
}

/**
 * What a lead error comes to over the engagement: `axial`, mm, with the error's own sign, and `onEffective`, mm, by which
 * the screw acts too large (a nut too small) on the effective diameter: cot(half the angle) x |axial|, of either sign
 * (1.732 at 60, 1.921 at 55, 2.273 at 47.5 degrees; NPL, Notes on Screw Gauges, from memory). The error is -1e6 to
 * 1e12 ppm, the engagement above 0, up to 10000 mm.
 * @throws InputError for a square thread, whose upright flanks turn a lead error into lost backlash only.
 */
export function leadErrorEffect(q: { form: Form; errorPpm: number; engagement: number }): {
  axial: number
  onEffective: number
} {
  const { ask, half, engagement } = read(q)
  const ppm = ask.number('errorPpm', -1e6, 1e12)
  ask.done()
  const axial = (ppm / 1e6) * engagement
  return rounded({ axial, onEffective: Math.abs(axial) * cot(half) })
}

/** What a lead error comes to, in mm as leadErrorEffect gives it, and whether that matters: a code and a sentence. */
export interface LeadErrorVerdict {
  axial: number
  onEffective: number
  /** As a fraction of the tolerance on the effective diameter: 0.25 is a quarter of it. */
  share: number
  code: VerdictCode
  message: string
}

/**
 * Whether a lead error matters: the share of the tolerance on the effective diameter (mm; from isoLimits, baLimits or your
 * own allowance; above 0, up to 10000) that it eats over the engagement. Up to a tenth 'negligible', to a half 'fits', to all 'tight', past that
 * 'will-not-fit' (common practice, no source).
 * @throws InputError as leadErrorEffect, and for a tolerance that is not above zero.
 */
export function leadErrorVerdict(q: {
  form: Form
  errorPpm: number
  engagement: number
  tolerance: number
}): LeadErrorVerdict {
  const ask = new Checks(q)
  const found = ask.from(() => leadErrorEffect(q))
  const tolerance = ask.number('tolerance')
  ask.done()
  const effect = found as NonNullable<typeof found>
  const share = rounded(effect.onEffective / tolerance)
  const code = share <= 0.1 ? 'negligible' : share <= 0.5 ? 'fits' : share <= 1 ? 'tight' : 'will-not-fit'
  return { ...effect, share, code, message: verdictSentence(code, share) }
}

/** As the wanted thread of a train search takes it: lengths as text, an `error` of '0.02 mm' `over` '6 mm'. */
export interface LeadTolerance {
  error: string
  over: string
}

/**
 * The lead error that a job stands when it may eat `allowance` mm of the effective diameter over `engagement` mm:
 * allowance x tan(half the angle), the inverse of leadErrorEffect and of the same source. The allowance is 0.00001 to 10000, the engagement up to 10000. The answer goes into a wanted thread's `tolerance` as it is.
 * @throws InputError for a square thread, or sizes out of range.
 */
export function leadTolerance(q: { form: Form; allowance: number; engagement: number }): LeadTolerance {
  const { ask, half, engagement } = read(q)
  const allowance = ask.number('allowance', 1e-5)
  ask.done()
  const text = (x: number): string => `${x.toFixed(9).replace(/\.?0+$/, '')} mm`
  return { error: text(allowance * Math.tan(half)), over: text(engagement) }
}

/**
 * The same from a tolerance class of ISO 965-1 and the length of the nut: the error may eat `share` of the tolerance on the
 * effective diameter, 0.01 to 1 as a fraction, by default half (common practice, no source). `diameter` and `engagement` in mm, `class`
 * as isoLimits takes it.
 * @throws InputError as isoLimits and leadTolerance.
 */
export function leadToleranceOfClass(q: {
  diameter: number
  pitch: PitchText | number
  class: string
  engagement: number
  share?: number
}): LeadTolerance {
  const ask = new Checks(q)
  const limits = ask.from(() => isoLimits(q))
  const share = ask.number('share', 0.01, 1, 0.5)
  const engagement = ask.number('engagement')
  ask.done()
  const [least, greatest] = (limits as Limits).effective
  return leadTolerance({ form: 'metric', allowance: share * (greatest - least), engagement })
}
