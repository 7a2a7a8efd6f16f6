import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { chooseCutter, cutter, type OwnedCutter } from './index.js'

describe('the published set of eight', () => {
  for (const row of rows('gear-cutters.csv')) {
    test(`No. ${row.number}: ${row.from} to ${row.to} (${row.source})`, () => {
      const from = Number(row.from)
      const to = row.to === 'rack' ? Number.POSITIVE_INFINITY : Number(row.to) - (row.note ? 1 : 0)
      const number = Number(row.number)
      for (const teeth of [from, to === Number.POSITIVE_INFINITY ? 300 : to, to]) {
        expect(cutter(teeth)).toEqual({ number, from, to })
        expect(cutter(teeth, 'module')).toEqual({ number: 9 - number, from, to })
      }
    })
  }

  test('every count from 12 has one cutter, whose range holds it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 2000 }),
        fc.constantFrom('dp' as const, 'module' as const),
        (teeth, set) => {
          const { from, to, number } = cutter(teeth, set)
          expect(teeth).toBeGreaterThanOrEqual(from)
          expect(teeth).toBeLessThanOrEqual(to)
          expect([1, 2, 3, 4, 5, 6, 7, 8]).toContain(number)
        },
      ),
    )
  })
})

const problems = (ask: () => unknown): { path: string; code: string; message: string }[] => {
  try {
    ask()
    return []
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    return [...error.problems]
  }
}
const codes = (ask: () => unknown): string[] => problems(ask).map(({ path, code }) => `${path} ${code}`)

test('bad input', () => {
  expect(codes(() => cutter(11))).toEqual(['teeth no-cutter'])
  expect(codes(() => cutter(40.5))).toEqual(['teeth not-whole'])
  expect(codes(() => cutter(Number.NaN, 'metric' as never))).toEqual(['teeth not-a-number', 'set unknown'])
  expect(problems(() => cutter(8))[0].message).toContain('outline')
})

describe('the owner’s drawer', () => {
  const owned: OwnedCutter[] = [
    { module: 1, from: 35, to: 54 },
    { module: 1, from: 26, to: 34 },
    { module: 1, from: 30, to: 45, pressureAngle: 14.5 },
    { dp: 20, from: 55, to: 134, pressureAngle: 14.5 },
    { module: 1, from: 30, to: 36 },
    { module: 1, from: 135 },
  ]
  test('the narrowest range of that size that holds the count', () => {
    expect(chooseCutter({ teeth: 40, module: 1, owned }).index).toBe(0)
    expect(chooseCutter({ teeth: 33, module: 1, owned }).index).toBe(4)
    expect(chooseCutter({ teeth: 35, module: 1, pressureAngle: 14.5, owned }).index).toBe(2)
    expect(chooseCutter({ teeth: 127, dp: 20, pressureAngle: 14.5, owned }).cutter).toBe(owned[3])
    expect(chooseCutter({ teeth: 200, module: 1, owned }).index).toBe(5)
  })
  test('a size is the same by module as by diametral pitch where 25.4 / dp is it exactly', () => {
    const index = (
      asked: { module?: number; dp?: number },
      one: { module?: number; dp?: number },
    ): number | undefined => {
      try {
        return chooseCutter({ teeth: 40, ...asked, owned: [{ ...one, from: 35, to: 54 }] }).index
      } catch (error) {
        expect((error as InputError).problems.map(({ code }) => code)).toEqual(['not-owned'])
        return undefined
      }
    }
    expect(index({ dp: 20 }, { module: 1.27 })).toBe(0)
    expect(index({ module: 1.27 }, { dp: 20 })).toBe(0)
    // Beside a module the diametral pitch rules, as a gear out of a box has both.
    expect(index({ dp: 24, module: 25.4 / 24 }, { dp: 24 })).toBe(0)
    // 25.4 / 24 has no end, so that no decimal is it.
    expect(index({ dp: 24 }, { module: 25.4 / 24 })).toBeUndefined()
    const exact = fc.constantFrom(2, 4, 5, 8, 10, 12.5, 16, 20, 25.4, 32, 40, 50.8, 63.5, 64, 100, 127)
    fc.assert(
      fc.property(exact, fc.integer({ min: -2, max: 2 }), (dp, off) => {
        // By decimals, in steps of a hundred-thousandth of a module.
        const module = Number((25.4 / dp + off / 1e5).toFixed(6))
        expect(index({ dp }, { module })).toBe(off === 0 ? 0 : undefined)
        expect(index({ module }, { dp })).toBe(off === 0 ? 0 : undefined)
      }),
    )
  })
  test('a size that is not owned: what is, and what to get', () => {
    const [problem] = problems(() => chooseCutter({ teeth: 40, module: 1.25, owned }))
    expect(problem).toMatchObject({ path: 'owned', code: 'not-owned' })
    expect(problem.message).toContain('module 1 at 20°, module 1 at 14.5°, 20 dp at 14.5°')
    expect(problem.message).toContain('the module 1.25 cutter stamped 35 to 54 (commonly No. 6)')
    expect(problems(() => chooseCutter({ teeth: 40, dp: 24, owned: [] }))[0].message).toMatch(/none.*24 dp.*No\. 3/s)
  })
  test('a count that the owned cutters of the size do not cut', () => {
    const [problem] = problems(() => chooseCutter({ teeth: 20, module: 1, owned }))
    expect(problem).toMatchObject({ path: 'owned', code: 'wrong-range' })
    expect(problem.message).toContain('26 to 34, 30 to 36, 135 to rack, not 20 teeth')
  })
  test('bad input', () => {
    expect(
      codes(() =>
        chooseCutter({ teeth: 40, owned: [{ from: 35, to: 54 }, { module: 1, from: 54, to: 35 }, null as never] }),
      ),
    ).toEqual([
      'module no-size',
      'owned[0].module no-size',
      'owned[1].to upside-down',
      'owned[2].module no-size',
      'owned[2].from missing',
    ])
    const odd = [
      { module: Number.NaN, from: 17, to: 20, pressureAngle: 'x' },
      { module: '1', from: 17, to: 20 },
      { dp: 0, from: 17 },
      { module: 1, dp: 20, from: 17 },
    ]
    expect(codes(() => chooseCutter({ teeth: 20, module: 1, owned: odd as never }))).toEqual([
      'owned[0].module not-a-number',
      'owned[0].pressureAngle not-a-number',
      'owned[1].module not-a-number',
      'owned[2].dp range',
      'owned[3].module two-sizes',
    ])
    expect(codes(() => chooseCutter({ teeth: 9, module: 0, owned: [{ module: 1, from: 2 }] }))).toEqual([
      'teeth no-cutter',
      'module range',
      'owned[0].from range',
    ])
    expect(codes(() => chooseCutter({ teeth: 9, module: 1, owned }))).toEqual(['teeth no-cutter'])
    expect(codes(() => chooseCutter(undefined as never))).toEqual(['teeth missing', 'module no-size', 'owned missing'])
  })
})
