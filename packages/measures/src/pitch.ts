import { inches, millimetres, type Quantity, readQuantity, within } from './quantity.js'
import { divide, isDecimal, multiply, type Rational, rational, toDecimal, toFractionText } from './rational.js'

/** Text of a pitch: '0.7 mm', '26 tpi', '1/8 in', '254/195', '0.5 module', '32 dp', '1.25' (mm). */
export type PitchText = string
/** Units of a pitch: lengths, threads per inch, and the pitches of worms by module or diametral pitch. */
export type PitchUnit = 'mm' | 'tpi' | 'in' | 'module' | 'dp'

/** A pitch as typed and as a length. `approximate` says that pi was involved (modules and diametral pitches). */
export interface Pitch {
  text: PitchText
  unit: PitchUnit
  /** The number in its own unit: 26 for '26 tpi'. */
  value: Rational
  /** Millimetres, exactly; with `approximate`, exactly the rational pi of this package times its factor. */
  mm: Rational
  approximate: boolean
}

/** 25.4: an inch in millimetres, exactly (international inch, 1959). */
export const INCH: Rational = rational(127, 5)

/** 245850922/78256779, a convergent of pi's continued fraction, 7.9e-17 from it. */
export const PI: Rational = rational(245850922, 78256779)

const units: Readonly<Record<string, PitchUnit>> = {
  ...millimetres,
  ...inches,
  tpi: 'tpi',
  threadsperinch: 'tpi',
  module: 'module',
  modules: 'module',
  mod: 'module',
  dp: 'dp',
  diametralpitch: 'dp',
}

const range: readonly [Rational, Rational] = [rational(1, 1000), rational(1000)]

function inMillimetres({ unit, value }: Quantity<PitchUnit>): Rational {
  switch (unit) {
    case 'mm':
      return value
    case 'in':
      return multiply(value, INCH)
    case 'tpi':
      return divide(INCH, value)
    case 'module':
      return multiply(PI, value)
    case 'dp':
      return multiply(PI, divide(INCH, value))
  }
}

/**
 * Reads a pitch exactly. Units: mm (also when none is written), tpi, in or ", module, dp. Numbers: decimals with point
 * or unambiguous comma, fractions, mixed numbers. A finite number is taken as millimetres, by the decimal it prints.
 *
 * ```ts
 * parsePitch('26 tpi').mm // { n: '127', d: '130' }
 * parsePitch('1/8 in').mm // { n: '127', d: '40' }
 * ```
 * @param path where the text stands, for the problem's `path`
 * @throws InputError when it cannot be read, is not above zero, or is not 0.001 mm to 1000 mm.
 */
export function parsePitch(text: PitchText | number, path = ''): Pitch {
  const quantity = readQuantity<PitchUnit>(text, { what: 'pitch', units, bare: 'mm' }, path)
  const mm = inMillimetres(quantity)
  within(mm, range, 'pitch', text, path, '0.001 mm to 1000 mm')
  const { unit, value } = quantity
  return { text: String(text), unit, value, mm, approximate: unit === 'module' || unit === 'dp' }
}

/** A length of thread printed both ways, in `mm` and in `tpi` (threads per inch). Rounded figures carry a leading ≈. */
export interface PrintedPitch {
  mm: string
  tpi: string
}

const rounded = (r: Rational, places: number): string => (isDecimal(r, places) ? '' : '≈ ') + toDecimal(r, places)

/**
 * A pitch or lead in mm printed both ways, to `places` decimals (default 6 for mm; tpi gets two fewer).
 *
 * ```ts
 * printPitch({ n: '127', d: '130' }) // { mm: '≈ 0.976923 mm', tpi: '26 tpi' }
 * ```
 */
export function printPitch(mm: Rational, places = 6): PrintedPitch {
  return { mm: `${rounded(mm, places)} mm`, tpi: `${rounded(divide(INCH, mm), Math.max(0, places - 2))} tpi` }
}

/** The exact length as a fraction of a millimetre: '127/130 mm'. */
export const exactMillimetres = (mm: Rational): string => `${toFractionText(mm)} mm`
