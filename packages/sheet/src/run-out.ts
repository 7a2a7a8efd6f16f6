import { toNumber } from '@trainwright/measures'
import { directionOfTravel, runOutGroove, threadingSpeeds } from '@trainwright/threads'
import type { RunOut } from './contract.js'
import { amount, both, length } from './figure.js'
import type { Asked } from './job.js'
import { pick } from './pick.js'
import { inThread, type Problems } from './problems.js'
import type { ThreadWork } from './thread-work.js'

const perMinute = (speed: number) => amount(speed, ' rev/min')
/** A limit is rounded down. */
const atMost = (limit: number) => ({ value: limit, text: `${Math.floor(limit * 10) / 10} rev/min` })

const ways = {
  headstock: 'The carriage travels towards the headstock as it cuts.',
  tailstock:
    'Left-hand work, spindle forward: the carriage travels towards the tailstock as it cuts. Cut the run-out groove first, to full depth, and start every pass in it.',
}

const byHand = new Set(['fast-leadscrew', 'steep-step-up'])

function speedWords(out: Pick<RunOut, 'groove' | 'limit' | 'speeds' | 'tool'>, turnedByHand: boolean): string {
  if (turnedByHand) return 'This train steps up: turn it by the leadscrew, by hand, at no speed of the lathe.'
  const { groove, limit, speeds, tool } = out
  if (!groove || !limit) {
    const [slowest] = speeds
    return slowest
      ? `Width of the groove not given: the slowest speed, ${slowest.speed.text}, needs ${both(slowest.groove)}.`
      : 'Width of the groove and speeds of the lathe are not given: run as slow as it goes.'
  }
  const serving = speeds.filter(({ serves }) => serves).map(({ speed }) => speed.text)
  const which = serving.length
    ? `these serve: ${serving.join(', ')}`
    : speeds.length
      ? 'no speed of the lathe serves: turn the spindle by hand'
      : 'take a speed below that'
  return `A groove of ${both(groove)} and a tool ${both(tool)} wide allow ${limit.text}: ${which}.`
}

/** Which way it cuts, and how fast it may run to the groove. */
export function runOutOf(asked: Asked, work: ThreadWork | null, problems: Problems): RunOut | undefined {
  const { workshop, train, pitch } = asked
  const { tool = toNumber(pitch.mm), groove } = work ?? {}
  const out = { lead: train.lead, tool, ...pick(work ?? ({} as Partial<ThreadWork>), 'reaction') }
  const speeds = [...(workshop.lathe.speeds ?? [])].sort((a, b) => a - b)
  const at = inThread({ lead: 'train.lead' })
  const allowed = groove === undefined ? null : problems.from(() => threadingSpeeds({ ...out, groove, speeds }), at)
  const widths = problems.from(() => speeds.map((speed) => runOutGroove({ ...out, speed }).width), at)
  if (allowed === undefined || !widths) return undefined
  const travel = directionOfTravel({ hand: train.hand })
  const found = {
    travel,
    travelText: ways[travel],
    groove: groove === undefined ? null : length(groove, 2),
    tool: length(tool, 2),
    limit: allowed && atMost(allowed.limit),
    speeds: speeds.map((speed, i) => ({
      speed: perMinute(speed),
      groove: length(widths[i]!, 2),
      serves: allowed ? allowed.serving.includes(speed) : null,
    })),
  }
  return {
    ...found,
    text: speedWords(
      found,
      train.cautions.some(({ code }) => byHand.has(code)),
    ),
  }
}
