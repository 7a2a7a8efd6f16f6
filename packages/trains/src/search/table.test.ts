import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { makeBox } from './box.js'
import { makeTable, sortedOrder, tableLength } from './table.js'

it.each([2 ** 11, 2 ** 31 - 1, 2 ** 31, 2 ** 53 - 1])(
  'orders whole numbers up to %d, equal ones as they came',
  (max) => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.maxSafeNat().map((n) => n % (max + 1)),
            fc.nat(9),
          ),
          { maxLength: 30 },
        ),
        (list) => {
          // The largest in the middle: neither the first nor the last to be looked at.
          const values = [...list, max, ...list]
          const order = [...values.keys()].sort((a, b) => values[a]! - values[b]! || a - b)
          expect([...sortedOrder(Float64Array.from(values))]).toEqual(order)
        },
      ),
    )
  },
)

describe('the table of a box', () => {
  const boxOf = (counts: number[], first = 20) =>
    makeBox(
      counts.map((count, i) => ({ teeth: first + i, count })),
      undefined,
    ).kinds

  /** Every ascending choice of `size` kinds with no more of one than there are. */
  function choices(counts: readonly number[], size: number, from = 0, chosen: number[] = []): number[][] {
    if (chosen.length === size) return [chosen]
    return counts.slice(from).flatMap((count, i) => {
      const k = from + i
      const used = chosen.filter((c) => c === k).length
      return used < count ? choices(counts, size, k, [...chosen, k]) : []
    })
  }

  it.each([
    ['single gears', [1, 1, 1, 1, 1, 1], 1],
    ['single gears in pairs', [1, 1, 1, 1, 1, 1], 2],
    ['two and three of some', [2, 1, 3, 1, 2], 3],
    ['many of one', [5, 1], 4],
    ['fewer than a side wants', [1, 2], 4],
    ['two words of kinds', Array(40).fill(1), 2],
    ['a full word of kinds', Array(32).fill(1), 2],
    ['a word and one', Array(33).fill(1), 2],
    ['four gears of many teeth', Array(9).fill(1), 4, 1990],
  ])('lists each choice once, by its product: %s', (_, counts, size, first = 20) => {
    const kinds = boxOf(counts, first)
    const expected = choices(counts, size)
      .map((chosen) => ({ chosen, product: chosen.reduce((product, k) => product * (first + k), 1) }))
      .sort((a, b) => a.product - b.product)
    expect(tableLength(kinds, size)).toBe(expected.length)
    const bothSides = [1, counts.length - 1]
    const table = makeTable(kinds, size, bothSides)
    expect(table.length).toBe(expected.length)
    expect([...table.product]).toEqual(expected.map(({ product }) => product))
    expect([...table.kinds]).toEqual(expected.flatMap(({ chosen }) => chosen))
    // A bit for each kind but those for both sides.
    expect(table.words * 32).toBeGreaterThanOrEqual(counts.length)
    expect((table.words - 1) * 32).toBeLessThan(counts.length)
    const bits = expected.map((_, i) =>
      counts.flatMap((_, k) => ((table.mask[i * table.words + Math.floor(k / 32)] >>> (k % 32)) & 1 ? [k] : [])),
    )
    expect(bits).toEqual(expected.map(({ chosen }) => [...new Set(chosen)].filter((k) => !bothSides.includes(k))))
  })
})
