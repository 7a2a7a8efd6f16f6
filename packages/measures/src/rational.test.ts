import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  add,
  compare,
  divide,
  isDecimal,
  multiply,
  type Rational,
  rational,
  subtract,
  toDecimal,
  toFractionText,
  toNumber,
} from './rational.js'

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : gcd(b, a % b))
const big = (bits: number) => fc.bigInt({ min: -(2n ** BigInt(bits)), max: 2n ** BigInt(bits) })
const positive = (bits: number) => fc.bigInt({ min: 1n, max: 2n ** BigInt(bits) })
/** Small terms as in gear ratios, and terms far beyond what a double holds. */
const anyRational = fc.oneof(
  fc.tuple(fc.bigInt(-500n, 500n), fc.bigInt(1n, 500n)).map(([n, d]) => rational(n, d)),
  fc.tuple(big(200), positive(200)).map(([n, d]) => rational(n, d)),
)
const zero = rational(0)

/** Says of a result only what BigInt says: it equals n / d, in lowest terms, with the sign on n. */
function isExactly(r: Rational, n: bigint, d: bigint) {
  const [rn, rd] = [BigInt(r.n), BigInt(r.d)]
  expect(rn * d).toBe(n * rd)
  expect(rd > 0n).toBe(true)
  expect(gcd(rn, rd)).toBe(1n)
  expect([String(rn), String(rd)]).toEqual([r.n, r.d])
}

describe('arithmetic agrees with BigInt', () => {
  const pair = fc.tuple(big(120), positive(120), big(120), positive(120))

  test('rational', () => {
    fc.assert(fc.property(big(200), big(200).filter(Boolean), (n, d) => isExactly(rational(n, d), n, d)))
  })

  test('add, subtract, multiply, divide, compare', () => {
    fc.assert(
      fc.property(pair, ([an, ad, bn, bd]) => {
        const [a, b] = [rational(an, ad), rational(bn, bd)]
        isExactly(add(a, b), an * bd + bn * ad, ad * bd)
        isExactly(subtract(a, b), an * bd - bn * ad, ad * bd)
        isExactly(multiply(a, b), an * bn, ad * bd)
        if (bn !== 0n) isExactly(divide(a, b), an * bd, ad * bn)
        const difference = an * bd - bn * ad
        expect(Math.sign(compare(a, b))).toBe(difference > 0n ? 1 : difference < 0n ? -1 : 0)
      }),
    )
  })

  test('nothing is divided by zero', () => {
    expect(() => rational(1, 0)).toThrow(RangeError)
    expect(() => divide(rational(1), zero)).toThrow(RangeError)
  })

  test('a number that is not whole is no term', () => {
    expect(() => rational(0.5)).toThrow(RangeError)
    expect(() => rational(Number.NaN)).toThrow(RangeError)
  })
})

describe('toNumber', () => {
  /** A finite double as the exact fraction that its bits say (IEEE 754 binary64). */
  function exactDouble(x: number): { n: bigint; d: bigint } {
    const view = new DataView(new ArrayBuffer(8))
    view.setFloat64(0, x)
    const raw = view.getBigUint64(0)
    const exponent = Number((raw >> 52n) & 0x7ffn)
    const mantissa = (raw & (2n ** 52n - 1n)) + (exponent === 0 ? 0n : 2n ** 52n)
    const power = Math.max(exponent, 1) - 1075
    const n = raw >> 63n ? -mantissa : mantissa
    return power >= 0 ? { n: n * 2n ** BigInt(power), d: 1n } : { n, d: 2n ** BigInt(-power) }
  }

  const neighbours = (x: number): number[] => {
    const view = new DataView(new ArrayBuffer(8))
    view.setFloat64(0, x)
    const raw = view.getBigUint64(0)
    return [raw + 1n, raw - 1n].map((bits) => {
      view.setBigUint64(0, bits)
      return view.getFloat64(0)
    })
  }

  /** |x - r| over a common denominator that depends on r and the two doubles only. */
  const distance = (x: number, r: Rational): { n: bigint; d: bigint } => {
    const { n, d } = exactDouble(x)
    const gap = n * BigInt(r.d) - BigInt(r.n) * d
    return { n: gap < 0n ? -gap : gap, d: d * BigInt(r.d) }
  }

  function isNearest(r: Rational) {
    const x = toNumber(r)
    const own = distance(x, r)
    for (const other of neighbours(x).filter(Number.isFinite)) {
      const theirs = distance(other, r)
      const [mine, its] = [own.n * theirs.d, theirs.n * own.d]
      expect(mine <= its).toBe(true)
      // On a tie the even one is taken.
      if (mine === its) expect(exactDouble(x).n % 2n === 0n).toBe(true)
    }
  }

  test('is the nearest double', () => {
    fc.assert(
      fc.property(anyRational, (r) => r.n === '0' || isNearest(r)),
      { numRuns: 500 },
    )
  })

  test('is the nearest double for values of every size, subnormal too', () => {
    const scaled = fc
      .tuple(positive(80), positive(80), fc.integer({ min: -1070, max: 940 }))
      .map(([n, d, by]) => (by < 0 ? rational(n, d << BigInt(-by)) : rational(n << BigInt(by), d)))
    fc.assert(fc.property(scaled, isNearest), { numRuns: 500 })
  })

  test('gives every double back', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
        const { n, d } = exactDouble(x)
        expect(toNumber(rational(n, d))).toBe(x === 0 ? 0 : x)
      }),
      { numRuns: 500 },
    )
  })

  test.each([
    ['2^53 + 1, a tie, to even', 2n ** 53n + 1n, 1n, 2 ** 53],
    ['2^53 + 3, a tie, to even', 2n ** 53n + 3n, 1n, 2 ** 53 + 4],
    ['just over a tie', (2n ** 53n + 1n) * 10n ** 40n + 1n, 10n ** 40n, 2 ** 53 + 2],
    ['half the least double, a tie, to even', 1n, 2n ** 1075n, 0],
    ['over half the least double', 2n ** 100n + 1n, 2n ** 1175n, Number.MIN_VALUE],
    ['the greatest double', 2n ** 1024n - 2n ** 971n, 1n, Number.MAX_VALUE],
    ['past every double', 2n ** 1024n, 1n, Number.POSITIVE_INFINITY],
  ])('%s', (_, n, d, x) => {
    expect(toNumber(rational(n, d))).toBe(x)
    expect(toNumber(rational(-n, d))).toBe(-x)
  })
})

describe('decimals', () => {
  test.each([
    ['1', '8', 2, '0.13'],
    ['-1', '8', 2, '-0.13'],
    ['1', '3', 4, '0.3333'],
    ['2', '3', 4, '0.6667'],
    ['127', '130', 6, '0.976923'],
    ['-1', '1000', 2, '0'],
    ['1', '2', 0, '1'],
    ['-1', '2', 0, '-1'],
    ['999', '1000', 2, '1'],
    ['1200', '1', 3, '1200'],
    ['0', '1', 5, '0'],
  ])('%s/%s to %i places is %s', (n, d, places, text) => {
    expect(toDecimal({ n, d }, places)).toBe(text)
  })

  test('are within half a unit of the last place, and round a half away from zero', () => {
    fc.assert(
      fc.property(anyRational, fc.integer({ min: 0, max: 30 }), (r, places) => {
        const text = toDecimal(r, places)
        expect(text).toMatch(/^(0|-?[1-9]\d*|-?(0|[1-9]\d*)\.\d*[1-9])$/)
        const [whole, part = ''] = text.replace('-', '').split('.')
        const printed = BigInt(whole + part.padEnd(places, '0')) * (text.startsWith('-') ? -1n : 1n)
        const [n, d] = [BigInt(r.n) * 10n ** BigInt(places), BigInt(r.d)]
        const twice = 2n * (printed * d - n) * (n < 0n ? -1n : 1n)
        expect(twice > -d && twice <= d).toBe(true)
        expect(isDecimal(r, places)).toBe(twice === 0n)
      }),
      { numRuns: 500 },
    )
  })

  test.each([-1, 1.5, 101, Number.NaN])('%s is no number of places', (places) => {
    expect(() => toDecimal(zero, places)).toThrow(new RangeError('places must be 0 to 100'))
  })

  test('are given to a hundred places', () => {
    expect(toDecimal(rational(1, 3), 100)).toBe(`0.${'3'.repeat(100)}`)
  })
})

test('fraction text leaves a denominator of one out', () => {
  expect([rational(127, 120), rational(-4, 2), zero].map(toFractionText)).toEqual(['127/120', '-2', '0'])
})
