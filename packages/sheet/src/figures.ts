import { multiply, printPitch, type Rational, rational, toDecimal } from '@trainwright/measures'
import type { Train } from '@trainwright/trains'

/**
 * The nearest hundredth, never a negative zero. By way of 1e-9: sines and cosines differ in their last digit from one
 * engine to the next, and a half must not fall to either side for that.
 */
export const toHundredth = (n: number): number => Math.round(Math.round(n * 1e9) / 1e7) / 100 || 0

/** The unit that printed distances are in. */
export type Units = 'mm' | 'inch'

/** '84.30', or '3.319' in inches: near what a vernier reads. */
export const reading = (mm: number, units: Units = 'mm'): string =>
  units === 'inch' ? (toHundredth(mm / 2.54) / 10).toFixed(3) : toHundredth(mm).toFixed(2)
/** A distance given in mm, printed as a vernier reads it: '84.30 mm', or '3.319 in'. `units` is mm by default. */
export const distance = (mm: number, units: Units = 'mm'): string => `${reading(mm, units)} ${units.slice(0, 2)}`

/** The lead both ways, `mm` and `tpi`: '≈ 0.976923 mm' and '26 tpi'; ≈ where digits were dropped or pi is involved. */
export function leadFigures(train: Pick<Train, 'lead' | 'approximate'>): { mm: string; tpi: string } {
  const { mm, tpi } = printPitch(train.lead)
  const about = (text: string) => (train.approximate && !text.startsWith('≈') ? `≈ ${text}` : text)
  return { mm: about(mm), tpi: about(tpi) }
}

/** A lead error as it is printed; `exact` when there is none, and no pi. */
export interface ErrorFigures {
  exact: boolean
  /** 'exact', '+125 ppm', '−0.8 ppm'. */
  ppm: string
  /** '3.1 µm long over 25 mm'; empty when exact. */
  over: string
  /** '125 µin long over 1 in'; empty when exact. */
  inch: string
}

const MILLION = rational(1_000_000)
const RUN_MM = 25
const TRACE = 'under'

/** How far the lead is out, as a proportion and as a person meets it: over 25 mm of thread. */
export function errorFigures(train: Train): ErrorFigures {
  if (train.error.n === '0') {
    const ppm = train.approximate ? 'exact but for pi' : 'exact'
    return { exact: !train.approximate, ppm, over: '', inch: '' }
  }
  const short = train.error.n.startsWith('-')
  const size: Rational = { n: train.error.n.replace('-', ''), d: train.error.d }
  const micrometres = multiply(size, rational(RUN_MM * 1000))
  const way = short ? 'short' : 'long'
  const millionths = significant(multiply(size, MILLION))
  return {
    exact: false,
    ppm: `${signed(millionths, short ? '−' : '+')} ppm`,
    over: `${significant(micrometres)} µm ${way} over ${RUN_MM} mm`,
    inch: `${millionths} µin ${way} over 1 in`,
  }
}

const signed = (size: string, sign: string): string => (size.startsWith(TRACE) ? size : sign + size)

/** Two figures after the first ones that say something, whole numbers from 100 on; a trace below 1e-6 is said so. */
function significant(size: Rational): string {
  const whole = toDecimal(size, 0)
  if (whole.length > 2) return whole
  for (let places = whole.length > 1 ? 1 : 2; places <= 6; places++) {
    const text = toDecimal(size, places)
    if (text !== '0') return text
  }
  return `${TRACE} 0.000001`
}
