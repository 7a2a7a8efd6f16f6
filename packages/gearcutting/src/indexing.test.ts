import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import Fraction from 'fraction.js'
import { describe, expect, test } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { type Head, type IndexingPlan, type IndexMove, indexable, indexing } from './index.js'

/** The three plates that go with Brown & Sharpe heads (Machinery's Handbook). */
const threePlates = [
  [15, 16, 17, 18, 19, 20],
  [21, 23, 27, 29, 31, 33],
  [37, 39, 41, 43, 47, 49],
]

const amount = ({ turns, holes, circle }: IndexMove): Fraction => new Fraction(turns).add(new Fraction(holes, circle))
const sum = (moves: IndexMove[]): Fraction => moves.reduce((total, move) => total.add(amount(move)), new Fraction(0))

describe('published moves', () => {
  for (const row of rows('indexing-moves.csv')) {
    const circles = row.circles.split(' ').map(Number)
    const head = { worm: Number(row.worm), plates: [circles] }
    const divisions = Number(row.divisions)
    const published = { turns: Number(row.turns), holes: Number(row.spaces), circle: Number(row.circle) }
    test(`${divisions} on ${head.worm}:1 by ${row.circles}: ${row.turns} + ${row.spaces}/${row.circle} (${row.source})`, () => {
      const plan = indexing({ divisions, head, plateTurns: 'never' })
      if (row.note === 'none') return expect(plan.kind).toBe('approximate')
      expect(plan.kind).toBe(row.note || 'plain')
      expect([...plan.moves, ...plan.others]).toContainEqual(published)
    })
  }

  test('three plates divide every number to 50 and every even one to 100, but 96', () => {
    // Brown & Sharpe, Practical Treatise on Milling and Milling Machines, on the plates furnished with index centres (read).
    const evens = Array.from({ length: 50 }, (_, i) => 2 * i + 2).filter((n) => n !== 96)
    const counts = indexable({ worm: 40, plates: threePlates }, [1, 100])
    expect(counts.filter((n) => n <= 50)).toEqual(Array.from({ length: 50 }, (_, i) => i + 1))
    expect(counts.filter((n) => n % 2 === 0)).toEqual(evens)
  })

  // The compound moves for these counts on the same plates, from memory of the trade's tables; their sums are exact.
  test.each([
    [69, [21, 23], [-11, 33]],
    [77, [9, 21], [3, 33]],
    [87, [23, 29], [-11, 33]],
    [91, [6, 39], [14, 49]],
    [93, [3, 31], [11, 33]],
    [99, [15, 27], [-5, 33]],
  ])('%i divisions: the same circles, the same sum, no more travel', (divisions, first, second) => {
    const plan = indexing({ divisions, head: { worm: 40, plates: threePlates } })
    const [a, b] = [new Fraction(first[0], first[1]), new Fraction(second[0], second[1])]
    expect(a.add(b).equals(new Fraction(40, divisions))).toBe(true)
    expect(plan.kind).toBe('compound')
    expect(plan.moves.map(({ circle }) => circle).sort()).toEqual([first[1], second[1]].sort())
    const travel = plan.moves.reduce((total, move) => total.add(amount(move).abs()), new Fraction(0))
    expect(travel.compare(a.abs().add(b.abs()))).toBeLessThanOrEqual(0)
  })
})

const plate = fc.uniqueArray(fc.integer({ min: 2, max: 70 }), { minLength: 1, maxLength: 6 })
const heads: fc.Arbitrary<Head> = fc.record({
  worm: fc.constantFrom(1, 4, 36, 40, 60, 72, 90, 120),
  plates: fc.array(plate, { minLength: 1, maxLength: 3 }),
})
const questions = fc.record({
  divisions: fc.integer({ min: 1, max: 140 }),
  head: heads,
  plateTurns: fc.constantFrom(undefined, 'never' as const, 'exact' as const, 'closer' as const),
})

/** The plan, or null when the head has too few places. */
function planned(q: {
  divisions: number
  head: Head
  plateTurns: 'never' | 'exact' | 'closer' | undefined
}): IndexingPlan | null {
  const { plateTurns, ...rest } = q
  try {
    return indexing(plateTurns ? { ...rest, plateTurns } : rest)
  } catch (error) {
    expect((error as InputError).problems.map(({ code }) => code)).toEqual(['cannot-divide'])
    expect(q.divisions).toBeGreaterThan(Math.max(...q.head.plates.flat()) * q.head.worm)
    return null
  }
}

describe('laws', () => {
  test('the error is the moves less the wanted turn, exactly; without error the moves times N turn the work once', () => {
    fc.assert(
      fc.property(questions, (q) => {
        const plan = planned(q)
        if (!plan) return
        const wanted = new Fraction(q.head.worm, q.divisions)
        expect(sum(plan.moves).sub(wanted).toFraction()).toBe(plan.error)
        for (const other of plan.others) expect(amount(other).equals(wanted)).toBe(true)
        if (plan.kind === 'approximate') expect(plan.worst).not.toBe('0')
        else {
          expect(plan.error).toBe('0')
          expect(sum(plan.moves).mul(q.divisions).equals(q.head.worm)).toBe(true)
        }
      }),
      { numRuns: 400 },
    )
  })

  test('each place of the table is counted from zero, is where it says, and no two are the same', () => {
    fc.assert(
      fc.property(questions, (q) => {
        const plan = planned(q)
        if (!plan) return
        expect(plan.table.map(({ division }) => division)).toEqual(plan.table.map((_, i) => i))
        expect(plan.table).toHaveLength(q.divisions)
        let worst = new Fraction(0)
        const places = plan.table.map(({ division, at, error }) => {
          const place = sum(at)
          const off = place.sub(new Fraction(division * q.head.worm, q.divisions))
          expect(off.toFraction()).toBe(error)
          if (off.abs().compare(worst) > 0) worst = off.abs()
          return place.mod(q.head.worm).toFraction()
        })
        expect(worst.toFraction()).toBe(plan.worst)
        expect(plan.worstDegrees).toBeCloseTo((worst.valueOf() * 360) / q.head.worm, 8)
        expect(new Set(places).size).toBe(q.divisions)
        // Within half a hole of the largest circle, whichever was taken.
        expect(worst.compare(new Fraction(1, 2 * Math.max(...q.head.plates.flat())))).toBeLessThanOrEqual(0)
      }),
      { numRuns: 400 },
    )
  })

  test('moves keep to circles of one plate, and their turns and holes to one sign', () => {
    fc.assert(
      fc.property(questions, (q) => {
        const plan = planned(q)
        if (!plan) return
        for (const { at } of [{ at: plan.moves }, ...plan.table])
          for (const { turns, holes, circle } of at) {
            expect(q.head.plates[plan.plate]).toContain(circle)
            expect(Math.abs(holes)).toBeLessThan(circle)
            expect(turns * holes).toBeGreaterThanOrEqual(0)
            expect([turns, holes].some((n) => Object.is(n, -0))).toBe(false)
          }
        if (q.plateTurns === 'never') expect(plan.moves).toHaveLength(1)
      }),
    )
  })

  test('plain where any circle divides, compound where only two of a plate do: by trying every hole', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 90 }),
        fc.array(fc.uniqueArray(fc.integer({ min: 2, max: 24 }), { minLength: 1, maxLength: 3 }), {
          minLength: 1,
          maxLength: 2,
        }),
        (divisions, plates) => {
          const head = { worm: 40, plates }
          const wanted = new Fraction(40, divisions)
          const plain = plates.flat().some((c) => wanted.mul(c).d === 1n)
          const compound = plates.some((circles) =>
            circles.some((a) =>
              circles.some((b) =>
                Array.from({ length: b }, (_, i) => i).some((h) => wanted.sub(new Fraction(h, b)).mul(a).d === 1n),
              ),
            ),
          )
          const plan = planned({ divisions, head, plateTurns: 'exact' })
          if (plan) expect(plan.kind).toBe(plain ? 'plain' : compound ? 'compound' : 'approximate')
          else expect(plain || compound).toBe(false)
          expect(indexable(head, [divisions, divisions])).toEqual(plain ? [divisions] : [])
        },
      ),
      { numRuns: 300 },
    )
  })

  test('turning the plate where it only comes closer is never further off', () => {
    fc.assert(
      fc.property(questions, (q) => {
        const [one, two] = [planned({ ...q, plateTurns: 'never' }), planned({ ...q, plateTurns: 'closer' })]
        if (one && two) expect(two.worstDegrees).toBeLessThanOrEqual(one.worstDegrees)
      }),
    )
  })
})

test('a change gear on the mandrel is its own division plate', () => {
  const plan = indexing({ divisions: 20, head: { worm: 1, plates: [[60]] } })
  expect(plan.moves).toEqual([{ turns: 0, holes: 3, circle: 60 }])
  expect(plan.table[19]).toEqual({ division: 19, at: [{ turns: 0, holes: 57, circle: 60 }], error: '0' })
  expect(indexable({ worm: 1, plates: [[60]] }, [2, 60])).toEqual([2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60])
})

test('what cannot be divided is told with its error, and what to mind', () => {
  const plan = indexing({ divisions: 127, head: { worm: 40, plates: threePlates } })
  expect(plan).toMatchObject({ kind: 'approximate', plate: 2, error: '-55/6223', worst: '9/889' })
  expect(plan.moves).toEqual([{ turns: 0, holes: 15, circle: 49 }])
  expect(plan.reminders.map(({ code }) => code)).toEqual(['one-way', 'from-zero', 'approximate'])
  expect(plan.reminders[2].message).toContain('0.0911°')
})

describe('what is chosen', () => {
  const head: Head = {
    worm: 40,
    plates: [
      [15, 20],
      [16, 18, 20],
    ],
  }

  test('of circles that serve, the one with most holes; the others from large to small, each once', () => {
    // 40 / 8 is 5 whole turns, in any circle.
    const plan = indexing({ divisions: 8, head })
    expect([plan.kind, plan.plate, plan.moves]).toEqual(['plain', 0, [{ turns: 5, holes: 0, circle: 20 }]])
    expect(plan.others.map(({ turns, circle }) => [turns, circle])).toEqual([
      [5, 18],
      [5, 16],
      [5, 15],
    ])
    expect(plan.reminders.map(({ code }) => code)).toEqual(['one-way', 'from-zero'])
  })

  test('two circles only where the plate may turn', () => {
    // 40 / 69 by 21 to 33: compound, as in the docs of the function.
    const plates = [[21, 23, 27, 29, 31, 33]]
    const kind = (plateTurns?: 'never' | 'exact' | 'closer', divisions = 69) =>
      indexing({ divisions, head: { worm: 40, plates }, ...(plateTurns && { plateTurns }) }).kind
    expect([kind('never'), kind('exact'), kind('closer'), kind()]).toEqual([
      'approximate',
      'compound',
      'compound',
      'compound',
    ])
    const near = (plateTurns: 'exact' | 'closer') =>
      indexing({ divisions: 127, head: { worm: 40, plates }, plateTurns })
    expect([near('exact').moves.length, near('closer').moves.length]).toEqual([1, 2])
    expect(near('closer').worstDegrees).toBeLessThan(near('exact').worstDegrees)
  })

  test('more places than the head has are refused, and the most is told', () => {
    const ask = (divisions: number) =>
      indexing({ divisions, head: { worm: 4, plates: [[15, 20]] }, plateTurns: 'never' })
    expect(() => ask(81)).toThrow(/80/)
    expect(ask(80).kind).toBe('plain')
    expect(ask(79).kind).toBe('approximate')
  })
})

describe('bad input', () => {
  const problems = (ask: () => unknown): string[] => {
    try {
      ask()
      return []
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      for (const { message } of error.problems) expect(message).toMatch(/\.$/)
      return error.problems.map(({ path, code }) => `${path} ${code}`)
    }
  }
  test.each<[unknown, string[]]>([
    [undefined, ['divisions missing', 'head.worm missing', 'head.plates no-plates']],
    [{ divisions: 0, head: { worm: 0, plates: [] } }, ['divisions range', 'head.worm range', 'head.plates no-plates']],
    [{ divisions: 6, head: { worm: 40, plates: [[18], []] } }, ['head.plates[1] no-circles']],
    [
      { divisions: 6.5, head: { worm: 40.5, plates: [[18, 1], ['a']] } },
      ['divisions not-whole', 'head.worm not-whole', 'head.plates[0][1] range', 'head.plates[1][0] not-a-number'],
    ],
    [{ divisions: 60, head: { worm: 1, plates: [[40]] } }, ['divisions cannot-divide']],
    [{ divisions: 6, head: { worm: 40, plates: [[18]] }, plateTurns: 'maybe' }, ['plateTurns unknown']],
    [{ divisions: 6, head: { worm: 40, plates: Array(51).fill([18]) } }, ['head.plates too-many']],
    [{ divisions: 6, head: { worm: 40, plates: [Array(51).fill(18)] } }, ['head.plates[0] too-many']],
    [{ divisions: 6, head: { worm: 1, plates: [40] } }, ['head.plates[0] no-circles']],
  ])('%j', (q, expected) => expect(problems(() => indexing(q as never))).toEqual(expected))

  test('ranges and heads of indexable', () => {
    expect(problems(() => indexable({ worm: 40, plates: threePlates }, [127, 20]))).toEqual(['range upside-down'])
    expect(problems(() => indexable({ worm: 40, plates: [] }, [0, 20.5]))).toEqual([
      'head.plates no-plates',
      'range[0] range',
      'range[1] not-whole',
    ])
    expect(problems(() => indexable(null as never, null as never))).toHaveLength(4)
  })
})
