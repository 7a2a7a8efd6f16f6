import {
  compare,
  divide,
  exactly,
  multiply,
  type Pitch,
  parseLength,
  parsePitch,
  type Rational,
  rational,
  subtract,
  toNumber,
} from '@trainwright/measures'
import { checkWorkshop, leadOf, type ThreadWanted, type Train, type Workshop } from '@trainwright/trains'
import type { Job } from './contract.js'
import { amount, named, pitchFigure } from './figure.js'
import type { Problems } from './problems.js'
import { PRACTICE } from './sources.js'

/**
 * The question as read. Once nothing of it is refused the lathe is sound, and the train is one for this thread on this
 * lathe; before that `pitch` and `lead` may be missing.
 */
export interface Asked {
  workshop: Workshop
  wanted: ThreadWanted
  train: Train
  pitch: Pitch
  starts: number
  lead: Rational
  /** Largest |lead / wanted - 1|. */
  tolerance: Rational
}

const ONE = rational(1)
const MILLION = rational(1_000_000)
/** Common practice, no source. */
const DEFAULT_PPM = 500
const MOST_STARTS = 60

function readTolerance(asked: ThreadWanted['tolerance'], problems: Problems): Rational {
  if (asked && Object.hasOwn(asked, 'error')) {
    const at = (part: 'error' | 'over'): Rational => {
      const text = (asked as Record<string, string>)[part]!
      return problems.from(() => parseLength(text, `wanted.tolerance.${part}`), '')?.mm ?? ONE
    }
    return divide(at('error'), at('over'))
  }
  const ppm = asked === undefined ? DEFAULT_PPM : Object(asked).ppm
  if (typeof ppm === 'number' && ppm >= 0 && ppm < 1e6) return divide(exactly(ppm), MILLION)
  problems.say('wanted.tolerance', 'tolerance')
  return ONE
}

const isExact = (r: Rational | undefined): boolean => /^-?\d+\/[1-9]\d*$/.test(`${r?.n}/${r?.d}`)

/** A train that is stale or from elsewhere would spoil the thread, so it is not taken. */
function checkTrain(
  workshop: Workshop | null,
  train: Train,
  lead: Rational | undefined,
  hand: string,
  problems: Problems,
): void {
  const whole = isExact(train.lead) && isExact(train.error) && Array.isArray(train.shafts)
  if (!whole) problems.say('train', 'no-train')
  const cut = workshop && problems.from(() => leadOf(workshop.lathe, train), '')
  if (!cut || !whole) return
  if (compare(cut.lead, train.lead) !== 0 || cut.hand !== train.hand) problems.say('train', 'other-lathe')
  else if (lead && (cut.hand !== hand || compare(subtract(divide(cut.lead, lead), ONE), train.error) !== 0))
    problems.say('train', 'other-thread')
}

/** Names every problem of workshop, wanted thread and train, each as far as it does not rest on another. */
export function readAsked(workshop: Workshop, wanted: ThreadWanted, train: Train, problems: Problems): Asked {
  const checked = checkWorkshop(workshop)
  if (!checked.ok) for (const p of checked.problems) problems.add({ ...p, path: `workshop${p.path && '.'}${p.path}` })
  const given = problems.object(train, 'train')
  problems.object(wanted, 'wanted')
  const { starts = 1, hand = 'right', pitch: text, tolerance: asked } = wanted ?? {}
  const pitch = problems.from(() => parsePitch(text, 'pitch'))
  problems.number(starts, 'wanted.starts', 1, MOST_STARTS, 'whole ')
  problems.choice(hand, 'wanted.hand', ['right', 'left'])
  const sound = !problems.found.some(({ path }) => path.startsWith('wanted'))
  const lead = sound ? multiply(pitch!.mm, rational(starts)) : undefined
  const tolerance = readTolerance(asked, problems)
  if (given) checkTrain(checked.ok ? workshop : null, train, lead, hand, problems)
  return { workshop, wanted, train, pitch: pitch!, starts, lead: lead!, tolerance }
}

function toleranceOf({ wanted, tolerance }: Asked): Job['tolerance'] {
  const ppm = amount(toNumber(multiply(tolerance, MILLION)), ' ppm', 2)
  const asked =
    wanted.tolerance &&
    ('error' in wanted.tolerance ? `${wanted.tolerance.error} over ${wanted.tolerance.over}` : ppm.text)
  const said = asked === ppm.text ? '' : ` (${asked ?? PRACTICE})`
  return { label: 'The lead may be out by', ppm, asked: asked ?? null, text: ppm.text + said }
}

/** What is to be cut, and how far the lead may be out. */
export function jobOf(asked: Asked): Job {
  const { workshop, wanted, train, pitch, starts, lead } = asked
  const name = wanted.name || null
  return {
    name,
    workshop: workshop.name || null,
    wanted: pitch.text,
    hand: train.hand,
    starts,
    text: [workshop.name, name, pitch.text, `${train.hand} hand`, starts > 1 ? `${starts} starts` : '1 start']
      .filter(Boolean)
      .join('; '),
    pitch: named('Pitch', pitchFigure(pitch.mm, pitch.approximate)),
    lead: named('Lead', pitchFigure(lead, pitch.approximate)),
    tolerance: toleranceOf(asked),
  }
}
