import type { PitchText } from '@trainwright/measures'
import { Checks } from './checks.js'
import { forms } from './forms.js'
import { recognitionSentence } from './messages.js'
import { rounded } from './rounding.js'
import { allEntries, type SeriesThread } from './series.js'

/**
 * What was read, and by how much it may be wrong either way; mm or degrees. The value is above 0, the doubt 0 or more,
 * both up to 10000.
 */
export interface Measured {
  value: number
  doubt: number
}
/** What was measured on a screw; at least one of it. */
export interface Measurements {
  /** Over the crests, by calipers or micrometer. */
  major?: Measured
  /** By wires. */
  effective?: Measured
  /** By a pitch gauge, or over several crests: `value` as text, doubt in mm, 0 or more. */
  pitch?: { value: PitchText; doubt: number }
  /** Included angle, degrees. */
  angle?: Measured
}
/** A thread that may be the one measured. */
export interface Recognition {
  name: string
  thread: SeriesThread
  /** Measured less nominal, of what was measured: mm, the angle in degrees. */
  deviation: { major?: number; effective?: number; pitch?: number; angle?: number }
  /**
   * 0 when all is nominal, more the worse it fits: the sum of squares of deviations, each in times its doubt and half of
   * what made screws lack.
   */
  misfit: number
}

// Made screws measure less than nominal by their allowance, their tolerance and wear; never more. In mm, and so many
// pitches more: lines just above allowance and tolerance of ISO 965-1 6g (from 0.073 mm at a pitch of 0.2 to 0.680 at 6 on
// the major, from 0.065 to 0.360 on the effective diameter) and of BS 93 normal (0.025 + 0.2 p, 0.05 + 0.1 p).
const under = { major: [0.03, 0.22], effective: [0.04, 0.14], pitch: [0, 0], angle: [0, 0] }
type Quantity = keyof typeof under

/**
 * Which published threads a screw may be, likeliest first, from what was measured on it, each with its doubt. An empty
 * answer means none: treat the thread as your own (recognitionVerdict says so).
 *
 * A diameter may lie under nominal by its doubt and what made screws lack; over nominal only by its doubt. Pitch and angle
 * may differ by their doubts. Ranked by the sum of squared deviations, each in its own doubt: least squares. What made screws lack is taken
 * from the limits of ISO 965-1 6g and of BS 93.
 * @throws InputError when nothing was measured, or a value or doubt is no number.
 */
export function recogniseThread(q: Measurements): Recognition[] {
  const ask = new Checks(q)
  const measured = (Object.keys(under) as Quantity[])
    .filter((what) => q[what] !== undefined)
    .map((what) => ({
      what,
      value: ask[what === 'pitch' ? 'mm' : 'number'](`${what}.value`),
      doubt: ask.number(`${what}.doubt`, 0),
    }))
  if (measured.length === 0) ask.say('', 'measurement')
  ask.done()
  const fits: Recognition[] = []
  for (const { thread, pitch } of allEntries()) {
    const nominal = { major: thread.major, effective: thread.effective, pitch, angle: forms[thread.form].angle }
    const deviation: Recognition['deviation'] = {}
    let misfit = 0
    for (const { what, value, doubt } of measured) {
      const off = value - nominal[what]
      const lack = under[what][0] + under[what][1] * pitch
      if (off > doubt + 1e-9 || off < -doubt - lack - 1e-9) misfit = Number.POSITIVE_INFINITY
      deviation[what] = off
      misfit += (off / (doubt + lack / 2 + 1e-6)) ** 2
    }
    if (misfit < Number.POSITIVE_INFINITY) fits.push({ name: thread.name, thread, deviation, misfit })
  }
  return rounded(fits).sort((a, b) => a.misfit - b.misfit)
}

/** The sentence for a recognition; for an empty one, to treat the thread as one's own. */
export const recognitionVerdict = (found: readonly Recognition[]): string =>
  recognitionSentence(found.slice(0, 5).map((r) => r.name))
