import type { Kind } from '../search/box.js'
import type { Question } from '../search/question.js'
import { type Off, sizeOf } from '../search/ranking.js'
import type { GearSet } from '../search/settler.js'
import { eachWindow, windowOf } from '../search/sweep.js'
import { type Side, sortedOrder, tableLength } from '../search/table.js'
import type { MadeBox } from './made-box.js'

/** One side of a train on which so many gears are made, beside owned ones. */
export interface Half extends Side {
  /** `made` candidate indices an entry. */
  made: number
  which: Uint16Array
}

/** A gear set within tolerance that needs gears yet to be made, or may. */
export interface Hit extends GearSet, Off {
  top: Half
  bottom: Half
}

/** How many entries a half has: `size` gears, of which `made` are of `candidates` that may be made. */
export function halfLength(kinds: readonly Kind[], candidates: number, size: number, made: number): number {
  if (size < made) return 0
  const choices = made === 2 ? (candidates * (candidates + 1)) / 2 : candidates ** made
  return choices * tableLength(kinds, size - made)
}

/**
 * All ways to fill one side of `size` gears with `made` gears to be made (one, two alike or two different) and owned
 * ones for the rest; null when there are fewer places than gears.
 */
export function makeHalf({ bench, kindOf }: MadeBox, size: number, made: number): Half | null {
  const rest = size - made
  if (rest < 0) return null
  const owned = rest > 0 ? bench.tables.of(rest) : { length: 1, product: [1], kinds: [] }
  const { kinds } = bench.box
  let choices: number[][] = [[]]
  if (made === 1) choices = kindOf.map((_, c) => [c])
  if (made === 2) choices = kindOf.flatMap((_, c) => kindOf.slice(c).map((__, d) => [c, c + d]))
  const n = choices.length * owned.length
  const product = new Float64Array(n)
  choices.forEach((choice, i) => {
    const first = choice.reduce((value, c) => value * kinds[kindOf[c]].gear.teeth, 1)
    for (let e = 0; e < owned.length; e++) product[i * owned.length + e] = first * owned.product[e]
  })
  const order = sortedOrder(product)
  const half: Half = {
    size,
    product: new Float64Array(n),
    kinds: new Uint16Array(n * size),
    made,
    which: new Uint16Array(n * made),
  }
  for (let i = 0; i < n; i++) {
    const entry = order[i] % owned.length
    const choice = choices[(order[i] - entry) / owned.length]
    half.product[i] = product[order[i]]
    for (let m = 0; m < made; m++) half.which[i * made + m] = choice[m]
    for (let at = i * size, m = 0, j = 0; at < (i + 1) * size; at++) {
      const fromBox = j < rest ? owned.kinds[entry * rest + j] : Number.POSITIVE_INFINITY
      const fromMade = m < made ? kindOf[choice[m]] : Number.POSITIVE_INFINITY
      half.kinds[at] = Math.min(fromBox, fromMade)
      if (fromMade < fromBox) m++
      else j++
    }
  }
  return half
}

/** Shows every pair of entries whose ratio is within the tolerance, for each fixed ratio of a question. */
export function eachHit({ ratios, tolerance }: Question, top: Half, bottom: Half, visit: (hit: Hit) => void): void {
  for (const ratio of ratios) {
    eachWindow(top.product, bottom.product, windowOf(ratio, tolerance), (q, from, to) => {
      const driven = bottom.product[q]
      for (let p = from; p < to; p++) {
        const drivers = top.product[p]
        visit({ ratio, drivers, driven, size: sizeOf(ratio, drivers, driven), top, p, bottom, q })
      }
    })
  }
}
