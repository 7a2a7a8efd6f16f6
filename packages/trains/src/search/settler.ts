import type { Layout } from '../contract.js'
import type { Arrangement } from './arrangement.js'
import type { FixedRatio } from './question.js'
import type { Side } from './table.js'

/** One gear set: entry p of a list of drivers, entry q of a list of as many driven gears. */
export interface GearSet {
  top: Side
  p: number
  bottom: Side
  q: number
}

/** Says whether a gear set can be mounted, with how few gears, and how best: with a banjo or without. */
export interface Settler {
  /** Whether a train of so many stages could be mounted at all at this ratio, whatever its gears. */
  possible(stages: number, ratio: FixedRatio): boolean
  /** Gears on shafts in the arrangement with the fewest, or 0 when the set cannot be mounted. */
  fewestGears(set: GearSet, ratio: FixedRatio): number
  /** The best arrangement with so many gears that comes before `incumbent`, or null when none does. */
  best(set: GearSet, ratio: FixedRatio, gears: number, incumbent: Arrangement | null): Arrangement | null
  /** Steps walked so far: what a search has cost, the same on every machine. */
  steps(): number
  /** Adds copies of a kind to the box, or takes them back; a gear to be made may sit anywhere. */
  lend(kind: number, copies: number): void
  /** Where the shafts of a best arrangement stand; null without a banjo. */
  layoutOf(arrangement: Arrangement): Layout | null
}
