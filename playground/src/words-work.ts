import type { Measurements, Recognition } from '@trainwright/threads'
import { MEASURES, type Measure, type TypedWork } from './state/typed-work.js'

/** Wordings of the thread's own work, in one place. */

export const formNames: Record<TypedWork['form'], string> = {
  '': 'not given',
  metric: 'Metric, 60°',
  unified: 'Unified, 60°',
  whitworth: 'Whitworth, 55°',
  ba: 'BA, 47½°',
  trapezoidal: 'Trapezoidal, 30°',
  acme: 'Acme, 29°',
  loewenherz: 'Loewenherz, 53° 8′',
  square: 'Square',
  'sharp-v': 'Sharp V, 60°',
  own: 'My own angle',
}

/** The thread in a line, as the folded card shows it. */
export function workSummary({ form, diameter, by, cut }: TypedWork): string {
  if (form === '') return 'not given'
  const size = diameter.trim() && `${diameter.trim()}${by === 'effective' ? ' effective' : ''}`
  return [formNames[form].split(',')[0], size, cut === 'nut' ? 'nut' : ''].filter(Boolean).join(', ')
}

export const measureNames: Record<Measure, string> = {
  major: 'Over the crests',
  effective: 'Effective diameter',
  pitch: 'Pitch',
  angle: 'Angle',
}

const figure = (off: number, unit: string): string =>
  `${Math.abs(off)
    .toFixed(unit === 'mm' ? 3 : 1)
    .replace(/\.?0+$/, '')}${unit === 'mm' ? ' mm' : '°'}`

/** By how much a measurement differs from a published thread, and whether that is more than its doubt. */
export function deviationInWords(what: Measure, off: number, doubt: number): string {
  const name = measureNames[what].toLowerCase()
  const unit = what === 'angle' ? '°' : 'mm'
  const size = figure(off, unit)
  if (Number.parseFloat(size) === 0) return `${name} as published`
  const way = off < 0 ? 'under' : 'over'
  // A little more than the doubt is a matter of how floating point counts.
  const why = Math.abs(off) <= doubt + 1e-9 ? 'within your doubt' : 'as made or worn screws are'
  return `${name} ${size} ${way}, ${why}`
}

/** All deviations of a thread that may be the one measured. */
export const deviationsInWords = ({ deviation }: Recognition, measured: Measurements): string[] =>
  MEASURES.flatMap((what) =>
    deviation[what] === undefined ? [] : deviationInWords(what, deviation[what], measured[what]?.doubt ?? 0),
  )
