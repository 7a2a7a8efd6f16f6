import { chasingDial, type DialAnswer, scratchPass } from '@trainwright/threads'
import type { Lathe } from '@trainwright/trains'
import type { Check, GearsToMount } from './contract.js'
import { both, length, trace } from './figure.js'
import type { Asked } from './job.js'
import type { ThreadRead } from './limits.js'
import { measuringChecks } from './measuring.js'
import { inThread, type Problems } from './problems.js'
import { ARMY, JONES, PRACTICE } from './sources.js'

const CRESTS = 11

function beforePower({ clearance }: GearsToMount): Check[] {
  const room = clearance
    ? ` Least clearance: ${both(clearance.gap)}, ${clearance.between}.`
    : ' See that no tip touches a shaft, a nut, the casting or the cover.'
  return [
    {
      code: 'isolated',
      text: 'Machine isolated: off, and unplugged or locked off, before the cover comes off.',
      source: ARMY,
    },
    { code: 'gears-set', text: `Gears on, keyed and meshed, every nut tight.${room}`, source: PRACTICE },
    {
      code: 'by-hand',
      text: 'Half nuts closed, turn the spindle by hand until every gear has gone round: free all the way, the carriage going the right way.',
      source: PRACTICE,
    },
    { code: 'covered', text: 'Cover back on and fastened, chuck key out, before power.', source: ARMY },
  ]
}

function scratch({ train, lead }: Asked, read: ThreadRead | null, problems: Problems): Check[] {
  const crests = read?.work.crests ?? CRESTS
  const found = problems.from(
    () => scratchPass({ wanted: lead, cut: train.lead, crests }),
    inThread({ wanted: 'wanted.pitch', cut: 'train.lead' }),
  )
  if (!found) return []
  const { spaces } = found
  const [wanted, cut] = [length(found.wanted), length(found.cut)]
  const difference = trace(found.difference, true)
  const same = found.difference === 0 ? '' : `; this train makes it ${both(cut)}, a difference of ${both(difference)}`
  const text = `Scratch pass, a touch deep: ${crests} lines, ${spaces} leads, span ${both(wanted)}${same}. If they do not, a gear or a setting is wrong.`
  return [{ code: 'scratch-pass', crests, spaces, wanted, cut, difference, text, source: GEOMETRY_AND_PRACTICE }]
}
const GEOMETRY_AND_PRACTICE = `geometry; ${PRACTICE}`

const linesOf = (open: DialAnswer | 'none', lines: number): number[] =>
  typeof open === 'object' ? Array.from({ length: lines / open.every }, (_, i) => 1 + i * open.every) : []

function halfNutWords(open: DialAnswer | 'none', lines: readonly number[], { dial }: Lathe): string {
  if (open === 'none') return 'No half nuts: the carriage stays on the leadscrew from the first pass to the last.'
  if (open === 'any') return 'With this lead the half nuts may be opened, and closed again anywhere.'
  if (open === 'closed')
    return `Keep the half nuts closed from the first pass to the last: the lead that is really cut comes round to no ${dial ? 'line of the dial' : 'place that could be found again'}.`
  const again = lines.length > 1 ? `lines ${lines.join(', ')}` : 'that same line'
  return `The half nuts may be opened; close them at ${again} of the dial only, counting the line of the first pass as 1.`
}

/** By the lead that the train really cuts; the wanted one would promise marks that spoil the thread. */
function halfNuts({ workshop: { lathe }, train }: Asked): { check: Check; open: DialAnswer | 'none' } {
  const { leadscrew, dial } = lathe
  const open =
    lathe.halfNuts === false
      ? 'none'
      : chasingDial({ leadscrew: leadscrew.pitch, lead: train.lead, ...(dial && { dial }) })
  const lines = linesOf(open, dial?.lines ?? 0)
  const where = lathe.halfNuts === undefined ? 'Where the lathe has half nuts: ' : ''
  const words = halfNutWords(open, lines, lathe)
  const text = where ? where + words[0]!.toLowerCase() + words.slice(1) : words
  return { open, check: { code: 'half-nuts', open, lines, text, source: JONES } }
}

/** Back to the start: with the nuts closed the spindle has to turn back, which a screwed-on chuck does not stand. */
function goingBack({ workshop: { lathe } }: Asked, open: DialAnswer | 'none'): Check {
  const closed = open === 'none' || open === 'closed'
  const byHand =
    lathe.screwedNose === false
      ? 'turn the spindle backwards to bring the carriage back'
      : lathe.screwedNose
        ? 'turn the spindle backwards by hand, never under power: the chuck screws on'
        : 'turn the spindle backwards to bring the carriage back, by hand if the chuck screws on'
  const how = closed ? `stop, then ${byHand}` : 'open the half nuts and wind the carriage back'
  return {
    code: 'return',
    text: `After each pass: withdraw the tool, ${how}; start far enough back that moving forward takes up the backlash before the tool reaches the work.`,
    source: closed ? `${JONES}; by hand: ${PRACTICE}` : JONES,
  }
}

/** Every check in the order in which it is made. `aim`: the effective diameter worked to, mm. */
export function checksOf(
  asked: Asked,
  gears: GearsToMount,
  thread: { read: ThreadRead; aim: number } | null,
  problems: Problems,
): Check[] {
  const { check, open } = halfNuts(asked)
  return [
    ...beforePower(gears),
    ...scratch(asked, thread?.read ?? null, problems),
    check,
    goingBack(asked, open),
    ...(thread ? measuringChecks(asked, thread.read, thread.aim, problems) : []),
  ]
}
