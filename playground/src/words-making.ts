import { sizeOf } from '@trainwright/sheet'
import type { Gear, ThreadWanted } from '@trainwright/trains'
import type { Told } from './state/asking.js'
import type { ChartAnswer, ChartQuestion } from './state/chart.js'
import type { Making } from './state/making.js'
import type { GearAnswer, GearQuestion } from './state/proposals.js'
import { LEAST, MOST } from './state/typed-making.js'
import { count, isTooMany, STOPPED, TOO_MANY } from './words.js'

/** Longer wordings of the parts that make gears. */

/** '1 BA', '26 tpi LH': what a thread is called in a list. */
export const threadName = ({ name, pitch, hand }: ThreadWanted): string =>
  `${name ?? pitch}${hand === 'left' ? ' LH' : ''}`

/** '11 tpi Tripod head'. */
export const threadInFull = ({ name, pitch, hand }: ThreadWanted): string =>
  [pitch, hand === 'left' && 'LH', name].filter(Boolean).join(' ')

/** '44 teeth', '105 and 121 teeth'. */
export const teethOf = (make: readonly Gear[]): string => `${make.map(({ teeth }) => teeth).join(' and ')} teeth`

/** '44 teeth, module 1'. */
export const gearsInFull = (make: readonly Gear[]): string => `${teethOf(make)}, ${sizeOf(make[0]!)}`

/** What limits the search, for those who wonder why there is so little. */
export function limitsInWords({ options, bore }: Making): string {
  const [least, most] = options.teeth ?? [LEAST, MOST]
  return [
    `${least} to ${most} teeth`,
    options.module === undefined ? 'of the size that most of the box has' : `of module ${options.module}`,
    ...(options.makeable ? [`the ${options.makeable.length} counts that the head divides exactly`] : []),
    ...(bore ? [`a bore of ${bore.bore} mm`] : []),
  ].join(', ')
}

/** What may still help when nothing does. */
export function waysOut({ options, bore }: Making): string[] {
  return [
    ...(options.make === 2 ? [] : ['Two gears together may: ask for a pair.']),
    ...(options.makeable ? ['Let the head come close where it does not divide exactly, or get another plate.'] : []),
    ...(bore ? ['Take a smaller bore, keyway or wall: small gears are left out for want of it.'] : []),
    'Widen the range of teeth.',
    'Allow the thread more tolerance.',
  ]
}

type GearsTold = Told<GearQuestion, GearAnswer>

/** How the search for gears stands, in a line. */
export function gearVerdict({ answer, question, current, progress, stopped, problems, failure }: GearsTold): string {
  if (failure !== null) return `The search failed: ${failure}`
  if (stopped) return STOPPED
  if (isTooMany(problems)) return TOO_MANY
  if (progress !== null || !answer || !question)
    return problems.length > 0 ? 'Correct what is marked on the card, and the answer comes.' : 'Looking for gears …'
  if (!current) return 'Old answer: it stands until what is marked on the card is corrected.'
  const { already, proposals } = answer.one
  const thread = threadInFull(question.wanted[0]!)
  const make = question.options.make === 2 ? 'pair' : 'gear'
  if (already.length > 0) return `The box cuts ${thread} now.`
  if (proposals.length === 0) return `No ${make} that you can make would cut ${thread}.`
  const best = teethOf(proposals[0]!.make)
  return proposals.length === 1
    ? `One ${make} would cut ${thread}: ${best}.`
    : `${best}: with ${make === 'pair' ? 'them' : 'it'} the box cuts ${thread}.`
}

/** How the chart stands, in a line. */
export function chartVerdict(told: Told<ChartQuestion, ChartAnswer>): string {
  const { answer, current, progress, stopped, problems, failure } = told
  if (failure !== null) return `The search failed: ${failure}`
  if (stopped) return STOPPED
  if (isTooMany(problems)) return TOO_MANY
  if (!answer || progress !== null)
    return problems.length > 0 ? 'Correct what is marked on the card, and the chart comes.' : 'Looking for trains …'
  if (!current) return 'Old chart: it stands until what is marked on the card is corrected.'
  const cut = answer.rows.filter(({ train }) => train).length
  return `The box cuts ${cut} of ${count(answer.rows.length, 'thread')}.`
}
