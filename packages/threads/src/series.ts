import { type PitchText, parsePitch, toNumber } from '@trainwright/measures'
import { Checks } from './checks.js'
import { type FormName, profileOf } from './forms.js'
import { rounded } from './rounding.js'
import { type SeriesTable, seriesTables } from './tables/series.js'

/** A published thread. Diameters of the screw in mm; `minor` is its root. */
export interface SeriesThread {
  /** 'M6', 'M10x1', '1/4-20 UNC', '1/4 BSF', '4 BA', '5/16 ME 32'. */
  name: string
  /** One of seriesNames. */
  series: string
  form: FormName
  /** '1 mm', '26 tpi'. */
  pitch: PitchText
  major: number
  effective: number
  minor: number
}
/** A thread, its name without the pitch, whether it needs the pitch, and the pitch as its series counts it and in mm. */
export interface Entry {
  thread: SeriesThread
  bare: string
  needsPitch: boolean
  pitchNumber: number
  pitch: number
}

const mm = (text: string): number => toNumber(parsePitch(text).mm)

const pitchText = ([, , unit]: SeriesTable, pitch: number | string): PitchText =>
  `${Number(pitch)} ${unit === 'mm' ? unit : 'tpi'}`

/** One size of a series: `size` is written as in the tables. */
function entryOf(table: SeriesTable, size: string, pitchNumber: number, p: number): Entry {
  const [series, form, unit, template] = table
  const [nominal, given] = size.split('=')
  const shown = nominal.replace('#', '').replace('-', ' ')
  const value = shown.split(' ').reduce((sum, part) => {
    const [n, d = 1] = part.split('/').map(Number)
    return sum + n / d
  }, 0)
  // Unified numbered sizes: 0.060 in + 0.013 in for each number (ASME B1.1).
  const inUnit = nominal[0] === '#' ? 0.06 + 0.013 * value : value
  const { addendum, dedendum } = profileOf(form, p, new Checks({}))
  const major = given ? Number(given) : inUnit * (unit === 'mm' ? 1 : 25.4)
  const name = template.replace('{d}', shown)
  const effective = major - 2 * addendum
  return {
    thread: {
      name: name.replace('{p}', String(pitchNumber)),
      series,
      form,
      pitch: pitchText(table, pitchNumber),
      ...rounded({ major, effective, minor: effective - 2 * dedendum }),
    },
    pitch: p,
    bare: name.replace('{p}', ''),
    needsPitch: template.endsWith('{p}'),
    pitchNumber,
  }
}

/**
 * 0 to 25 BA, to the digit printed: pitch 0.9^n to 0.01 mm, major 6 (0.9^n)^1.2 to two figures (BS 93, in Machinery's
 * Handbook, 31st ed., p. 2115). From 17 BA as in Kaye and Laby's tables (1941), p. 25, which print no depth: 0.6 p.
 */
const ba: SeriesTable = [
  'BA',
  'ba',
  'mm',
  '{d} BA',
  Array.from({ length: 26 }, (_, n) => `${(0.9 ** n).toFixed(2)}:${n}=${(6 * 0.9 ** (1.2 * n)).toPrecision(2)}`).join(
    ' ',
  ),
]

let built: ReadonlyMap<string, Entry[]> | undefined

/** All entries by series, smallest first (BA by number); built when first asked for. */
export function allEntries(): ReadonlyMap<string, Entry[]> {
  built ??= new Map(
    [...seriesTables, ba].map((table): [string, Entry[]] => {
      const entries = table[4].split(' ').flatMap((group) => {
        const [pitch, sizes] = group.split(':')
        const p = mm(pitchText(table, pitch))
        return sizes.split(',').map((size) => entryOf(table, size, Number(pitch), p))
      })
      if (table !== ba) entries.sort((a, b) => a.thread.major - b.thread.major || b.pitch - a.pitch)
      return [table[0], entries]
    }),
  )
  // These are handed out as they are.
  for (const { thread } of [...built.values()].flat()) Object.freeze(thread)
  return built
}

/** The series that are kept: 'M', 'M fine', 'UNC' ... 'BA'. */
export const seriesNames = (): string[] => [...allEntries().keys()]

/**
 * All threads of a published series, smallest first (BA by number), for wish lists and charts. From ISO 261, ISO 228-1,
 * ISO 2902, ASME B1.1, ASME B1.5, BS 84 and BS 93; Loewenherz from Machinery's Handbook; Model Engineer from memory.
 * @throws InputError for a series that is not kept; it names those that are.
 */
export function series(name: string): SeriesThread[] {
  const wanted = seriesNames().find((n) => n.toUpperCase() === String(name).trim().toUpperCase())
  const ask = new Checks({ name: wanted ?? name })
  const known = ask.choice('name', seriesNames(), false)
  ask.done()
  return (allEntries().get(known) ?? []).map((e) => e.thread)
}
