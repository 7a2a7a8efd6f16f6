import Fraction from 'fraction.js'

/** An exact number as it crosses borders: `n` over `d` in lowest terms, the sign on `n`, both in decimal digits. Survives JSON. */
export interface Rational {
  n: string
  d: string
}

const out = (f: Fraction): Rational => ({ n: String(f.s * f.n), d: String(f.d) })
const into = (r: Rational): Fraction => new Fraction(BigInt(r.n), BigInt(r.d))

/**
 * `n / d` in lowest terms, of whole numbers; `d` is 1 by default.
 * @throws RangeError when `d` is zero, or a number is not whole.
 */
export function rational(n: bigint | number, d: bigint | number = 1): Rational {
  if (BigInt(d) === 0n) throw new RangeError('the denominator is zero')
  return out(new Fraction(BigInt(n), BigInt(d)))
}

/** a + b, exactly. */
export const add = (a: Rational, b: Rational): Rational => out(into(a).add(into(b)))
/** a - b, exactly. */
export const subtract = (a: Rational, b: Rational): Rational => out(into(a).sub(into(b)))
/** a x b, exactly. */
export const multiply = (a: Rational, b: Rational): Rational => out(into(a).mul(into(b)))

/**
 * a / b, exactly.
 * @throws RangeError when `b` is zero.
 */
export function divide(a: Rational, b: Rational): Rational {
  if (BigInt(b.n) === 0n) throw new RangeError('division by zero')
  return out(into(a).div(into(b)))
}

/** Negative, zero or positive as a is less than, equal to or greater than b. */
export const compare = (a: Rational, b: Rational): number => into(a).compare(into(b))

const bits = (x: bigint): number => x.toString(2).length
const shifted = (x: bigint, by: number): bigint => (by > 0 ? x << BigInt(by) : x)

/** The double nearest to `n / d`, ties to even: the one exit from exactness. Huge terms neither overflow nor lose digits. */
export function toNumber({ n, d }: Rational): number {
  const a = BigInt(n)
  const b = BigInt(d)
  if (Number.isSafeInteger(Number(a)) && Number.isSafeInteger(Number(b))) return Number(a) / Number(b)
  const size = a < 0n ? -a : a
  // 2^high is at most the value or twice it; a double keeps 53 bits below its highest, none of them under 2^-1074.
  const high = bits(size) - bits(b)
  const last = Math.max((shifted(size, -high) < shifted(b, high) ? high - 1 : high) - 52, -1074)
  const top = shifted(size, -last)
  const below = shifted(b, last)
  const whole = top / below
  const rest = 2n * (top % below)
  const near = Number(rest > below || (rest === below && whole % 2n === 1n) ? whole + 1n : whole) * 2 ** last
  return a < 0n ? -near : near
}

/**
 * `r` in decimals, rounded half away from zero to `places` (0 to 100) and without trailing zeros: `0.976923`, `-12`.
 * @throws RangeError when `places` is out of range.
 */
export function toDecimal(r: Rational, places: number): string {
  if (!Number.isInteger(places) || places < 0 || places > 100) throw new RangeError('places must be 0 to 100')
  const n = BigInt(r.n)
  const d = BigInt(r.d)
  const size = n < 0n ? -n : n
  const scaled = (2n * size * 10n ** BigInt(places) + d) / (2n * d)
  const digits = String(scaled).padStart(places + 1, '0')
  const whole = digits.slice(0, digits.length - places)
  const part = digits.slice(digits.length - places).replace(/0+$/, '')
  const text = part ? `${whole}.${part}` : whole
  return n < 0n && scaled !== 0n ? `-${text}` : text
}

/** Whether toDecimal with this count of `places`, 0 or more, says all of `r`. */
export const isDecimal = (r: Rational, places: number): boolean =>
  (BigInt(r.n) * 10n ** BigInt(places)) % BigInt(r.d) === 0n

/** `127/120`, or `2` for a whole number. */
export const toFractionText = ({ n, d }: Rational): string => (d === '1' ? n : `${n}/${d}`)
