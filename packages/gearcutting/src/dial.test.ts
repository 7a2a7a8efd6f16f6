import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import Fraction from 'fraction.js'
import { describe, expect, test } from 'vitest'
import { type Angle, dialIndexing } from './index.js'

const seconds = ({ degrees, minutes, seconds: s }: Angle): number => degrees * 3600 + minutes * 60 + s

test('by hand: 7 divisions on a 90:1 table that reads 10 seconds', () => {
  const plan = dialIndexing({ divisions: 7, table: { worm: 90, reading: 10 } })
  // 360 / 7 = 51 deg 25 min 42.857 s; less 12 turns of 4 degrees: 3 deg 25 min 42.857 s.
  expect(plan.perTurn).toEqual({ degrees: 4, minutes: 0, seconds: 0 })
  expect(plan.table[1]).toEqual({
    division: 1,
    rim: { degrees: 51, minutes: 25, seconds: 40 },
    turns: 12,
    dial: { degrees: 3, minutes: 25, seconds: 40 },
    error: '-20/7',
  })
  expect(plan).toMatchObject({ kind: 'rounded', worst: '30/7' })
})

test('a division into whole readings is exact, and a table turned by hand reads its rim', () => {
  const plan = dialIndexing({ divisions: 48, table: { worm: 1 } })
  expect(plan).toMatchObject({ kind: 'exact', worst: '0' })
  expect(plan.table[47]).toMatchObject({ turns: 0, dial: { degrees: 352, minutes: 30, seconds: 0 }, error: '0' })
})

test('the places are the wanted ones within half a reading, however many', () => {
  const worms = fc.constantFrom(1, 36, 40, 60, 72, 80, 90, 120, 180, 360)
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 130 }),
      worms,
      fc.constantFrom(1, 5, 10, 30, 60, 300),
      (divisions, worm, reading) => {
        const plan = dialIndexing({ divisions, table: { worm, reading } })
        const turn = 1_296_000 / worm
        expect(seconds(plan.perTurn)).toBe(turn)
        let worst = new Fraction(0)
        for (const [i, { division, rim, turns, dial, error }] of plan.table.entries()) {
          expect(division).toBe(i)
          expect(turns * turn + seconds(dial)).toBe(seconds(rim))
          expect(seconds(dial)).toBeLessThan(turn)
          expect(seconds(rim) % reading).toBe(0)
          expect(rim.minutes).toBeLessThan(60)
          expect(rim.seconds).toBeLessThan(60)
          const off = new Fraction(seconds(rim)).sub(new Fraction(1_296_000 * i, divisions))
          expect(off.toFraction()).toBe(error)
          expect(off.abs().mul(2).compare(reading)).toBeLessThanOrEqual(0)
          if (off.abs().compare(worst) > 0) worst = off.abs()
        }
        expect(plan.worst).toBe(worst.toFraction())
        expect(plan.kind).toBe(plan.worst === '0' ? 'exact' : 'rounded')
        expect(plan.table).toHaveLength(divisions)
      },
    ),
  )
})

describe('bad input', () => {
  test.each<[unknown, string[]]>([
    [undefined, ['divisions missing', 'table.worm missing']],
    [
      { divisions: 0, table: { worm: 1.5, reading: 0 } },
      ['divisions range', 'table.reading range', 'table.worm not-whole'],
    ],
    [{ divisions: 7, table: { worm: 77 } }, ['table.reading dial']],
    [{ divisions: 7, table: { worm: 90, reading: 7 } }, ['table.reading dial']],
  ])('%j', (q, expected) => {
    try {
      dialIndexing(q as never)
      expect.unreachable()
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      expect(error.problems.map(({ path, code }) => `${path} ${code}`)).toEqual(expected)
    }
  })
})
