import { type Rational, toNumber } from '@trainwright/measures'
import { leadFigures } from './figures.js'

/** What is printed as one line, 'label: text'; whatever it holds is said in its text, or printed below it. */
export interface Labelled {
  label?: string
  text: string
}

/** A length in mm and its print both ways, `text` and `inch`: '8.647 mm' and '0.3404 in'; small errors as '3.1 µm' and '0.000122 in'. */
export interface Length extends Labelled {
  mm: number
  inch: string
}

/** A number that is no length, with its unit in print: '+125 ppm', '29.5°', '92 %', '260 rev/min'. */
export interface Amount extends Labelled {
  value: number
}

/** A pitch or lead: exactly in mm, and printed as a length and in threads per inch, `tpi`; ≈ where digits were dropped or pi is involved. */
export interface PitchFigure extends Labelled {
  mm: number
  exact: Rational
  tpi: string
}

/** [least, greatest]. */
export type Range = [Length, Length]

const MM_PER_INCH = 25.4
/** Lengths leave the packages in steps of 1e-9 mm. */
export const rounded = (x: number): number => Math.round(x * 1e9) / 1e9 || 0

const fixed = (x: number, places: number): string => {
  const text = Math.abs(x).toFixed(places)
  return x < 0 && Number(text) !== 0 ? `−${text}` : text
}

/** A length as it is set or measured; an inch has one place more. */
export const length = (mm: number, places = 3): Length => ({
  mm: rounded(mm),
  text: `${fixed(mm, places)} mm`,
  inch: `${fixed(mm / MM_PER_INCH, places + 1)} in`,
})

/** The same for what must not be less: its print is rounded up. */
export function atLeast(mm: number, places: number): Length {
  // By way of 1e-9, so that an engine's last digit adds no step.
  const up = (x: number, to: number): number => Math.ceil(rounded(x) * 10 ** to - 1e-6) / 10 ** to
  return {
    ...length(up(mm, places), places),
    mm: rounded(mm),
    inch: length(up(mm / MM_PER_INCH, places + 1) * MM_PER_INCH, places).inch,
  }
}

export const range = ([least, greatest]: readonly [number, number], places = 3): Range => [
  length(least, places),
  length(greatest, places),
]

export const named = <T extends Labelled>(label: string, figure: T): T => ({ ...figure, label })

/** Three significant figures without an exponent: '0.000122'. */
function significant(size: number): string {
  const places = Math.max(0, 2 - Number(size.toExponential(2).split('e')[1]))
  const text = size.toFixed(Math.min(places, 12))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

/** An error too small for a scale, with its sign when it has two: '+3.13 µm', '0.000123 in'. */
export function trace(mm: number, signed = false): Length {
  const sign = !signed || mm === 0 ? '' : mm < 0 ? '−' : '+'
  const size = Math.abs(mm)
  return {
    mm: rounded(mm),
    text: `${sign}${significant(size * 1000)} µm`,
    inch: `${sign}${significant(size / MM_PER_INCH)} in`,
  }
}

/** With its unit, at most so many decimals: '29.5°', '92 %'. */
export const amount = (value: number, unit: string, places = 1): Amount => {
  const size = Number(Math.abs(value).toFixed(places))
  return { value, text: `${value < 0 && size > 0 ? '−' : ''}${size}${unit}` }
}

export function pitchFigure(exact: Rational, approximate: boolean): PitchFigure {
  const { mm, tpi } = leadFigures({ lead: exact, approximate })
  return { mm: toNumber(exact), exact, text: mm, tpi }
}

/** Both prints of a length, as sentences hold them: '8.647 mm (0.3404 in)'. */
export const both = ({ text, inch }: Length): string => `${text} (${inch})`
/** '8.647 mm (0.3404 in) to 8.700 mm (0.3425 in)'. */
export const span = ([least, greatest]: Range): string => `${both(least)} to ${both(greatest)}`
/** '≈ 0.635 mm (40 tpi)'. */
export const bothWays = ({ text, tpi }: PitchFigure): string => `${text} (${tpi})`
