import { Checks, rounded } from './checks.js'
import { type IndexMove, move, type TwoCircles, twoCircles } from './compound.js'
import { checkHead, DIVISIONS, divides, type Head } from './head.js'
import { type ReminderCode, reminders } from './messages.js'
import { fractionText, gcd } from './whole.js'

export type { IndexMove } from './compound.js'

/** One place of the work, counted from the hole in which the pin stood at the start, and from there alone. */
export interface IndexRow {
  /** 0 is the start; the last is `divisions` - 1. */
  division: number
  /** For each of the plan's moves, in its order: turns and spaces from the start. */
  at: IndexMove[]
  /** Made less wanted, in crank turns, exactly: '0', '1/98', '-3/539'. */
  error: string
}

/** How to divide a turn of the work on a head, and each place of it. */
export interface IndexingPlan {
  /** By one circle; by two circles of one plate; or by the circle that comes nearest (see `plateTurns`). */
  kind: 'plain' | 'compound' | 'approximate'
  divisions: number
  /** Index of the plate among the head's, from 0. */
  plate: number
  /** From each place to the next. Two when compound: the crank over the plate first, then the plate under its pin. */
  moves: IndexMove[]
  /** The moves together less worm / divisions, in crank turns, exactly; '0' when exact. */
  error: string
  /** Plain only: the same move in other circles of the head. */
  others: IndexMove[]
  table: IndexRow[]
  /** The largest error of the table without its sign, in crank turns, exactly; '0' when exact. */
  worst: string
  /** The same in degrees of the work. */
  worstDegrees: number
  reminders: { code: ReminderCode; message: string }[]
}

/** Into how many, and on what. */
export interface IndexingQuestion {
  /** Whole, 1 to 10000. */
  divisions: number
  head: Head
  /**
   * Whether the plate itself may be turned and pinned by a second circle: 'never', 'exact' (default: compound indexing
   * where that is exact) or 'closer' (also where two circles merely come closer than one).
   */
  plateTurns?: 'never' | 'exact' | 'closer'
}

/** Furthest that a nearest hole can lie from a place that is wanted, in crank turns: n / d. */
function rounding(worm: number, circle: number, divisions: number): { n: number; d: number } {
  const parts = divisions / gcd(divisions, worm * circle)
  return { n: Math.floor(parts / 2), d: parts * circle }
}

/** The circle whose nearest holes stray least; of equals the one with the more holes. */
function nearest(head: Head, divisions: number): { plate: number; circle: number } {
  let best = { plate: 0, circle: 0, n: 1, d: 0 }
  for (const [plate, circles] of head.plates.entries())
    for (const circle of circles) {
      const { n, d } = rounding(head.worm, circle, divisions)
      const less = n * best.d - best.n * d
      if (less < 0 || (less === 0 && circle > best.circle)) best = { plate, circle, n, d }
    }
  return best
}

const remind = (...codes: ReminderCode[]): IndexingPlan['reminders'] =>
  codes.map((code) => ({ code, message: (reminders[code] as () => string)() }))

/** By one circle: each place is the hole nearest to it, which is the very place when `kind` is plain. */
function byOne(head: Head, divisions: number, plate: number, circle: number): IndexingPlan {
  const { worm, plates } = head
  const exact = divides(worm, circle, divisions)
  const spacesAt = (i: number): number => Math.floor((2 * i * worm * circle + divisions) / (2 * divisions))
  const errorAt = (i: number): string => fractionText(spacesAt(i) * divisions - i * worm * circle, circle * divisions)
  const { n, d } = rounding(worm, circle, divisions)
  const degrees = (360 * n) / (d * worm)
  const reminding = remind('one-way', 'from-zero')
  if (!exact) reminding.push({ code: 'approximate', message: reminders.approximate(Number(degrees.toPrecision(3))) })
  const others = [...new Set(plates.flat())].filter((c) => exact && c !== circle && divides(worm, c, divisions))
  return {
    kind: exact ? 'plain' : 'approximate',
    divisions,
    plate,
    moves: [move(spacesAt(1), circle)],
    error: errorAt(1),
    others: others.sort((a, b) => b - a).map((c) => move((worm * c) / divisions, c)),
    table: Array.from({ length: divisions }, (_, i) => ({
      division: i,
      at: [move(spacesAt(i), circle)],
      error: errorAt(i),
    })),
    worst: fractionText(n, d),
    worstDegrees: rounded(degrees),
    reminders: reminding,
  }
}

/** By two circles: the same two moves again and again, so that the n-th place is n times each. */
function byTwo(found: TwoCircles, worm: number, divisions: number): IndexingPlan {
  const { plate, spaces, circles, error, scale } = found
  const worst = (divisions - 1) * Math.abs(error)
  const at = (i: number): IndexMove[] => [move(i * spaces[0], circles[0]), move(i * spaces[1], circles[1])]
  return {
    kind: error === 0 ? 'compound' : 'approximate',
    divisions,
    plate,
    moves: at(1),
    error: fractionText(error, scale),
    others: [],
    table: Array.from({ length: divisions }, (_, i) => ({
      division: i,
      at: at(i),
      error: fractionText(i * error, scale),
    })),
    worst: fractionText(worst, scale),
    worstDegrees: rounded((360 * worst) / (scale * worm)),
    reminders: remind('one-way', 'from-zero', 'plate-turns'),
  }
}

/**
 * How to divide a turn of the work on the owner's own head. Plain where a circle divides exactly, in the largest such
 * circle; else compound, if two circles of one plate do; else in the circle whose nearest holes stray least. A backward
 * move has negative turns and holes. All of it is arithmetic.
 *
 * ```ts
 * const head = { worm: 40, plates: [[21, 23, 27, 29, 31, 33]] }
 * indexing({ divisions: 62, head }).moves // [{ turns: 0, holes: 20, circle: 31 }]
 * indexing({ divisions: 69, head }).moves
 * // [{ turns: 0, holes: 22, circle: 33 }, { turns: 0, holes: -2, circle: 23 }]
 * ```
 * @throws InputError for a head that cannot divide (no plates, a plate without circles, hole counts that are not 2 to
 * 1000, a worm that is not 1 to 1000, more divisions than it has places) and divisions that are not whole, 1 to 10000.
 */
export function indexing(q: IndexingQuestion): IndexingPlan {
  const checks = new Checks()
  const { divisions, head, plateTurns = 'exact' } = checks.object(q)
  const wanted = checks.whole(divisions, 'divisions', ...DIVISIONS)
  checkHead(head as Head, checks)
  checks.choice(plateTurns, 'plateTurns', ['never', 'exact', 'closer'])
  checks.done()
  const { worm, plates } = head!

  const near = nearest(head!, wanted)
  if (divides(worm, near.circle, wanted)) return byOne(head!, wanted, near.plate, near.circle)
  const compound = plateTurns === 'never' ? null : twoCircles(worm, wanted, plates, plateTurns !== 'closer')
  if (compound) {
    const { n, d } = rounding(worm, near.circle, wanted)
    const worst = (Math.abs(compound.error) * (wanted - 1)) / compound.scale
    if (worst < n / d) return byTwo(compound, worm, wanted)
  }
  if (near.circle * worm < wanted)
    return checks.fail('divisions', 'cannot-divide', wanted, Math.max(...plates.flat()) * worm)
  return byOne(head!, wanted, near.plate, near.circle)
}
