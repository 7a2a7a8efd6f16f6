import { divide, multiply, type PitchText, type Rational, rational, toNumber } from '@trainwright/measures'
import { Checks, type ExactLength } from './checks.js'
import { rounded } from './rounding.js'

/** How to come from the first start to another; each way by itself, all from the first start. */
export interface Start {
  /** Which start it is, counted from 1: 2 to the number of starts. */
  start: number
  /** Turn of the spindle with the leadscrew still, exactly. */
  turn: Rational
  /** Or the compound slide, set parallel to the axis, forward by this, mm and exactly. */
  slide: { mm: number; exact: Rational }
  /** Or the gear unmeshed and turned on by so many teeth; null when its teeth do not divide. */
  teeth: number | null
  /**
   * Or half nuts opened and the carriage moved on by this, mm and in leadscrew threads; null when every such move is over
   * 100 mm (common practice, no source).
   */
  carriage: { mm: number; exact: Rational; threads: number } | null
}

const LONGEST_MOVE = 100

/** The least move of whole leadscrew threads that ends on another start: its pitches and some whole leads. */
function carriageMove(pitch: Rational, pitches: number, starts: number, leadscrew: Rational): Start['carriage'] {
  for (let n = pitches; ; n += starts) {
    const exact = multiply(pitch, rational(n))
    const mm = toNumber(exact)
    const threads = divide(exact, leadscrew)
    if (mm > LONGEST_MOVE) return null
    if (threads.d === '1') return { mm, exact, threads: Number(threads.n) }
  }
}

/**
 * Indexing for a thread of several starts: for each further start the turn of the spindle, the shift of the compound
 * slide, the teeth of a gear, and the move of the carriage along the leadscrew (Jones, Turning and Boring, 1914). The
 * pitch is that of the train, exactly: a lead that is a little off makes no carriage move.
 * @throws InputError for fewer than 2 starts, or what cannot be read.
 */
export function indexStarts(q: {
  pitch: ExactLength
  /** Whole, 2 to 60. */
  starts: number
  /** Its pitch, 0.001 to 1000 mm; without it no carriage move is told. */
  leadscrew?: PitchText
  /** A gear of 6 to 2000 teeth that turns as the spindle does; where it turns `r` times as fast, give its teeth times r. */
  gear?: { teeth: number }
}): Start[] {
  const ask = new Checks(q)
  const pitch = ask.exact('pitch')
  const starts = ask.whole('starts', 2, 60)
  const leadscrew = q.leadscrew === undefined ? undefined : ask.exact('leadscrew')
  const gear = q.gear === undefined ? 0 : ask.whole('gear.teeth', 6, 2000)
  ask.done()
  return rounded(
    Array.from({ length: starts - 1 }, (_, i) => {
      const turn = rational(i + 1, starts)
      const slide = multiply(pitch, rational(i + 1))
      const teeth = multiply(rational(gear), turn)
      return {
        start: i + 2,
        turn,
        slide: { mm: toNumber(slide), exact: slide },
        teeth: gear && teeth.d === '1' ? Number(teeth.n) : null,
        carriage: leadscrew ? carriageMove(pitch, i + 1, starts, leadscrew) : null,
      }
    }),
  )
}
