import { rational } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { box, shop } from '../../../../bench/plain/in-brief.js'
import { BOUNDS } from '../bounds.js'
import type { Workshop } from '../contract.js'
import { makeQuestion, type Question } from '../search/question.js'
import type { Hit } from './hits.js'
import { MadeBox } from './made-box.js'
import { openSingly, Workbench } from './singles.js'

const gear = (teeth: number) => ({ teeth, module: 1, pressureAngle: 20 })
const row = (from: number, n: number) => Array.from({ length: n }, (_, i) => from + i)
const bench = (workshop: Workshop, candidates: readonly number[], stages: number) =>
  new Workbench(new MadeBox(workshop, candidates.map(gear)), stages)

/** Every hit, however many gears are made, one by one. */
function counted(workbench: Workbench, question: Question, make: 1 | 2): number {
  let count = 0
  for (let onTop = 0; onTop <= make; onTop++)
    for (let below = 0; onTop + below <= make; below++) workbench.hits(question, onTop, below, () => count++)
  return count
}

describe('too many hits', () => {
  // Within 999,999 ppm of a 1000th lies every ratio.
  const everything = makeQuestion({ leadscrew: { pitch: '1 mm' } }, { pitch: '1000 mm', tolerance: { ppm: 999_999 } })

  it('are counted over owned gears, and those with a gear made on either side', () => {
    // 60 owned by twos are 1,770 sides. Each of 70 gears beside an owned one makes 4,200, which meet the 1,770 on top and
    // below. By ones 60 x 60, and 70 x 60 on top and below.
    const ones = 60 * 60 + 2 * 70 * 60
    const twos = 1770 ** 2 + 2 * 4200 * 1770
    const owned = shop(box(...row(20, 60)), { studs: 1 })
    expect(bench(owned, row(200, 70), 2).tooMany(everything)).toBeNull()
    expect(counted(bench(owned, row(200, 70), 2), everything, 1)).toBe(ones + twos)
    // 200 gears to be made: 12,000 sides.
    const more = 60 * 60 + 2 * 200 * 60 + 1770 ** 2 + 2 * 12_000 * 1770
    expect(bench(owned, row(200, 200), 2).tooMany(everything)).toBeNull()
    // 300 of them are past the bound.
    expect(more).toBeLessThanOrEqual(BOUNDS.pairs)
    expect(bench(owned, row(200, 300), 2).tooMany(everything)).toEqual({
      pairs: 60 * 60 + 2 * 300 * 60 + 1770 ** 2 + 2 * 18_000 * 1770,
      stages: 1,
    })
  })

  it('with two made, those of one are among them', () => {
    // 40 gears: 820 pairs of them, two alike included. By ones nothing takes two on one side.
    const owned = shop(box(...row(20, 30)), { studs: 1 })
    const one = 30 ** 2 + 2 * 40 * 30 + 40 ** 2
    const two = 435 ** 2 + 2 * (40 * 30) * 435 + 2 * 820 * 435 + (40 * 30) ** 2
    expect(bench(owned, row(200, 40), 2).tooMany(everything, 2)).toBeNull()
    expect(counted(bench(owned, row(200, 40), 2), everything, 2)).toBe(one + two)
    const pairs = 30 ** 2 + 2 * 300 * 30 + 300 ** 2 + 435 ** 2 + 2 * 9000 * 435 + 2 * 45_150 * 435 + 9000 ** 2
    expect(bench(owned, row(200, 300), 2).tooMany(everything, 2)).toEqual({ pairs, stages: 1 })
  })

  it('are reckoned from the owned ones where no table would hold them', () => {
    const large = bench(shop(box(...row(20, 400)), { studs: 3 }), row(500, 100), 4)
    const refused = large.tooMany(everything)
    expect(refused?.stages).toBe(1)
    expect(refused?.pairs).toBeGreaterThan(1e18)
    // Nothing comes near, and none can be counted: too many.
    const nothing = makeQuestion({ leadscrew: { pitch: '1 mm' } }, { pitch: '0.001 mm', tolerance: { ppm: 0 } })
    expect(large.tooMany(nothing)?.pairs).toBeGreaterThan(BOUNDS.pairs)
  })

  it('never are, where a thread is as narrow as most', () => {
    const narrow = makeQuestion({ leadscrew: { pitch: '1 mm' } }, { pitch: '0.7 mm' })
    expect(bench(shop(box(...row(20, 60)), { studs: 1 }), row(20, 108), 2).tooMany(narrow)).toBeNull()
  })
})

it('what a gear opens does not depend on how many hits are held at once', () => {
  const asked = fc.record({
    owned: fc.uniqueArray(fc.integer({ min: 20, max: 60 }), { minLength: 2, maxLength: 7 }),
    made: fc.uniqueArray(fc.integer({ min: 20, max: 60 }), { minLength: 1, maxLength: 6 }),
    pitch: fc.constantFrom('0.5', '0.7', '1.25', '3/8', '7/9'),
    ppm: fc.constantFrom(500, 20_000, 200_000),
    hand: fc.constantFrom('right' as const, 'left' as const),
    clearance: fc.constantFrom(0, 14),
    keepStuck: fc.boolean(),
  })
  fc.assert(
    fc.property(asked, fc.integer({ min: 1, max: 40 }), (q, most) => {
      const workshop = shop(box(...q.owned), { studs: 2, shaftClearance: q.clearance })
      const workbench = bench(workshop, q.made, 3)
      const question = makeQuestion(workshop.lathe, { pitch: q.pitch, hand: q.hand, tolerance: { ppm: q.ppm } })
      const error = (hit: Hit | null) => hit && rational(BigInt(hit.drivers), BigInt(hit.driven))
      const key = ({ top, p, bottom, q }: Hit) => `${top.size} ${top.made} ${bottom.made} ${p} ${q}`
      const plain = openSingly(workbench, question, q.keepStuck)
      const held = openSingly(workbench, question, q.keepStuck, most)
      expect(held.best.map((hit) => hit?.size ?? null)).toEqual(plain.best.map((hit) => hit?.size ?? null))
      expect(held.best.map(error)).toEqual(plain.best.map(error))
      expect(held.idle.map(key)).toEqual(plain.idle.map(key))
      // Held for a shorter time, a gear may still show what it cannot do, for want of the better that it can.
      plain.stuck.forEach((hits, c) => {
        expect(held.stuck[c].map(key)).toEqual(expect.arrayContaining(hits.map(key)))
      })
    }),
    { numRuns: 150 },
  )
})
