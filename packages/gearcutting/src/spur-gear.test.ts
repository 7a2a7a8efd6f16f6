import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { type SpurGear, spurGear, undercutLimit } from './index.js'

const given = (text: string): number | undefined => (text === '' ? undefined : Number(text))

const read: Record<string, (gear: SpurGear) => number> = {
  'tooth thickness': (gear) => gear.toothThickness,
  'chordal thickness': (gear) => gear.chordal.thickness,
  'chordal height': (gear) => gear.chordal.height,
  'base tangent': (gear) => gear.baseTangent.length,
  'tip diameter': (gear) => gear.tipDiameter,
  'pitch diameter': (gear) => gear.pitchDiameter,
  'root diameter': (gear) => gear.rootDiameter,
  'whole depth': (gear) => gear.wholeDepth,
}

describe('published dimensions', () => {
  for (const row of rows('gear-dimensions.csv')) {
    const pressureAngle = Number(row['pressure angle'])
    const title = `${row.quantity} of ${row.teeth || 'any'} teeth: ${row.expected} (${row.source}; ${row.seen})`
    if (row.quantity === 'undercut from') {
      test(title, () => {
        const limit = Number(row.expected)
        expect(undercutLimit({ pressureAngle })).toBe(limit)
        for (const shift of [undefined, 0]) {
          const asked = { module: 1, pressureAngle, ...(shift === undefined ? {} : { shift }) }
          expect(spurGear({ teeth: limit, ...asked }).undercut).toBe(false)
          expect(spurGear({ teeth: limit - 1, ...asked }).undercut).toBe(true)
        }
      })
      continue
    }
    test(title, () => {
      const gear = spurGear({
        teeth: Number(row.teeth),
        ...(row.dp ? { dp: Number(row.dp) } : { module: Number(row.module) }),
        pressureAngle,
        shift: Number(row.shift),
      })
      const unit = row.quantity.slice(-2)
      const found = read[row.quantity.slice(0, -3)](gear) / (unit === 'in' ? 25.4 : 1)
      const step = 10 ** -row.expected.split('.')[1].length
      // Half a unit of the last digit printed, or a whole one where the table cut it off or misprints it.
      expect(Math.abs(found - Number(row.expected))).toBeLessThanOrEqual((row.note ? 1 : 0.5) * step)
      const over = given(row.over)
      if (over) expect(gear.baseTangent.teeth).toBe(over)
    })
  }
})

/** Gears that can be made: pointed ones are left out. */
const gears = fc
  .record({
    teeth: fc.integer({ min: 6, max: 200 }),
    module: fc.integer({ min: 1, max: 400 }).map((n) => n / 20),
    pressureAngle: fc.constantFrom(14.5, 17.5, 20, 22.5, 25),
    shift: fc.integer({ min: -20, max: 60 }).map((n) => n / 100),
  })
  .filter((q) => {
    try {
      spurGear(q)
      return true
    } catch {
      return false
    }
  })

describe('laws', () => {
  test('the base tangent over one tooth more is longer by a base pitch', () => {
    fc.assert(
      fc.property(gears, fc.constantFrom(-1, 1), (q, more) => {
        const { baseTangent } = spurGear(q)
        let other: SpurGear
        try {
          other = spurGear({ ...q, span: baseTangent.teeth + more })
        } catch (error) {
          expect((error as InputError).problems.map(({ code }) => code)).toEqual([
            baseTangent.teeth + more < 1 ? 'range' : 'span',
          ])
          return
        }
        const pitch = Math.PI * q.module * Math.cos((q.pressureAngle * Math.PI) / 180)
        expect(more * (other.baseTangent.length - baseTangent.length)).toBeCloseTo(pitch, 7)
      }),
    )
  })

  test('the jaws touch flank below the tip and outside the base circle, on both sides of the middle', () => {
    fc.assert(
      fc.property(gears, (q) => {
        const { baseTangent, baseDiameter, tipDiameter } = spurGear(q)
        const touched = Math.hypot(baseDiameter, baseTangent.length)
        expect(touched).toBeLessThan(tipDiameter)
        expect(touched).toBeGreaterThan(baseDiameter)
      }),
    )
  })

  test('lengths scale with the module', () => {
    fc.assert(
      fc.property(gears, fc.constantFrom(0.5, 2, 3), (q, times) => {
        const [a, b] = [spurGear(q), spurGear({ ...q, module: q.module * times })]
        for (const of of Object.values(read)) expect(of(b)).toBeCloseTo(of(a) * times, 6)
        expect(b.undercut).toBe(a.undercut)
        expect(b.baseTangent.teeth).toBe(a.baseTangent.teeth)
      }),
    )
  })

  test('a gear by diametral pitch is the gear by module 25.4 / dp, but for the depth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 12, max: 150 }), fc.integer({ min: 4, max: 96 }), (teeth, dp) => {
        const byPitch = spurGear({ teeth, dp, depth: 2.25 })
        expect(byPitch).toEqual(spurGear({ teeth, module: 25.4 / dp }))
        expect(spurGear({ teeth, dp }).wholeDepth).toBeCloseTo((2.157 * 25.4) / dp, 8)
        expect(spurGear({ teeth, module: 25.4 / dp, dp })).toEqual(spurGear({ teeth, dp }))
      }),
    )
  })

  test('thinning a tooth takes it off the thickness, and its cosine off the base tangent', () => {
    const q = { teeth: 33, module: 1.5 }
    const [full, thin] = [spurGear(q), spurGear({ ...q, thinning: 0.08 })]
    expect(full.toothThickness - thin.toothThickness).toBeCloseTo(0.08, 8)
    expect(full.baseTangent.length - thin.baseTangent.length).toBeCloseTo(0.08 * Math.cos(Math.PI / 9), 8)
    expect(thin.tipDiameter).toBe(full.tipDiameter)
  })

  test('shift moves the undercut limit; enough of it removes undercut', () => {
    expect(undercutLimit({ shift: 0.5 })).toBe(9)
    expect(spurGear({ teeth: 9, module: 1, shift: 0.5 }).undercut).toBe(false)
    expect(spurGear({ teeth: 17, module: 1, shift: -0.1 }).undercut).toBe(true)
  })
})

const problems = (q: unknown): string[] => {
  try {
    spurGear(q as Parameters<typeof spurGear>[0])
    return []
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    for (const { message } of error.problems) expect(message).toMatch(/\.$/)
    return error.problems.map(({ path, code }) => `${path} ${code}`)
  }
}

test('what was given is shown: short text whole, long text cut, an object by its type alone', () => {
  const shown = (teeth: unknown): string => {
    try {
      spurGear({ teeth: teeth as number, module: 1 })
    } catch (error) {
      return /“.*”/s.exec((error as InputError).problems[0].message)![0]
    }
    throw new Error('it was taken')
  }
  expect([true, 2.5, {}, 'a'.repeat(40), 'a'.repeat(41)].map(shown)).toEqual([
    '“true”',
    '“2.5”',
    '“object”',
    `“${'a'.repeat(40)}”`,
    `“${'a'.repeat(40)}…”`,
  ])
})

describe('bad input', () => {
  test('every problem at once', () => {
    expect(problems({ teeth: 5, module: -1, pressureAngle: 60, shift: Number.NaN, depth: 4 })).toEqual([
      'teeth range',
      'module range',
      'pressureAngle range',
      'shift not-a-number',
      'depth range',
    ])
  })
  test.each<[unknown, string[]]>([
    [undefined, ['teeth missing', 'module no-size']],
    [null, ['teeth missing', 'module no-size']],
    [{ teeth: 20.5, module: 1 }, ['teeth not-whole']],
    [{ teeth: '20', module: 1 }, ['teeth not-a-number']],
    [{ teeth: 20, module: 1, dp: 20 }, ['module two-sizes']],
    [{ teeth: 20, module: '1', dp: 25.4 }, ['module not-a-number']],
    [{ teeth: 20, dp: 0 }, ['dp range']],
    [{ teeth: 20, module: 1, thinning: 0.6 }, ['thinning range']],
    [{ teeth: 6, module: 1, shift: 0.9 }, ['shift pointed']],
    [{ teeth: 40, module: 1, pressureAngle: 30, depth: 2.5 }, ['depth depth']],
    [{ teeth: 40, module: 1, span: 12 }, ['span span']],
    [{ teeth: 40, module: 1, span: 0 }, ['span range']],
    [
      { teeth: 5.5, module: Number.NaN, thinning: -1, span: 0 },
      ['teeth not-whole', 'module not-a-number', 'thinning range', 'span range'],
    ],
    // What rests on a refused value is not judged: this thinning by the module, this span by the flanks.
    [{ teeth: 40, module: 0, thinning: 2, span: 12 }, ['module range']],
    [{ teeth: 40, module: 1, depth: 3, span: 12 }, ['depth range']],
    [{ teeth: 40, module: 0, span: 41 }, ['module range', 'span range']],
  ])('%j', (q, expected) => expect(problems(q)).toEqual(expected))

  test('a span that cannot be measured says which can', () => {
    expect(() => spurGear({ teeth: 40, module: 1, span: 12 })).toThrow('measure over 3 to 6')
  })

  test('whatever comes in, finite numbers or one InputError come out', () => {
    const odd = fc.oneof(
      fc.double(),
      fc.integer({ min: -5, max: 300 }),
      fc.constantFrom(undefined, null, '', '20', [], {}, true, Number.POSITIVE_INFINITY),
    )
    const question = fc.record(
      { teeth: odd, module: odd, dp: odd, pressureAngle: odd, shift: odd, depth: odd, thinning: odd, span: odd },
      { requiredKeys: [] },
    )
    fc.assert(
      fc.property(fc.oneof(question, odd), (q) => {
        if (problems(q).length) return
        const { baseTangent, chordal, undercut, ...lengths } = spurGear(q as Parameters<typeof spurGear>[0])
        const figures = [...Object.values(lengths), ...Object.values(baseTangent), ...Object.values(chordal)]
        expect(figures.every(Number.isFinite)).toBe(true)
        expect(typeof undercut).toBe('boolean')
      }),
    )
  })
})
