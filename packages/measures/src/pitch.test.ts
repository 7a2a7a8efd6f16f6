import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exactMillimetres, INCH, PI, type PitchUnit, parsePitch, printPitch } from './pitch.js'
import { divide, multiply, rational, toDecimal, toFractionText } from './rational.js'

describe('texts that are taken', () => {
  // Worked by hand: an inch is 25.4 mm exactly (international yard and pound agreement, 1959).
  test.each<[text: string, unit: PitchUnit, value: string, mm: string]>([
    ['0.45 mm', 'mm', '9/20', '9/20'],
    ['.45', 'mm', '9/20', '9/20'],
    ['5.', 'mm', '5', '5'],
    ['+1.25', 'mm', '5/4', '5/4'],
    ['1.250', 'mm', '5/4', '5/4'],
    ['254/195', 'mm', '254/195', '254/195'],
    ['25.4/26', 'mm', '127/130', '127/130'],
    ['25,4 / 26 mm', 'mm', '127/130', '127/130'],
    ['25.4/2.6', 'mm', '127/13', '127/13'],
    ['1250,125 tpi', 'tpi', '10001/8', '1016/50005'],
    ['4  1/2  tpi', 'tpi', '9/2', '254/45'],
    ['1 1/4mm', 'mm', '5/4', '5/4'],
    ['2 millimetres', 'mm', '2', '2'],
    ['0.7㎜', 'mm', '7/10', '7/10'],
    ['42 tpi', 'tpi', '42', '127/210'],
    ['26TPI', 'tpi', '26', '127/130'],
    ['26 t.p.i.', 'tpi', '26', '127/130'],
    ['tpi 26', 'tpi', '26', '127/130'],
    ['26 threads per inch', 'tpi', '26', '127/130'],
    ['4 1/2 tpi', 'tpi', '9/2', '254/45'],
    ['4-1/2 tpi', 'tpi', '9/2', '254/45'],
    ['4½ tpi', 'tpi', '9/2', '254/45'],
    ['11.5 tpi', 'tpi', '23/2', '254/115'],
    ['1/8 in', 'in', '1/8', '127/40'],
    ['1/8 in.', 'in', '1/8', '127/40'],
    ['0.125 inch', 'in', '1/8', '127/40'],
    ['3/8"', 'in', '3/8', '381/40'],
    ['3/8″', 'in', '3/8', '381/40'],
    ['3/8”', 'in', '3/8', '381/40'],
    ["3/8''", 'in', '3/8', '381/40'],
    ['3/8’’', 'in', '3/8', '381/40'],
    ['3/8′′', 'in', '3/8', '381/40'],
    ['⅜″', 'in', '3/8', '381/40'],
    ['3⁄8 in', 'in', '3/8', '381/40'],
    ['3∕8 in', 'in', '3/8', '381/40'],
    ['⅟8 in', 'in', '1/8', '127/40'],
    ['１．２５ ｍｍ', 'mm', '5/4', '5/4'],
    ['\u00a0 1.5\u2009mm\n', 'mm', '3/2', '3/2'],
  ])('%j', (text, unit, value, mm) => {
    const pitch = parsePitch(text)
    expect(pitch).toMatchObject({ text, unit, approximate: false })
    expect([toFractionText(pitch.value), toFractionText(pitch.mm)]).toEqual([value, mm])
  })

  test.each<[text: string, unit: PitchUnit, value: string, inchesOfPi: [number, number]]>([
    ['0.5 module', 'module', '1/2', [5, 254]],
    ['module 0,5', 'module', '1/2', [5, 254]],
    ['1.25 mod', 'module', '5/4', [25, 508]],
    ['2 modules', 'module', '2', [10, 127]],
    ['32 dp', 'dp', '32', [1, 32]],
    ['DP 32', 'dp', '32', [1, 32]],
    ['32 D.P.', 'dp', '32', [1, 32]],
    ['32 diametral pitch', 'dp', '32', [1, 32]],
  ])('%j, with pi', (text, unit, value, [n, d]) => {
    const pitch = parsePitch(text)
    expect(pitch).toMatchObject({ text, unit, approximate: true })
    expect(toFractionText(pitch.value)).toBe(value)
    expect(divide(pitch.mm, multiply(PI, INCH))).toEqual(rational(n, d))
  })

  test.each<[number, string]>([
    [1.25, '5/4'],
    [0.1, '1/10'],
    [1e-3, '1/1000'],
    [1000, '1000'],
  ])('the number %d is the decimal that it prints, in millimetres', (given, mm) => {
    expect(parsePitch(given)).toMatchObject({ text: String(given), unit: 'mm' })
    expect(toFractionText(parsePitch(given).mm)).toBe(mm)
  })
})

describe('laws', () => {
  const digits = fc.integer({ min: 1, max: 999_999 })
  const spelling: Record<PitchUnit, string[]> = {
    mm: ['', ' mm', 'MM', ' millimetres'],
    in: ['"', ' in', ' inch', '″'],
    tpi: [' tpi', 'TPI', ' t.p.i.'],
    module: [' module', ' mod'],
    dp: [' dp', 'DP'],
  }
  const units = Object.keys(spelling) as PitchUnit[]
  const written = fc
    .constantFrom(...units)
    .chain((unit) => fc.record({ unit: fc.constant(unit), suffix: fc.constantFrom(...spelling[unit]) }))

  test('a decimal is read exactly, with a point or a comma', () => {
    fc.assert(
      fc.property(written, digits, fc.integer({ min: 1, max: 4 }), fc.constantFrom('.', ','), (as, n, places, mark) => {
        const all = String(n).padStart(places + 1, '0')
        const text = `${all.slice(0, -places)}${mark}${all.slice(-places)}${as.suffix}`
        fc.pre(!/^[1-9]\d{0,2},\d{3}$/.test(text.slice(0, text.length - as.suffix.length)))
        const value = rational(n, 10 ** places)
        const factor = { mm: rational(1), in: INCH, tpi: INCH, module: PI, dp: multiply(PI, INCH) }[as.unit]
        const mm = as.unit === 'tpi' || as.unit === 'dp' ? divide(factor, value) : multiply(factor, value)
        fc.pre(Number(mm.n) / Number(mm.d) >= 0.001 && Number(mm.n) / Number(mm.d) <= 1000)
        expect(parsePitch(text)).toEqual({
          text,
          unit: as.unit,
          value,
          mm,
          approximate: as.unit === 'module' || as.unit === 'dp',
        })
      }),
    )
  })

  test('a fraction is read as its quotient, a mixed number as a sum', () => {
    fc.assert(
      fc.property(fc.nat(99), fc.integer({ min: 1, max: 99 }), fc.integer({ min: 2, max: 99 }), (whole, n, d) => {
        expect(parsePitch(`${n}/${d} mm`).mm).toEqual(rational(n, d))
        fc.pre(n < d)
        expect(parsePitch(`${whole} ${n}/${d} mm`).mm).toEqual(rational(whole * d + n, d))
      }),
    )
  })

  test('what is printed as a fraction is read back as it was', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10 ** 9 }), fc.integer({ min: 1, max: 10 ** 6 }), (n, d) => {
        const mm = rational(n, d)
        fc.pre(n / d >= 0.001 && n / d <= 1000)
        expect(parsePitch(exactMillimetres(mm)).mm).toEqual(mm)
      }),
    )
  })

  test('what is printed without ≈ is read back as it was, from mm and from tpi', () => {
    fc.assert(
      fc.property(fc.constantFrom('mm', 'tpi'), fc.integer({ min: 1, max: 40_000 }), (unit, thousandths) => {
        fc.pre(unit === 'tpi' ? thousandths >= 26 : true)
        const pitch = parsePitch(`${toDecimal(rational(thousandths, 1000), 3)} ${unit}`)
        const printed = printPitch(pitch.mm)
        const exact = Object.values(printed).filter((text) => !text.startsWith('≈ '))
        expect(exact).toContain(printed[unit as 'mm' | 'tpi'])
        for (const text of exact) expect(parsePitch(text).mm).toEqual(pitch.mm)
      }),
    )
  })
})

describe('printing', () => {
  test.each([
    ['26 tpi', '≈ 0.976923 mm', '26 tpi'],
    ['1.5 mm', '1.5 mm', '≈ 16.9333 tpi'],
    ['1/8 in', '3.175 mm', '8 tpi'],
    ['4 1/2 tpi', '≈ 5.644444 mm', '4.5 tpi'],
    ['1 module', '≈ 3.141593 mm', '≈ 8.0851 tpi'],
  ])('%s as %s and %s', (text, mm, tpi) => {
    expect(printPitch(parsePitch(text).mm)).toEqual({ mm, tpi })
  })

  test('takes the places asked for', () => {
    expect(printPitch(rational(127, 130), 3)).toEqual({ mm: '≈ 0.977 mm', tpi: '26 tpi' })
    expect(printPitch(rational(1, 3), 0)).toEqual({ mm: '≈ 0 mm', tpi: '≈ 76 tpi' })
  })
})

test('pi is within 1e-16 of pi', () => {
  // 40 decimals of pi: OEIS A000796.
  const digits = 31415926535897932384626433832795028841971n
  const gap = BigInt(PI.n) * 10n ** 40n - digits * BigInt(PI.d)
  expect((gap < 0n ? -gap : gap) * 10n ** 16n < BigInt(PI.d) * 10n ** 40n).toBe(true)
})
