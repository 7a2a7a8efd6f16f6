import { Checks } from './checks.js'
import { DIVISIONS, WORM } from './head.js'
import { fractionText } from './whole.js'

const TURN = 360 * 3600

/** A rotary table whose handwheel (and rim) carry a scale of degrees, used without plates. */
export interface RotaryTable {
  /** Handwheel turns for one turn of the table, whole, 1 to 1000; 1 when the table is turned by hand. */
  worm: number
  /** Seconds that can be set on the handwheel's dial, with its vernier; whole, 1 to 3600, default 60. */
  reading?: number
}

/** An angle in whole degrees, minutes and seconds. */
export interface Angle {
  degrees: number
  minutes: number
  seconds: number
}

/** One place of the work, counted from the start and from there alone. */
export interface DialRow {
  /** Index of the place: 0 is the start; the last is `divisions` - 1. */
  division: number
  /** On the rim of the table. */
  rim: Angle
  /** The same by the handwheel: whole turns from the start, and what its dial then reads. */
  turns: number
  dial: Angle
  /** Set less wanted, in seconds, exactly. */
  error: string
}

/** How to divide a turn by a scale of degrees: exactly, or rounded to what the dial shows. */
export interface DialPlan {
  kind: 'exact' | 'rounded'
  divisions: number
  /** What a turn of the handwheel is worth. */
  perTurn: Angle
  table: DialRow[]
  /** The largest error without its sign, in seconds, exactly; '0' when exact. */
  worst: string
}

const angle = (seconds: number): Angle => ({
  degrees: Math.floor(seconds / 3600),
  minutes: Math.floor((seconds % 3600) / 60),
  seconds: seconds % 60,
})

/**
 * Divisions by the degree scale of a rotary table: each place in degrees, minutes and seconds from the start, rounded
 * to what the dial can show, so that nothing adds up; plain arithmetic. A rotary table with plates is a Head: see `indexing`.
 *
 * ```ts
 * dialIndexing({ divisions: 7, table: { worm: 90, reading: 10 } }).table[1].dial // { degrees: 3, minutes: 25, seconds: 40 }
 * ```
 * @throws InputError for divisions that are not whole, 1 to 10000, a worm that is not 1 to 1000, a reading that is not 1
 * to 3600 seconds, and a handwheel whose turn is no whole number of readings.
 */
export function dialIndexing(q: { divisions: number; table: RotaryTable }): DialPlan {
  const checks = new Checks()
  const { divisions: wanted, table } = checks.object(q)
  const { worm: ratio, reading: shown = 60 } = checks.object(table as RotaryTable)
  const divisions = checks.whole(wanted, 'divisions', ...DIVISIONS)
  const reading = checks.whole(shown, 'table.reading', 1, 3600, 'seconds that the dial shows')
  const worm = checks.whole(ratio, 'table.worm', ...WORM)
  if (TURN % (worm * reading) > 0) checks.add('table.reading', 'dial', worm, reading)
  checks.done()
  const perTurn = TURN / worm
  const row = (division: number): DialRow & { off: number } => {
    const steps = Math.floor((2 * division * TURN + divisions * reading) / (2 * divisions * reading))
    const set = steps * reading
    const off = set * divisions - division * TURN
    return {
      division,
      rim: angle(set),
      turns: Math.floor(set / perTurn),
      dial: angle(set % perTurn),
      error: fractionText(off, divisions),
      off,
    }
  }
  const rows = Array.from({ length: divisions }, (_, i) => row(i))
  const worst = rows.reduce((most, { off }) => Math.max(most, Math.abs(off)), 0)
  return {
    kind: worst === 0 ? 'exact' : 'rounded',
    divisions,
    perTurn: angle(perTurn),
    table: rows.map(({ off, ...rest }) => rest),
    worst: fractionText(worst, divisions),
  }
}
