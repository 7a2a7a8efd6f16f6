import { type Problem, parsePitch } from '@trainwright/measures'
import { errorFigures, leadFigures, trainInLine } from '@trainwright/sheet'
import type { Train } from '@trainwright/trains'
import type { Answer } from './state/answers.js'
import { withUnit } from './state/read-text.js'

/** Longer wordings of the page, in one place. */

export const SAFETY =
  'Switch off and isolate the lathe before the guard comes off. Turn the train over by hand before power, and run it with the guard closed. The manual of your lathe and the rules of your shop come first.'

/** The minus sign of print. */
export const minus = (figure: string): string => figure.replace('-', '−')

/** '1 stud', '2 studs', '1,200 pairs'; a number that is typed stays as it is typed. */
export const count = (n: number | string, one: string, many = `${one}s`): string =>
  `${typeof n === 'number' ? n.toLocaleString('en') : n} ${Number(n) === 1 ? one : many}`

/** What may be written for a pitch; a number without a unit is told as it is read, for it may have been meant as tpi. */
export function pitchHint(pitch: string, examples: string): string {
  const full = withUnit(pitch)
  if (full === pitch) return examples
  const { mm, approximate } = parsePitch(full)
  const both = leadFigures({ lead: mm, approximate })
  return `Read as ${both.mm}, ${both.tpi}. For threads per inch write ${pitch.trim()} tpi.`
}

/** Problems that the page can name better than those who do not know its fields; the rest say it themselves. */
export function inWords({ code, path, message }: Problem): string {
  if (code === 'missing') return 'Needed here.'
  if (path === 'wanted.pitch' && ['not-a-number', 'unit'].includes(code))
    return `${message} Published threads such as M6 are picked above.`
  if (code === 'too-few' && path === 'gears') return 'The box is empty: type the teeth of each gear.'
  return message
}

export const STOPPED = 'The search was stopped.'
export const TOO_MANY = 'Too many trains to look through: take fewer studs or gears, or a smaller tolerance.'
/** Whether a search was refused for that: said among its obstacles, or as a problem where an answer has no place for these. */
export const isTooMany = (told: readonly { code: string }[]): boolean => told.some(({ code }) => code === 'too-many')

/** What the answer comes to, in a line. */
export function verdict({ search, current, working, stopped, failure, problems }: Answer): string {
  if (failure !== null) return `The search failed: ${failure}`
  if (working) return 'Working …'
  if (stopped) return STOPPED
  if (!search) return problems.length > 0 ? 'Fill in or correct what is marked, and the answer comes.' : 'Working …'
  if (!current) return 'Old answer: it stands until what is marked is corrected.'
  const { mountable, withinTolerance } = search.counts
  if (isTooMany(search.obstacles)) return TOO_MANY
  if (mountable === 0) return 'No train goes on within tolerance.'
  return `${mountable.toLocaleString('en')} of ${count(withinTolerance, 'gear set')} within tolerance can be mounted.`
}

/** The answer for ears: said once the typing pauses. */
export function spoken(answer: Answer, train: Train | null): string {
  const { search, current } = answer
  if (!current || !search || !train) return verdict(answer)
  const { mm, tpi } = leadFigures(train)
  const { ppm } = errorFigures(train)
  const none = train === answer.misfit?.train ? 'No train goes on. Does not fit' : 'No train within tolerance. Closest'
  const found = search.trains.length > 0 ? 'Train' : none
  return `${found}: ${trainInLine(train)}. Lead ${mm}, ${tpi}, ${ppm}, ${train.hand} hand.`
}

/** How the shown train stands to what was wanted; the letters of an inspector's stamp. */
export function stamp(
  { search, misfit, current }: Answer,
  train: Train,
): 'Old' | 'Exact' | 'Within tolerance' | 'Out of tolerance' | 'Does not fit' {
  if (!current) return 'Old'
  if (train === misfit?.train) return 'Does not fit'
  if (!search?.trains.includes(train)) return 'Out of tolerance'
  return errorFigures(train).exact ? 'Exact' : 'Within tolerance'
}
