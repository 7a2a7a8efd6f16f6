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
/** A thread, its pitch in mm, and the names by which it is asked for: with its pitch and, where its name goes without, also without it. */
export interface Entry {
  thread: SeriesThread
  pitch: number
  names: string[]
}

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
  const bare = name.replace('{p}', '')
  const full = `${bare} ${pitchNumber}`
  const effective = major - 2 * addendum
  return {
    // It is handed out as it is.
    thread: Object.freeze({
      name: name.replace('{p}', String(pitchNumber)),
      series,
      form,
      pitch: `${pitchNumber} ${unit}`,
      ...rounded({ major, effective, minor: effective - 2 * dedendum }),
    }),
    pitch: p,
    names: template.endsWith('{p}') ? [full] : [full, bare],
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

let built: readonly Entry[] | undefined

/** All entries, series after series, smallest first (BA by number); built when first asked for. */
export function allEntries(): readonly Entry[] {
  built ??= [...seriesTables, ba].flatMap((table) => {
    const entries = table[4].split(' ').flatMap((group) => {
      const [pitch, sizes] = group.split(':')
      const p = toNumber(parsePitch(`${Number(pitch)} ${table[2]}`).mm)
      return sizes.split(',').map((size) => entryOf(table, size, Number(pitch), p))
    })
    return table === ba ? entries : entries.sort((a, b) => a.thread.major - b.thread.major || b.pitch - a.pitch)
  })
  return built
}

/** The series that are kept: 'M', 'M fine', 'UNC' ... 'BA'. */
export const seriesNames = (): string[] => [...new Set(allEntries().map(({ thread }) => thread.series))]

/**
 * All threads of a published series, smallest first (BA by number), for wish lists and charts. From ISO 261, ISO 228-1,
 * ISO 2902, ASME B1.1, ASME B1.5, BS 84 and BS 93; Loewenherz from Machinery's Handbook; Model Engineer from memory.
 * @throws InputError for a series that is not kept; it names those that are.
 */
export function series(name: string): SeriesThread[] {
  const wanted = String(name).trim().toUpperCase()
  const found = allEntries().filter(({ thread }) => thread.series.toUpperCase() === wanted)
  const ask = new Checks({ name })
  if (found.length === 0) ask.say('name', 'choice', seriesNames())
  ask.done()
  return found.map(({ thread }) => thread)
}
