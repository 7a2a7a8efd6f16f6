import type { FixedRatio, Question } from '../search/question.js'
import { type Off, sizeOf } from '../search/ranking.js'
import type { GearSet } from '../search/settler.js'
import { eachWindow, type Window, windowOf } from '../search/sweep.js'
import { sortedOrder, type Table } from '../search/table.js'
import { looseSet, type MadeBox } from './made-box.js'

/** A gear set within tolerance that needs gears yet to be made; its gears are looked up when it is settled. */
export interface Hit extends Off {
  size: number
  stages: number
  /** Side and entry of each half: the gears made on it and the owned gears beside them. */
  top: Half
  p: number
  bottom: Half
  q: number
}

/** One side of a train: the products of so many gears to be made with the owned gears of a table, ascending. */
export interface Half {
  product: Float64Array
  /** `made` candidate indices an entry. */
  made: number
  which: Uint16Array
  /** The entry of the owned gears beside them. */
  owned: Uint32Array
  /** Null when all gears of the side are to be made. */
  table: Table | null
}

/**
 * All ways to fill one side of `stages` gears with `made` gears to be made (one, two alike or two different) and owned
 * ones for the rest.
 */
export function makeHalf(box: MadeBox, stages: number, made: number): Half | null {
  const rest = stages - made
  if (rest < 0) return null
  const table = rest > 0 ? box.bench.tables.of(rest) : null
  const entries = table ? table.length : 1
  const { kinds } = box.bench.box
  const teeth = box.kindOf.map((k) => kinds[k].gear.teeth)
  const choices: number[][] = [[]]
  if (made === 1) choices.splice(0, 1, ...teeth.map((_, c) => [c]))
  if (made === 2) choices.splice(0, 1, ...teeth.flatMap((_, c) => teeth.slice(c).map((__, d) => [c, c + d])))
  const n = choices.length * entries
  const product = new Float64Array(n)
  choices.forEach((choice, i) => {
    const first = choice.reduce((value, c) => value * teeth[c], 1)
    for (let e = 0; e < entries; e++) product[i * entries + e] = table ? first * table.product[e] : first
  })
  const order = sortedOrder(product)
  const half: Half = {
    product: new Float64Array(n),
    made,
    which: new Uint16Array(n * made),
    owned: new Uint32Array(n),
    table,
  }
  for (let i = 0; i < n; i++) {
    const from = order[i]
    const choice = choices[Math.floor(from / entries)]
    half.product[i] = product[from]
    half.owned[i] = from % entries
    for (let m = 0; m < made; m++) half.which[i * made + m] = choice[m]
  }
  return half
}

/** Kind indices of an entry of a half. */
export function kindsOf(box: MadeBox, { made, which, owned, table }: Half, entry: number): number[] {
  const kinds: number[] = []
  for (let m = 0; m < made; m++) kinds.push(box.kindOf[which[entry * made + m]])
  if (table) for (let i = 0; i < table.size; i++) kinds.push(table.kinds[owned[entry] * table.size + i])
  return kinds
}

export const setOf = (box: MadeBox, { stages, top, p, bottom, q }: Hit, teeth: Int32Array): GearSet =>
  looseSet(stages, kindsOf(box, top, p), kindsOf(box, bottom, q), teeth)

/** Shows every pair of entries whose ratio is within the tolerance, for each fixed ratio of a question. */
export function eachHit(
  { ratios, tolerance }: Question,
  stages: number,
  top: Half,
  bottom: Half,
  visit: (hit: Hit) => void,
): void {
  for (const ratio of ratios) {
    const window: Window = windowOf(ratio, tolerance)
    eachWindow(top.product, bottom.product, window, (q, from, to) => {
      const driven = bottom.product[q]
      for (let p = from; p < to; p++) visit(makeHit(ratio, stages, top, p, bottom, q, top.product[p], driven))
    })
  }
}

const makeHit = (
  ratio: FixedRatio,
  stages: number,
  top: Half,
  p: number,
  bottom: Half,
  q: number,
  drivers: number,
  driven: number,
): Hit => ({ ratio, drivers, driven, size: sizeOf(ratio, drivers, driven), stages, top, p, bottom, q })
