import { divide, multiply, type PitchText, type Rational, rational } from '@trainwright/measures'
import { Checks, type ExactLength } from './checks.js'
import { rounded } from './rounding.js'

/** A leadscrew, the lead that is cut and, where there is one, the chasing dial. */
export interface DialQuestion {
  /** Its pitch as text, 0.001 to 1000 mm. */
  leadscrew: PitchText
  /** The lead that the train really cuts, exactly; never the wanted one. */
  lead: ExactLength
  /**
   * `travel` of the carriage for one turn of the dial, as text ('4 in'), and the lines on it, 1 to 1000; leave it out
   * where there is none.
   */
  dial?: { travel: string; lines: number }
}
/** The half nuts may be closed again at `every` so many lines of the dial, at any place, or have to stay closed. */
export type DialAnswer = { every: number } | 'any' | 'closed'

const whole = (a: Rational, b: Rational): boolean => divide(a, b).d === '1'

/**
 * When the half nuts may be opened between passes: 'any' place (the leadscrew's pitch is a whole number of leads), every
 * n-th line of the dial counted from that of the first pass, or 'closed': keep them closed. All exact, so a lead 300 ppm off its nominal gives 'closed'.
 *
 * ```ts
 * chasingDial({ leadscrew: '6 tpi', lead: '9 tpi', dial: { travel: '4 in', lines: 8 } }) // { every: 2 }
 * ```
 * Rules as in Jones, Turning and Boring (1914), which this reproduces.
 * @throws InputError for texts that cannot be read, or a dial without lines.
 */
export function chasingDial(q: DialQuestion): DialAnswer {
  const ask = new Checks(q)
  const leadscrew = ask.exact('leadscrew')
  const lead = ask.exact('lead')
  const travel = q.dial && ask.exact('dial.travel')
  const lines = q.dial ? ask.whole('dial.lines', 1, 1000) : 0
  ask.done()
  if (whole(leadscrew, lead)) return 'any'
  // From one line to the next that serves, the carriage moves whole leads and whole leadscrew pitches; a number of lines
  // that does not go into the dial's turn would mean other lines each time round.
  for (let every = 1; travel && every <= lines; every++) {
    const move = multiply(travel, rational(every, lines))
    if (lines % every === 0 && whole(move, lead) && whole(move, leadscrew)) return { every }
  }
  return 'closed'
}

/**
 * The scratch-pass check: on a scratch of one start, `crests` lines lie `spaces` = crests - 1 leads apart in all. What
 * that should measure, what it measures with the lead that the train cuts, and the difference, mm, by arithmetic. `crests` is whole, 2 to
 * 10000.
 * @throws InputError for leads that cannot be read, or fewer than 2 crests.
 */
export function scratchPass(q: { wanted: ExactLength; cut: ExactLength; crests: number }): {
  spaces: number
  wanted: number
  cut: number
  difference: number
} {
  const ask = new Checks(q)
  const wanted = ask.mm('wanted')
  const cut = ask.mm('cut')
  const spaces = ask.whole('crests', 2, 10_000) - 1
  ask.done()
  return rounded({ spaces, wanted: wanted * spaces, cut: cut * spaces, difference: (cut - wanted) * spaces })
}
