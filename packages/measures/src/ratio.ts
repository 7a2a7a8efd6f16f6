import { readQuantity, within } from './quantity.js'
import { type Rational, rational } from './rational.js'

/** A ratio: '127/120', '0.5', 2. Turns out per turn in. A number is the decimal that it prints. */
export type RatioText = string | number

const range: readonly [Rational, Rational] = [rational(1, 1_000_000), rational(1_000_000)]

/**
 * Reads a ratio exactly.
 * @throws InputError when it cannot be read, has a unit, is not above zero, or is not 1/1000000 to 1000000.
 */
export function parseRatio(text: RatioText, path = ''): Rational {
  const { value } = readQuantity<'none'>(text, { what: 'ratio', units: {}, bare: 'none' }, path)
  within(value, range, 'ratio', text, path, '1/1000000 to 1000000')
  return value
}
