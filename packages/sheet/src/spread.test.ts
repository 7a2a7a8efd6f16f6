import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { spread } from './spread.js'

const label = fc.record({ wish: fc.integer({ min: -100, max: 100 }), size: fc.integer({ min: 1, max: 30 }) })

describe('spread', () => {
  it('never overlaps and keeps the order of the wishes', () => {
    fc.assert(
      fc.property(fc.array(label, { minLength: 1, maxLength: 12 }), (labels) => {
        const centres = spread(
          labels.map((l) => l.wish),
          labels.map((l) => l.size),
          2,
        )
        const placed = labels
          .map((l, i) => ({ ...l, i, centre: centres[i]! }))
          .sort((a, b) => a.wish - b.wish || a.i - b.i)
        for (let i = 1; i < placed.length; i++) {
          const [a, b] = [placed[i - 1]!, placed[i]!]
          expect(b.centre - a.centre).toBeGreaterThanOrEqual(a.size / 2 + b.size / 2 + 2 - 1e-9)
        }
      }),
    )
  })

  it('leaves labels alone that do not touch', () => {
    expect(spread([0, 20, 40], [10, 10, 10], 2)).toEqual([0, 20, 40])
  })

  it('shares the move between labels that do', () => {
    expect(spread([0, 0], [10, 10], 2)).toEqual([-6, 6])
  })
})
