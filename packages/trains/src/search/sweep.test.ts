import { type Rational, rational } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { makeBox } from './box.js'
import { makeQuestion } from './question.js'
import { countPairs, eachSet, eachWindow, windowOf } from './sweep.js'
import { makeTable } from './table.js'

const ratioOf = (pitch: string) => makeQuestion({ leadscrew: { pitch: '1 mm' } }, { pitch }).ratios[0]
const exact = rational(0)

/** Whether drivers / driven cuts the thread within the tolerance, by whole numbers: |n P - d Q| td <= d Q tn. */
function within(pitch: string, tolerance: Rational) {
  const { n, d } = ratioOf(pitch)
  const [tn, td] = [BigInt(tolerance.n), BigInt(tolerance.d)]
  return (drivers: number, driven: number): boolean => {
    const over = n * BigInt(drivers) - d * BigInt(driven)
    return (over < 0n ? -over : over) * td <= d * BigInt(driven) * tn
  }
}

describe('the windows of driver products', () => {
  const windows = (pitch: string, tolerance: Rational, drivers: number[], driven: number[]) => {
    const seen: [number, number][] = []
    const asked: number[] = []
    eachWindow(
      Float64Array.from(drivers),
      Float64Array.from(driven),
      windowOf(ratioOf(pitch), tolerance),
      (q, from, to) => {
        asked.push(q)
        for (let p = from; p < to; p++) seen.push([drivers[p], driven[q]])
      },
    )
    // Ascending, each once, and never empty.
    expect(asked).toEqual([...new Set(asked)].sort((a, b) => a - b))
    expect(new Set(asked.map((q) => driven[q]))).toEqual(new Set(seen.map(([, q]) => q)))
    return seen
  }
  const plain = (pitch: string, tolerance: Rational, drivers: number[], driven: number[]) => {
    const lies = within(pitch, tolerance)
    return driven.flatMap((q) => drivers.filter((p) => lies(p, q)).map((p) => [p, q]))
  }
  const every = Array.from({ length: 100 }, (_, i) => i + 1)

  it.each([
    // A double of 1/49, times 49, falls short of 1; 0.07 times 100 comes to more than 7.
    ['1/49', exact],
    ['49', exact],
    ['0.07', exact],
    ['1.1', exact],
    ['0.7', rational(1, 7)],
    ['3', rational(1, 3)],
    ['0.3', rational(1, 20)],
    ['1', rational(1, 99)],
    ['2/3', rational(99, 100)],
    ['127/100', rational(1, 12)],
  ])('hold what whole numbers say, borders and equal products too: %s', (pitch, tolerance) => {
    const expected = plain(pitch, tolerance, every, every)
    expect(expected.length).toBeGreaterThan(0)
    expect(windows(pitch, tolerance, every, every)).toEqual(expected)
    const [twice, some] = [every.flatMap((n) => [n, n]), [3, 49, 49, 98, 98, 98, 100]]
    expect(windows(pitch, tolerance, twice, some)).toEqual(plain(pitch, tolerance, twice, some))
  })

  it('tell products of four gears of many teeth apart that differ by one', () => {
    // 1/3 of 3 k is k exactly, however long the numbers; a double of it may lie on either side.
    const near = Array.from({ length: 30 }, (_, i) => 5_000_000_000_000 + 37 * i)
    const drivers = near.flatMap((k) => [k - 1, k, k + 1])
    const driven = near.map((k) => 3 * k)
    expect(windows('1/3', exact, drivers, driven)).toEqual(near.map((k) => [k, 3 * k]))
    // The border 1 - 1/3 of 3 k is 2 k; one tooth less is out, one more is in.
    const both = near.flatMap((k) => [2 * k - 1, 2 * k, 2 * k + 1])
    const low = windows('1', rational(1, 3), both, driven)
    expect(low).toEqual(plain('1', rational(1, 3), both, driven))
    expect(low).toContainEqual([2 * near[0], 3 * near[0]])
    expect(low).not.toContainEqual([2 * near[0] - 1, 3 * near[0]])
    // And 1 + 1/3 of it is 4 k.
    const wide = near.flatMap((k) => [4 * k - 1, 4 * k, 4 * k + 1])
    const high = windows('1', rational(1, 3), wide, driven)
    expect(high).toEqual(plain('1', rational(1, 3), wide, driven))
    expect(high).toContainEqual([4 * near[29], 3 * near[29]])
    expect(high).not.toContainEqual([4 * near[29] + 1, 3 * near[29]])
  })
})

describe('the sets of a window', () => {
  /** Gears of 20 teeth and more, two of some kinds; of `every` kinds all but one are empty. */
  type Owned = [kinds: number, twice?: number[], every?: number]
  const boxOf = ([kinds, twice = [], every = 1]: Owned) =>
    makeBox(
      Array.from({ length: kinds }, (_, i) => ({
        teeth: 20 + i,
        count: i % every > 0 ? 0 : twice.includes(i) ? 2 : 1,
      })),
      undefined,
    ).kinds

  it.each<[string, Owned, number, string, Rational, number[]]>([
    ['one word of kinds', [9], 2, '0.8', rational(1, 10), []],
    ['as many as one word holds', [32, [], 2], 2, '1', rational(1, 10), []],
    ['two words', [64, [], 3], 2, '1', rational(1, 10), []],
    ['three words', [96, [], 5], 2, '1', rational(1, 10), []],
    ['four words', [128, [], 7], 2, '1', rational(1, 10), []],
    ['three gears a side', [9], 3, '0.9', rational(1, 50), []],
    ['kinds of which there are two', [8, [0, 3, 7]], 2, '1', rational(1, 10), []],
    ['a kind that may stand on both sides', [8, [0, 3]], 2, '1', rational(1, 10), [3]],
    ['two kinds that may, one of them single', [8, [0, 3]], 3, '1', rational(1, 20), [3, 5]],
    ['pairs', [9, [2]], 1, '1', rational(1, 5), []],
  ])('share no gear, and never more of one than there are: %s', (_, owned, size, pitch, tolerance, bothSides) => {
    const kinds = boxOf(owned)
    const table = makeTable(kinds, size, bothSides)
    const window = windowOf(ratioOf(pitch), tolerance)
    const gears = (e: number) => [...table.kinds.subarray(e * size, (e + 1) * size)]
    const expected: [number, number][] = []
    const lies = within(pitch, tolerance)
    let pairs = 0
    for (let q = 0; q < table.length; q++) {
      for (let p = 0; p < table.length; p++) {
        if (!lies(table.product[p], table.product[q])) continue
        pairs++
        const [top, bottom] = [gears(p), gears(q)]
        const free = (k: number) => {
          if (!bottom.includes(k)) return true
          const copies = [...top, ...bottom].filter((other) => other === k).length
          return (size === 1 || bothSides.includes(k)) && copies <= kinds[k].count
        }
        if (top.every(free)) expected.push([p, q])
      }
    }
    expect(expected.length).toBeGreaterThan(0)
    expect(expected.length).toBeLessThan(pairs)
    const seen: [number, number][] = []
    const visit = (p: number, q: number) => {
      seen.push([p, q])
      return false
    }
    expect(eachSet(table, kinds, bothSides, window, visit)).toBe(false)
    expect(seen).toEqual(expected)
    expect(countPairs(table.product, table.product, window)).toBe(pairs)
    // Stopped, it shows no more.
    for (const after of [1, 2]) {
      seen.length = 0
      const stop = (p: number, q: number) => {
        visit(p, q)
        return seen.length === after
      }
      expect(eachSet(table, kinds, bothSides, window, stop)).toBe(true)
      expect(seen).toEqual(expected.slice(0, after))
    }
  })
})
