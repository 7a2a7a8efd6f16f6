import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bendChain, type Point } from './chain.js'

const apart = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)
const links = fc.array(fc.double({ min: 5, max: 200, noNaN: true }), { minLength: 1, maxLength: 9 })
const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0)

describe('bendChain', () => {
  it('keeps every link, and spans what the chain can span', () => {
    fc.assert(
      fc.property(links, fc.double({ min: 0, max: 1, noNaN: true }), (chain, part) => {
        const least = Math.max(0, 2 * Math.max(...chain) - sum(chain))
        const span = least + (sum(chain) - least) * part
        const points = bendChain(chain, span)
        expect(points).toHaveLength(chain.length + 1)
        chain.forEach((link, i) => {
          expect(apart(points[i]!, points[i + 1]!)).toBeCloseTo(link, 7)
        })
        const [input, output] = [points[0]!, points.at(-1)!]
        expect(Math.hypot(output.x, output.y)).toBeLessThan(1e-7)
        expect(Math.abs(input.y)).toBeLessThan(1e-7)
        expect(Math.abs(input.x - span)).toBeLessThan(1e-4)
      }),
    )
  })

  it('puts all shafts on one circle, on the side of negative y', () => {
    const [a, b, c, d] = bendChain([50, 40, 60], 90) as [Point, Point, Point, Point]
    expect(b.y).toBeLessThan(0)
    expect(c.y).toBeLessThan(0)
    // Ptolemy: of a quadrilateral on a circle, the diagonals' product is the sum of the products of opposite sides.
    const diagonals = apart(a, c) * apart(b, d)
    expect(diagonals).toBeCloseTo(50 * 60 + 40 * 90, 4)
  })

  it.each([
    ['too long a span gives the straight chain', [30, 40], 100, 70],
    ['exactly straight', [30, 40], 70, 70],
    ['too short a span gives the chain folded back', [10, 100], 20, 90],
    ['one link is its own length', [55], 90, 55],
  ])('%s', (_, chain, span, expected) => {
    expect(bendChain(chain, span)[0]!.x).toBeCloseTo(expected, 6)
  })
})
