import { rational } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { box, shop } from '../../../../bench/plain/in-brief.js'
import { makeQuestion } from '../search/question.js'
import { eachHit, type Half, type Hit, makeHalf } from './hits.js'
import { MadeBox } from './made-box.js'
import { PairNumbers } from './pairs.js'

const gear = (teeth: number) => ({ teeth, module: 1, pressureAngle: 20 })
/** Owned: 20, 30 twice, 50. To be made: 25, another 30, 60. */
const makeable = () => new MadeBox(shop([...box(20, 50), { teeth: 30, count: 2 }]), [25, 30, 60].map(gear))
const owned = [20, 30, 30, 50]
const candidates = [25, 30, 60]

/** Ascending lists of `size` of these teeth, each once. */
function lists(teeth: readonly number[], size: number, repeat = false): number[][] {
  if (size === 0) return [[]]
  const every = teeth.flatMap((t, i) =>
    lists(teeth.slice(repeat ? i : i + 1), size - 1, repeat).map((rest) => [t, ...rest]),
  )
  return [...new Map(every.map((list) => [list.join(), list])).values()]
}
const teethOf = (made: MadeBox, half: Half, i: number) =>
  [...half.kinds.subarray(i * half.size, (i + 1) * half.size)].map((k) => made.bench.box.kinds[k].gear.teeth)
const whichOf = (half: Half, i: number) =>
  [...half.which.subarray(i * half.made, (i + 1) * half.made)].map((c) => candidates[c])

describe('one side of a train', () => {
  it.each([
    [1, 0],
    [3, 0],
    [1, 1],
    [2, 1],
    [4, 1],
    [2, 2],
    [3, 2],
  ])('of %d gears, %d of them made, is every choice of made ones beside every choice of owned ones', (size, number) => {
    const made = makeable()
    const half = makeHalf(made, size, number)!
    const expected = lists(candidates, number, true).flatMap((which) =>
      lists(owned, size - number).map((rest) => ({ which, teeth: [...which, ...rest].sort((a, b) => a - b) })),
    )
    const entries = [...half.product.keys()].map((i) => ({ which: whichOf(half, i), teeth: teethOf(made, half, i) }))
    const bySpelling = (a: object, b: object) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1)
    expect([...entries].sort(bySpelling)).toEqual(expected.sort(bySpelling))
    expect([...half.product]).toEqual(entries.map(({ teeth }) => teeth.reduce((product, t) => product * t, 1)))
    expect([...half.product]).toEqual([...half.product].sort((a, b) => a - b))
    expect(half).toMatchObject({ size, made: number })
  })

  it('has no room for more made gears than places', () => {
    expect(makeHalf(makeable(), 1, 2)).toBeNull()
  })
})

it('hits are all pairs of sides within the tolerance, by each fixed ratio', () => {
  const lathe = { leadscrew: { pitch: '1 mm' }, drives: [{ ratio: 1 }, { ratio: '1/2' }] }
  const question = makeQuestion(lathe, { pitch: '1/2', tolerance: { ppm: 300_000 } })
  const made = makeable()
  const [top, bottom] = [makeHalf(made, 2, 1)!, makeHalf(made, 2, 0)!]
  const seen: Hit[] = []
  eachHit(question, top, bottom, (hit) => seen.push(hit))
  const expected: string[] = []
  for (const fixed of [1, 0.5]) {
    bottom.product.forEach((driven) => {
      top.product.forEach((drivers) => {
        if (Math.abs((fixed * drivers) / driven / 0.5 - 1) <= 0.3 + 1e-12)
          expected.push(`${fixed} ${drivers}:${driven}`)
      })
    })
  }
  expect(expected.length).toBeGreaterThan(15)
  expect(
    seen.map(({ ratio, p, q }) => `${ratio === question.ratios[0] ? 1 : 0.5} ${top.product[p]}:${bottom.product[q]}`),
  ).toEqual(expected)
  for (const hit of seen) {
    expect(hit).toMatchObject({ drivers: top.product[hit.p], driven: bottom.product[hit.q], top, bottom })
    const fixed = hit.ratio === question.ratios[0] ? 1 : 0.5
    expect(hit.size).toBeCloseTo(Math.abs((fixed * hit.drivers) / hit.driven / 0.5 - 1), 12)
  }
  expect(question.ratios[1].ratio).toEqual(rational(1, 2))
})

it.each([1, 2, 5])('pairs of %d are numbered row by row, whichever comes first', (count) => {
  const pairs = new PairNumbers(count)
  const rows = Array.from({ length: count }, (_, a) => a).flatMap((a) =>
    Array.from({ length: count - a }, (_, i) => [a, a + i]),
  )
  expect(pairs.length).toBe(rows.length)
  expect(rows.map(([a, b]) => pairs.of(a, b))).toEqual(rows.map((_, n) => n))
  expect(rows.map(([a, b]) => pairs.of(b, a))).toEqual(rows.map((_, n) => n))
})
