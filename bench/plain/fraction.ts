import { type Rational, rational } from '@trainwright/measures'

/** An exact number, as bigints; `d` is above zero and the terms need not be lowest. */
export interface Fraction {
  readonly n: bigint
  readonly d: bigint
}

export const fraction = (n: bigint | number, d: bigint | number = 1): Fraction => ({ n: BigInt(n), d: BigInt(d) })
export const fromRational = ({ n, d }: Rational): Fraction => ({ n: BigInt(n), d: BigInt(d) })
export const toRational = ({ n, d }: Fraction): Rational => rational(n, d)

export const times = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.n, d: a.d * b.d })
/** a / b, b above zero. */
export const over = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.d, d: a.d * b.n })
export const plus = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.d + b.n * a.d, d: a.d * b.d })
export const minus = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.d - b.n * a.d, d: a.d * b.d })
export const magnitude = (a: Fraction): Fraction => (a.n < 0n ? { n: -a.n, d: a.d } : a)

/** -1, 0 or 1 as a is less than, equal to or greater than b. */
export function compareFractions(a: Fraction, b: Fraction): number {
  const left = a.n * b.d
  const right = b.n * a.d
  return left < right ? -1 : left > right ? 1 : 0
}

export const equal = (a: Fraction, b: Fraction): boolean => compareFractions(a, b) === 0
