import { toNumber } from '@trainwright/measures'
import { directionOfTravel, runOutGroove, threadingSpeeds } from '@trainwright/threads'
import type { Train } from '@trainwright/trains'
import type { RunOut } from './contract.js'
import { amount, atLeast, both, length, named } from './figure.js'
import type { Asked } from './job.js'
import type { Problems } from './problems.js'
import type { ThreadWork } from './thread-work.js'

/** A limit is rounded down. */
const atMost = (limit: number) => ({ value: limit, text: `${Math.floor(limit * 10) / 10} rev/min` })

const leftHand =
  'Left-hand work, spindle forward: the carriage travels towards the tailstock as it cuts. Cut the run-out groove first, to full depth, and start every pass in it: it sets no speed.'

const byHand = new Set(['fast-leadscrew', 'steep-step-up'])

function speedWords({ limit, speeds }: Pick<RunOut, 'limit' | 'speeds'>, { cautions }: Train): string {
  if (cautions.some(({ code }) => byHand.has(code))) return 'This train steps up: turn it by the leadscrew, by hand.'
  if (!limit) return 'No groove is given: run at the slowest.'
  if (speeds.length === 0) return 'Take a speed below that.'
  const serving = speeds.filter(({ serves }) => serves).map(({ speed }) => speed.text)
  return serving.length > 0 ? `These serve: ${serving.join(', ')}.` : 'No speed serves: turn the spindle by hand.'
}

/** Names what is wrong with groove, tool and reaction; no lead is too long or too short for them. */
export function checkRunOut({ pitch }: Asked, work: ThreadWork, problems: Problems): void {
  const out = { tool: pitch ? toNumber(pitch.mm) : 0, ...work, lead: '1' }
  const { groove } = out
  problems.from(() => (groove === undefined ? runOutGroove({ ...out, speed: 1 }) : threadingSpeeds({ ...out, groove })))
}

/** Which way it cuts, and how fast it may run to the groove. */
export function runOutOf({ workshop, train, pitch }: Asked, work: ThreadWork | null): RunOut {
  const out = { tool: toNumber(pitch.mm), ...work, lead: train.lead }
  const { groove, tool } = out
  const travel = directionOfTravel({ hand: train.hand })
  // A pass that starts in the groove does not have to stop there.
  const stops = travel === 'headstock'
  const all = stops ? [...(workshop.lathe.speeds ?? [])].sort((a, b) => a - b) : []
  const limit =
    stops && groove !== undefined ? named('Spindle at most', atMost(threadingSpeeds({ ...out, groove }).limit)) : null
  const speeds = all.map((at) => {
    const [speed, needed] = [amount(at, ' rev/min'), atLeast(runOutGroove({ ...out, speed: at }).width, 2)]
    const serves = limit && at <= limit.value
    const verdict = serves === null ? '' : serves ? ': serves' : ': too fast'
    return { speed, groove: needed, serves, text: `${speed.text} needs a groove of ${both(needed)}${verdict}` }
  })
  return {
    travel,
    text: stops
      ? `The carriage travels towards the headstock as it cuts. ${speedWords({ limit, speeds }, train)}`
      : leftHand,
    groove: groove === undefined ? null : named('Groove', length(groove, 2)),
    tool: named('Tool, along the work', length(tool, 2)),
    limit,
    speeds,
  }
}
