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
import { amount, pitchFigure } from './figure.js'
import type { Problems } from './problems.js'

/** The question as read: the lathe is sound, and the train is one for this thread on this lathe. */
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
  if (asked === undefined) return divide(rational(DEFAULT_PPM), MILLION)
  if (typeof asked === 'object' && asked !== null && 'error' in asked) {
    const at = (part: 'error' | 'over') =>
      problems.from(
        () => parseLength(asked[part], part),
        () => `wanted.tolerance.${part}`,
      )?.mm ?? ONE
    return divide(at('error'), at('over'))
  }
  const ppm = asked?.ppm
  if (typeof ppm === 'number' && ppm >= 0 && ppm < 1e6) return divide(exactly(ppm), MILLION)
  problems.say('wanted.tolerance', 'tolerance')
  return ONE
}

const isExact = (r: Rational | undefined): boolean => /^-?\d+$/.test(String(r?.n)) && /^[1-9]\d*$/.test(String(r?.d))

/** A train that is stale or from elsewhere would spoil the thread, so it is not taken. */
function checkTrain({ lathe }: Workshop, train: Train, lead: Rational, hand: string, problems: Problems): void {
  const whole = isExact(train.lead) && isExact(train.error) && Array.isArray(train.shafts)
  const cut = problems.from(
    () => leadOf(lathe, train),
    (path) => path.replace(/^setUp/, 'train').replace(/^lathe/, 'workshop.lathe'),
  )
  if (!whole) problems.say('train', 'no-train')
  if (!cut || !whole) return
  if (compare(cut.lead, train.lead) !== 0 || cut.hand !== train.hand) problems.say('train', 'other-lathe')
  else if (cut.hand !== hand || compare(subtract(divide(cut.lead, lead), ONE), train.error) !== 0)
    problems.say('train', 'other-thread')
}

/** @throws InputError naming every problem of workshop and wanted thread, then of the train. */
export function readAsked(workshop: Workshop, wanted: ThreadWanted, train: Train, problems: Problems): Asked {
  const checked = checkWorkshop(workshop)
  if (!checked.ok)
    for (const p of checked.problems) problems.add({ ...p, path: p.path ? `workshop.${p.path}` : 'workshop' })
  for (const [value, path] of [
    [wanted, 'wanted'],
    [train, 'train'],
  ] as const)
    if (typeof value !== 'object' || value === null) problems.say(path, 'object')
  if (!checked.ok || !wanted || !train) problems.done()
  const { starts = 1, hand = 'right' } = wanted
  const pitch = problems.from(
    () => parsePitch(wanted.pitch),
    () => 'wanted.pitch',
  )
  problems.number(starts, 'wanted.starts', 0, MOST_STARTS, true)
  problems.choice(hand, 'wanted.hand', ['right', 'left'])
  const tolerance = readTolerance(wanted.tolerance, problems)
  problems.done()
  const lead = multiply(pitch!.mm, rational(starts))
  checkTrain(workshop, train, lead, hand, problems)
  problems.done()
  return { workshop, wanted, train, pitch: pitch!, starts, lead, tolerance }
}

function toleranceOf({ wanted, tolerance }: Asked): Job['tolerance'] {
  const asked = wanted.tolerance
  const ppm = amount(toNumber(multiply(tolerance, MILLION)), ' ppm', 2)
  if (asked && 'error' in asked) {
    const text = `${asked.error} over ${asked.over}`
    return { ppm, asked: text, text: `${text}, that is ${ppm.text}` }
  }
  const text = asked ? ppm.text : `${ppm.text} (common practice, no source)`
  return { ppm, asked: asked ? ppm.text : null, text }
}

/** What is to be cut, and how far the lead may be out. */
export const jobOf = (asked: Asked): Job => {
  const { workshop, wanted, pitch, starts, lead } = asked
  return {
    name: wanted.name || null,
    workshop: workshop.name || null,
    wanted: pitch.text,
    pitch: pitchFigure(pitch.mm, pitch.approximate),
    lead: pitchFigure(lead, pitch.approximate),
    starts,
    hand: wanted.hand ?? 'right',
    tolerance: toleranceOf(asked),
  }
}
