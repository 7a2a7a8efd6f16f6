import type { Kind } from './box.js'

/** Ways to fill one side of a train of `size` stages, by ascending product of teeth. */
export interface Side {
  size: number
  /** Whole numbers, exact in a double: 2000 teeth four times over stay below 2^53. */
  product: Float64Array
  /** `size` kind indices an entry, ascending. */
  kinds: Uint16Array
}

/** All ways to take `size` gears from the box. */
export interface Table extends Side {
  length: number
  /** `words` words an entry: a bit for each kind in it, but for the kinds that may stand on both sides. */
  mask: Int32Array
  words: number
}

/** How many entries a table has: coefficients of the product of 1 + x + ... + x^count over the kinds. */
export function tableLength(kinds: readonly Kind[], size: number): number {
  const ways = new Float64Array(size + 1)
  ways[0] = 1
  for (const { count } of kinds) {
    for (let k = size; k > 0; k--) for (let take = 1; take <= Math.min(count, k); take++) ways[k] += ways[k - take]
  }
  return ways[size]
}

const BITS = 11
const DIGIT = 2 ** BITS

/** Least-significant-digit radix sort of whole numbers: the order of their indices. */
export function sortedOrder(values: Float64Array): Uint32Array {
  const n = values.length
  let largest = 0
  for (let i = 0; i < n; i++) if (values[i] > largest) largest = values[i]
  let order = new Uint32Array(n)
  let next = new Uint32Array(n)
  const digits = new Uint16Array(n)
  const starts = new Uint32Array(DIGIT + 1)
  for (let i = 0; i < n; i++) order[i] = i
  // Products of three stages mostly fit 31 bits, where shifts do what else takes divisions.
  const short = largest < 2 ** 31 ? new Int32Array(values) : null
  for (let scale = 1, shift = 0; scale <= largest; scale *= DIGIT, shift += BITS) {
    starts.fill(0)
    for (let i = 0; i < n; i++) {
      const digit = short ? (short[i] >> shift) & (DIGIT - 1) : Math.floor(values[i] / scale) % DIGIT
      digits[i] = digit
      starts[digit + 1]++
    }
    for (let d = 0; d < DIGIT; d++) starts[d + 1] += starts[d]
    for (let i = 0; i < n; i++) next[starts[digits[order[i]]]++] = order[i]
    const done = order
    order = next
    next = done
  }
  return order
}

/**
 * Builds the table of one size.
 * @param bothSides kinds that may stand among drivers and driven alike: they get no bit in `mask`
 */
export function makeTable(kinds: readonly Kind[], size: number, bothSides: readonly number[]): Table {
  const length = tableLength(kinds, size)
  const words = Math.ceil(kinds.length / 32)
  const teeth = Int32Array.from(kinds, (k) => k.gear.teeth)
  const counts = Int32Array.from(kinds, (k) => k.count)
  const bit = Int32Array.from(kinds, (_, k) => (bothSides.includes(k) ? 0 : 1 << (k & 31)))
  const product = new Float64Array(length)
  const listed = new Uint16Array(length * size)
  const chosen = new Uint16Array(size)
  const last = size - 1
  let n = 0
  const choose = (at: number, from: number, used: number, value: number): void => {
    for (let k = from; k < teeth.length; k++) {
      const again = k === from ? used : 0
      if (again === counts[k]) continue
      chosen[at] = k
      if (at < last) choose(at + 1, k, again + 1, value * teeth[k])
      else {
        product[n] = value * teeth[k]
        for (let j = 0; j < size; j++) listed[n * size + j] = chosen[j]
        n++
      }
    }
  }
  choose(0, 0, 0, 1)

  const order = sortedOrder(product)
  const sorted = new Float64Array(length)
  const sortedKinds = new Uint16Array(length * size)
  const mask = new Int32Array(length * words)
  for (let i = 0; i < length; i++) {
    const from = order[i]
    sorted[i] = product[from]
    for (let j = 0; j < size; j++) {
      const k = listed[from * size + j]
      sortedKinds[i * size + j] = k
      mask[i * words + (k >> 5)] |= bit[k]
    }
  }
  return { size, length, product: sorted, kinds: sortedKinds, mask, words }
}
