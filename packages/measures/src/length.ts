import { INCH } from './pitch.js'
import { inches, millimetres, readQuantity, within } from './quantity.js'
import { multiply, type Rational, rational } from './rational.js'

/** Text of a length: '0.005 mm', '3/8 in', '4"', '2 thou', '5 µm', '10' (mm). */
export type LengthText = string
/** A length as typed, and in millimetres, exactly. */
export interface Length {
  text: LengthText
  mm: Rational
}

const factor = {
  mm: rational(1),
  in: INCH,
  thou: rational(127, 5000),
  micrometre: rational(1, 1000),
}
type LengthUnit = keyof typeof factor

const units: Readonly<Record<string, LengthUnit>> = {
  ...millimetres,
  ...inches,
  thou: 'thou',
  μm: 'micrometre',
  um: 'micrometre',
  micron: 'micrometre',
  microns: 'micrometre',
}

const range: readonly [Rational, Rational] = [rational(1, 1_000_000), rational(100_000)]

/**
 * Reads a length exactly; a number, or text without a unit, is in mm.
 * @throws InputError when it cannot be read, is not above zero, or is not 1 nm to 100 m.
 */
export function parseLength(text: LengthText | number, path = ''): Length {
  const { unit, value } = readQuantity<LengthUnit>(text, { what: 'length', units, bare: 'mm' }, path)
  const mm = multiply(value, factor[unit])
  within(mm, range, 'length', text, path, '1 nm to 100 m')
  return { text: String(text), mm }
}
