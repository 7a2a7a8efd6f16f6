import Fraction from 'fraction.js'
import { describe, expect, test } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { twoCircles } from './compound.js'

/** Machinery's Handbook, 27th edition, p. 1995: crank fractions by two movements in the circles of one plate (read). */
const plates: Record<string, number[][]> = {
  'B&S': [
    [15, 16, 17, 18, 19, 20],
    [21, 23, 27, 29, 31, 33],
    [37, 39, 41, 43, 47, 49],
  ],
  // Both sides of one plate: US Army Ordnance course OD1644-8 (read). A movement stays on one side.
  Cincinnati: [
    [24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43],
    [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66],
  ],
}

describe('two movements', () => {
  for (const row of rows('indexing-two-movements.csv').filter((one) => one['circle 2'])) {
    const wanted = new Fraction(row['crank turns'])
    const [c1, c2] = [Number(row['circle 1']), Number(row['circle 2'])]
    const published = new Fraction(Number(row['spaces 1']), c1).add(new Fraction(Number(row['spaces 2']), c2))
    test(`${row['crank turns']} by ${row.plates}: at least as near as ${published.toFraction()}`, () => {
      // The table gives four decimals.
      expect(published.sub(wanted).abs().valueOf()).toBeLessThan(5e-5)
      expect(plates[row.plates].some((circles) => circles.includes(c1) && circles.includes(c2))).toBe(true)
      const found = twoCircles(Number(wanted.n), Number(wanted.d), plates[row.plates], false)!
      const [a, b] = [0, 1].map((i) => new Fraction(found.spaces[i], found.circles[i]))
      expect(a.add(b).sub(wanted).equals(new Fraction(found.error, found.scale))).toBe(true)
      expect(a.add(b).sub(wanted).abs().compare(published.sub(wanted).abs())).toBeLessThanOrEqual(0)
    })
  }
})

test('nothing when no plate has two circles that reach further than one', () => {
  expect(twoCircles(40, 127, [[20], [18, 36]], false)).toBeNull()
  expect(twoCircles(40, 127, plates['B&S'], true)).toBeNull()
})
