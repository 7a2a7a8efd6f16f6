import { type Rational, toNumber } from '@trainwright/measures'
import type { Kind } from './box.js'
import type { FixedRatio } from './question.js'
import type { Table } from './table.js'

/** Bounds of driver product / driven product, exactly and as doubles. */
export interface Window {
  low: Bound
  high: Bound
}
interface Bound {
  n: bigint
  d: bigint
  value: number
}

const bound = (n: bigint, d: bigint): Bound => ({ n, d, value: toNumber({ n: String(n), d: String(d) }) })

/** Within this window, |lead / wanted lead - 1| <= tolerance, the border included. */
export function windowOf({ n, d }: FixedRatio, tolerance: Rational): Window {
  const tn = BigInt(tolerance.n)
  const td = BigInt(tolerance.d)
  return { low: bound((td - tn) * d, td * n), high: bound((td + tn) * d, td * n) }
}

/**
 * A double decides unless it stands within its own error of a whole number; then the exact product does. A product of
 * teeth times a bound carries two roundings, each 2^-53 of its size.
 */
const doubtful = (x: number): boolean => {
  const past = x - Math.floor(x)
  return past <= x * 2 ** -50 || 1 - past <= x * 2 ** -50
}

function least(q: number, { n, d, value }: Bound): number {
  const x = q * value
  if (!doubtful(x)) return Math.ceil(x)
  const exact = BigInt(q) * n
  return Number((exact + d - 1n) / d)
}

function most(q: number, { n, d, value }: Bound): number {
  const x = q * value
  return doubtful(x) ? Number((BigInt(q) * n) / d) : Math.floor(x)
}

/**
 * Goes through driven products with the driver products that lie in the window beside each: calls `visit(q, from, to)`,
 * the drivers being from..to-1. Both lists ascend.
 */
export function eachWindow(
  drivers: Float64Array,
  driven: Float64Array,
  { low, high }: Window,
  visit: (q: number, from: number, to: number) => void,
): void {
  let from = 0
  let to = 0
  let last = -1
  for (let q = 0; q < driven.length; q++) {
    if (driven[q] !== last) {
      last = driven[q]
      const l = least(last, low)
      const h = most(last, high)
      while (from < drivers.length && drivers[from] < l) from++
      if (to < from) to = from
      while (to < drivers.length && drivers[to] <= h) to++
    }
    if (to > from) visit(q, from, to)
  }
}

/** How many pairs of entries lie in the window, whether or not they share gears. */
export function countPairs(drivers: Float64Array, driven: Float64Array, window: Window): number {
  let pairs = 0
  eachWindow(drivers, driven, window, (_, from, to) => {
    pairs += to - from
  })
  return pairs
}

/**
 * Calls `visit(p, q)` for each gear set in the window: driver entry p, driven entry q, no gear on both sides (but for
 * kinds without a bit in the masks, when the box holds enough of them). Stops when `visit` returns true.
 */
export function eachSet(
  table: Table,
  kinds: readonly Kind[],
  bothSides: readonly number[],
  window: Window,
  visit: (p: number, q: number) => boolean,
): boolean {
  const { mask, words, size } = table
  let done = false
  if (size === 1) {
    eachWindow(table.product, table.product, window, (q, from, to) => {
      for (let p = from; p < to && !done; p++) if (p !== q || kinds[table.kinds[p]].count > 1) done = visit(p, q)
    })
    return done
  }
  eachWindow(table.product, table.product, window, (q, from, to) => {
    if (done) return
    const qa = q * words
    const q0 = mask[qa]
    const q1 = words > 1 ? mask[qa + 1] : 0
    for (let p = from; p < to; p++) {
      const pa = p * words
      if (mask[pa] & q0) continue
      if (words > 1 && mask[pa + 1] & q1) continue
      if (words > 2 && shares(mask, pa, qa, words)) continue
      if (bothSides.length > 0 && !supplied(table, kinds, bothSides, p, q)) continue
      if (visit(p, q)) {
        done = true
        return
      }
    }
  })
  return done
}

function shares(mask: Int32Array, pa: number, qa: number, words: number): boolean {
  for (let w = 2; w < words; w++) if (mask[pa + w] & mask[qa + w]) return true
  return false
}

function supplied(t: Table, kinds: readonly Kind[], bothSides: readonly number[], p: number, q: number): boolean {
  for (const kind of bothSides) {
    let uses = 0
    for (let i = 0; i < t.size; i++) {
      if (t.kinds[p * t.size + i] === kind) uses++
      if (t.kinds[q * t.size + i] === kind) uses++
    }
    if (uses > kinds[kind].count) return false
  }
  return true
}
