import { Checks, type ExactLength } from './checks.js'
import { rounded } from './rounding.js'

/** Seconds from seeing the tool arrive to having it out (common practice, no source). */
const REACTION = 0.5

interface RunOut {
  /** The lead that the train cuts. */
  lead: ExactLength
  /** Width of the tool's nose along the work, mm. */
  tool: number
  /** Seconds; default 0.5. */
  reaction?: number
}

function read(q: RunOut): { ask: Checks; lead: number; tool: number; reaction: number } {
  const ask = new Checks(q)
  const lead = ask.mm('lead')
  const tool = ask.number('tool', 0)
  return { ask, lead, tool, reaction: ask.number('reaction', 0.01, 60, REACTION) }
}

/**
 * The least width of a run-out groove, mm: the tool and what the carriage travels at `speed` (rev/min) in the time that
 * the operator needs to withdraw it. Arithmetic, but for the half second (common practice, no source).
 * @throws InputError for sizes out of range.
 */
export function runOutGroove(q: RunOut & { speed: number }): { travel: number; width: number } {
  const { ask, lead, tool, reaction } = read(q)
  const travel = (lead * ask.number('speed', 0.1) * reaction) / 60
  ask.done()
  return rounded({ travel, width: travel + tool })
}

/**
 * The spindle speed, rev/min, that a run-out groove of `groove` mm allows, and which of the lathe's speeds serve, fastest
 * first. None: turn the spindle by hand. Arithmetic, but for the half second (common practice, no source).
 * @throws InputError for a groove no wider than the tool, or speeds that are not numbers above zero.
 */
export function threadingSpeeds(q: RunOut & { groove: number; speeds?: readonly number[] }): {
  limit: number
  serving: number[]
} {
  const { ask, lead, tool, reaction } = read(q)
  const groove = ask.number('groove', tool + 0.001)
  const speeds = ask.numbers('speeds')
  ask.done()
  const limit = rounded(((groove - tool) * 60) / (lead * reaction))
  return { limit, serving: speeds.filter((speed) => speed <= limit).sort((a, b) => b - a) }
}

/**
 * Which way the carriage travels while it cuts. Right-hand work with the spindle forward is cut towards the headstock,
 * left-hand work towards the tailstock; a reversed spindle (tool upside down or behind) turns both round. Towards the
 * tailstock the cut starts in the run-out groove: cut that first, to the full depth. Geometry of the screw.
 * @throws InputError for words that are not known.
 */
export function directionOfTravel(q: {
  hand: 'right' | 'left'
  /** Default 'forward'. */
  spindle?: 'forward' | 'reverse'
}): 'headstock' | 'tailstock' {
  const ask = new Checks(q)
  const hand = ask.choice('hand', ['right', 'left'], false)
  const spindle = ask.choice('spindle', ['forward', 'reverse'])
  ask.done()
  return (hand === 'right') === (spindle === 'forward') ? 'headstock' : 'tailstock'
}
