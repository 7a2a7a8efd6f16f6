import type { Rational } from '@trainwright/measures'

/** A length and its print both ways: '8.647 mm' and '0.3404 in'; small errors as '3.1 µm' and '0.00012 in'. */
export interface Length {
  mm: number
  text: string
  inch: string
}

/** A number that is no length, with its unit in print: '+125 ppm', '29.5°', '92 %', '260 rev/min'. */
export interface Amount {
  value: number
  text: string
}

/** A pitch or lead: exactly in mm, and printed as a length and in threads per inch; ≈ where digits were dropped or pi is involved. */
export interface PitchFigure {
  mm: number
  exact: Rational
  text: string
  tpi: string
}

/** [least, greatest]. */
export type Range = [Length, Length]
