import { chasingDial, type DialAnswer, scratchPass } from '@trainwright/threads'
import { beforePower } from './cautions.js'
import type { Check, GearsToMount, SheetCaution } from './contract.js'
import { both, length, trace } from './figure.js'
import type { Asked } from './job.js'
import type { ThreadRead } from './limits.js'
import { measuringChecks } from './measuring.js'
import { GEOMETRY, JONES, PRACTICE } from './sources.js'

const CRESTS = 11

const asCheck = (code: 'isolated' | 'by-hand' | 'covered', { message: text, source }: SheetCaution): Check => ({
  code,
  text,
  source,
})

function upToPower({ clearance }: GearsToMount): Check[] {
  const room = clearance
    ? `least clearance ${clearance.text}`
    : 'no tip touching a shaft, a nut, the casting or the cover'
  return [
    asCheck('isolated', beforePower.isolate),
    { code: 'gears-set', text: `Gears on, keyed and meshed, every nut tight; ${room}.`, source: PRACTICE },
    asCheck('by-hand', beforePower.byHand),
    asCheck('covered', beforePower.cover),
  ]
}

function scratch({ train, lead }: Asked, read: ThreadRead | null): Check {
  const crests = read?.how.crests ?? CRESTS
  const found = scratchPass({ wanted: lead, cut: train.lead, crests })
  const { spaces } = found
  const [wanted, cut] = [length(found.wanted), length(found.cut)]
  const difference = trace(found.difference, true)
  const text = `Scratch pass, a touch deep: ${crests} lines, ${spaces} leads, span ${both(wanted)}, with this train ${both(cut)}, a difference of ${both(difference)}. If not, a gear or a setting is wrong.`
  return { code: 'scratch-pass', crests, spaces, wanted, cut, difference, text, source: GEOMETRY }
}

/** By the lead that the train really cuts; the wanted one would promise marks that spoil the thread. */
function halfNuts({ workshop: { lathe }, train, starts }: Asked): Extract<Check, { code: 'half-nuts' }> {
  const { leadscrew, dial, halfNuts: has } = lathe
  const open =
    has === false ? 'none' : chasingDial({ leadscrew: leadscrew.pitch, lead: train.lead, ...(dial && { dial }) })
  const lines =
    typeof open === 'object' ? Array.from({ length: dial!.lines / open.every }, (_, i) => 1 + i * open.every) : []
  const words = {
    none: 'No half nuts: the carriage stays on the leadscrew from the first pass to the last.',
    any: 'The half nuts may be opened, and closed again anywhere.',
    closed: `Keep the half nuts closed from the first pass${starts > 1 ? ' of a start to its' : ' to the'} last: ${dial ? 'the lead really cut comes round to no line of the dial' : 'no dial is known'}.`,
    lines: `The half nuts may be opened; close them at ${lines.length > 1 ? `lines ${lines.join(', ')}` : 'line 1'} of the dial only, the line of the first pass being 1.`,
  }
  const text = words[typeof open === 'object' ? 'lines' : open]
  return {
    code: 'half-nuts',
    open,
    lines,
    text: has === undefined ? `Where there are half nuts: ${text}` : text,
    source: JONES,
  }
}

/** Back to the start: with the nuts closed the spindle has to turn back, which a screwed-on chuck does not stand. */
function goingBack({ workshop: { lathe } }: Asked, open: DialAnswer | 'none'): Check {
  const closed = open === 'none' || open === 'closed'
  const hand =
    lathe.screwedNose === false
      ? ''
      : lathe.screwedNose
        ? ' by hand, never under power: the chuck screws on'
        : ', by hand if the chuck screws on'
  const how = closed ? `stop, then turn the spindle backwards${hand}` : 'open the half nuts and wind the carriage back'
  return {
    code: 'return',
    text: `After each pass: withdraw the tool, ${how}; start so far back that moving forward takes up the backlash before it cuts.`,
    source: closed ? `${JONES}; by hand: ${PRACTICE}` : JONES,
  }
}

/** Every check in the order in which it is made. `aim`: the effective diameter worked to, mm. */
export function checksOf(asked: Asked, gears: GearsToMount, thread: { read: ThreadRead; aim: number } | null): Check[] {
  const nuts = halfNuts(asked)
  const checks = [
    ...upToPower(gears),
    scratch(asked, thread?.read ?? null),
    nuts,
    goingBack(asked, nuts.open),
    ...(thread ? measuringChecks(asked, thread.read, thread.aim) : []),
  ]
  return checks.map((check, i) => ({ ...check, label: String(i + 1) }))
}
