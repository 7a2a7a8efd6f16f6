import type { Rational } from '@trainwright/measures'
import { BOUNDS } from '../bounds.js'
import type { Box, Kind } from './box.js'
import type { FixedRatio, Question } from './question.js'
import type { GearSet, Settler } from './settler.js'
import { countPairs, eachSet, windowOf } from './sweep.js'
import { makeTable, type Table, tableLength } from './table.js'

/** Entries a table may hold; past this pairs are estimated, and always too many. */
export const LARGEST_TABLE = 6_000_000
/** Entries of the thinned box by which pairs are estimated. */
const SAMPLE = 100_000

/** The tables of a box, made when first needed: they depend on the box alone. */
export class Tables {
  readonly bothSides: number[]
  private readonly made = new Map<number, Table>()

  constructor(readonly box: Box) {
    this.bothSides = [...new Set([box.fixed.input, box.fixed.output])].filter((k) => k >= 0)
  }

  of = (size: number): Table => {
    let table = this.made.get(size)
    if (!table) {
      table = makeTable(this.box.kinds, size, this.bothSides)
      this.made.set(size, table)
    }
    return table
  }

  /** Pairs in the windows of one number of stages. Exact up to LARGEST_TABLE, else reckoned from a part of the box. */
  pairs(size: number, ratios: readonly FixedRatio[], tolerance: Rational): number {
    const { kinds } = this.box
    const count = ({ product }: Table) => pairsWithin(product, product, ratios, tolerance)
    const length = tableLength(kinds, size)
    if (length <= LARGEST_TABLE) return count(this.of(size))
    let part: readonly Kind[] = kinds
    for (let step = 2; tableLength(part, size) > SAMPLE; step++) part = kinds.filter((_, i) => i % step === 0)
    const sample = makeTable(part, size, [])
    const estimate = count(sample) * (length / sample.length) ** 2
    return atLeastTooMany(estimate)
  }
}

/** Pairs of products in the windows of all fixed ratios. */
export const pairsWithin = (
  drivers: Float64Array,
  driven: Float64Array,
  ratios: readonly FixedRatio[],
  tolerance: Rational,
): number => ratios.reduce((sum, r) => sum + countPairs(drivers, driven, windowOf(r, tolerance)), 0)

/** An estimate of pairs that cannot be counted, and so are too many. */
export const atLeastTooMany = (estimate: number): number => Math.max(Math.round(estimate), BOUNDS.pairs + 1)

export interface Refusal {
  pairs: number
  stages: number
}

/**
 * Null when so many stages are within bounds; else the pairs they come to, and the stages that would do.
 * @param most how many pairs a number of stages could come to, at a glance
 * @param count how many it comes to
 */
export function refusalOf(
  stages: number,
  most: (stages: number) => number,
  count: (stages: number) => number,
): Refusal | null {
  let all = 0
  let pairs = 0
  let counted = 0
  let enough = 0
  for (let s = 1; s <= stages; s++) {
    all += most(s)
    // No window holds more pairs than there are: mostly nothing need be counted.
    if (all > BOUNDS.pairs) while (counted < s) pairs += count(++counted)
    if (pairs <= BOUNDS.pairs) enough = s
  }
  return pairs > BOUNDS.pairs ? { pairs, stages: enough } : null
}

/** Null when the question is within bounds; else the pairs it would have to go through, and the stages that would do. */
export function refuseTooMany(tables: Tables, { ratios, tolerance }: Question, stages: number): Refusal | null {
  return refusalOf(
    stages,
    (s) => ratios.length * tableLength(tables.box.kinds, s) ** 2,
    (s) => tables.pairs(s, ratios, tolerance),
  )
}

export interface Counts {
  withinTolerance: number
  mountable: number
  /** False when the search was stopped before its end. */
  whole: boolean
}

/** Sees a mountable set: its entries, ratio and fewest gears. The set is reused: copy what is kept. True stops the search. */
export type Visit = (set: Readonly<GearSet>, ratio: FixedRatio, gears: number) => boolean

/**
 * Goes through all gear sets within the tolerance: counts them, settles each, and shows the mountable ones to `visit`.
 * @param patience steps of the settler after which a search that finds nothing is given up; counts mean nothing then
 */
export function searchSets(
  { box, bothSides, of }: Tables,
  question: Question,
  settler: Settler,
  stages: number,
  tolerance: Rational,
  visit: Visit,
  patience = Number.POSITIVE_INFINITY,
): Counts {
  const counts = { withinTolerance: 0, mountable: 0, whole: true }
  for (let s = 1; s <= stages; s++) {
    const table = of(s)
    const set = { top: table, p: 0, bottom: table, q: 0 }
    for (const ratio of question.ratios) {
      const possible = settler.possible(s, ratio)
      const stopped = eachSet(table, box.kinds, bothSides, windowOf(ratio, tolerance), (p, q) => {
        counts.withinTolerance++
        if (!possible) return false
        set.p = p
        set.q = q
        const gears = settler.fewestGears(set, ratio)
        if (gears === 0) return settler.steps() > patience
        counts.mountable++
        return visit(set, ratio, gears)
      })
      if (stopped) return { ...counts, whole: false }
    }
  }
  return counts
}
