import {
  type CutterSet,
  checkBlank,
  chooseCutter,
  cutter,
  type GearQuestion,
  gearCuttingCautions,
  type Head,
  type IndexMove,
  indexing,
  type OwnedCutter,
  spurGear,
} from '@trainwright/gearcutting'
import { amount, both, length } from './figure.js'
import type { GearIndexing, GearSheet } from './gear-contract.js'
import { sizeOf } from './places.js'
import { Problems } from './problems.js'

export interface GearToMake {
  /** Teeth and module or dp; a gear that proposeGears gives will do. */
  gear: GearQuestion
  /** Dividing head or rotary table. */
  head?: Head
  /** Cutters owned, as they are stamped. */
  cutters?: OwnedCutter[]
  /** mm. */
  bore?: number
  keyway?: { width: number; depth: number }
  /** The least wall between root and bore or keyway, mm; default 0. */
  wall?: number
}

/** dp rules where it is given: the depth of its cutters is another. */
function questionOf({ module, ...gear }: GearQuestion): GearQuestion {
  return gear.dp === undefined && module !== undefined ? { ...gear, module } : gear
}

const rangeText = ({ from, to }: { from: number; to: number }): string =>
  Number.isFinite(to) ? `${from} to ${to}` : `${from} to rack`

/** Refusals that are an answer: there is no such cutter, or the head cannot. */
const ANSWERS = new Set(['no-cutter', 'not-owned', 'wrong-range', 'cannot-divide'])

/** What `read` gives, or what it answers instead; other refusals go to `problems`. */
function answered<T>(problems: Problems, read: () => T, at: (path: string) => string): T | string | undefined {
  const own = new Problems()
  const value = own.from(read, at)
  const told = own.all()
  const answer = told.find(({ code }) => ANSWERS.has(code))
  if (answer && told.length === 1) return answer.message
  for (const problem of told) problems.add(problem)
  return value
}

function cutterOf(gear: GearQuestion, cutters: OwnedCutter[] | undefined, problems: Problems): GearSheet['cutter'] {
  const set: CutterSet = gear.dp === undefined ? 'module' : 'dp'
  const own = answered(
    problems,
    () => cutter(gear.teeth, set),
    () => 'gear.teeth',
  )
  if (typeof own !== 'object') return { range: null, number: null, owned: null, text: own ?? '' }
  const { number } = own
  const range = rangeText(own)
  const stamped = `Cutter stamped ${range} (commonly No. ${number} of a ${set === 'dp' ? 'DP' : 'module'} set; the range stamped on it rules).`
  if (!cutters) return { range, number, owned: null, text: stamped }
  const { teeth, module, dp, pressureAngle } = gear
  const question = {
    teeth,
    ...(module !== undefined && { module }),
    ...(dp !== undefined && { dp }),
    ...(pressureAngle !== undefined && { pressureAngle }),
    owned: cutters,
  }
  const chosen = answered(
    problems,
    () => chooseCutter(question),
    (path) => path.replace('owned', 'cutters'),
  )
  if (typeof chosen !== 'object')
    return { range, number, owned: null, text: `${stamped} ${capital(chosen ?? '')}`.trim() }
  const yours = rangeText({ from: chosen.cutter.from, to: chosen.cutter.to ?? Number.POSITIVE_INFINITY })
  return { range, number, owned: chosen.index, text: `${stamped} Yours of ${yours} cuts it.` }
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`

function moveText({ turns, holes, circle }: IndexMove): string {
  const parts = [
    turns && count(Math.abs(turns), 'turn'),
    holes && `${count(Math.abs(holes), 'space')} of the ${circle} circle`,
  ]
  const text = parts.filter(Boolean).join(' and ') || 'nothing'
  return turns < 0 || holes < 0 ? `back ${text}` : text
}

/** '4 + 16/21': turns and spaces of a circle. */
const placeText = ({ turns, holes, circle }: IndexMove): string =>
  turns < 0 || holes < 0 ? `−${-turns} − ${-holes}/${circle}` : `${turns} + ${holes}/${circle}`

function indexingOf(divisions: number, head: Head, problems: Problems): GearIndexing | undefined {
  const plan = answered(
    problems,
    () => indexing({ divisions, head }),
    (path) => path.replace('divisions', 'gear.teeth'),
  )
  if (plan === undefined) return undefined
  if (typeof plan === 'string')
    return {
      kind: 'impossible',
      plate: null,
      moves: [],
      others: [],
      worst: null,
      text: capital(plan),
      table: [],
      reminders: [],
    }
  const moves = plan.moves.map((move) => ({ ...move, text: moveText(move) }))
  const worst = plan.worst === '0' ? null : amount(plan.worstDegrees, '° of the work', 4)
  return {
    kind: plan.kind,
    plate: plan.plate + 1,
    moves,
    others: plan.others.map(moveText),
    worst,
    text: `${capital(plan.kind)}, plate ${plan.plate + 1}: ${moves.map(({ text }) => text).join(', then the plate ')}${worst ? `; at worst ${worst.text} out` : ''}.`,
    table: plan.table.map(({ division, at, error }) => ({ division, at: at.map(placeText), error })),
    reminders: plan.reminders.map(({ code, message }) => ({ code, message })),
  }
}

function boreOf(q: GearToMake, gear: GearQuestion, problems: Problems): GearSheet['bore'] {
  if (q.bore === undefined) return null
  const { bore, keyway, wall = 0 } = q
  if (keyway) problems.number(keyway.width, 'keyway.width', 0, bore)
  const names: Record<string, string> = { 'blank.bore': 'bore', 'blank.keyway': 'keyway.depth', 'blank.wall': 'wall' }
  const checked = problems.from(
    () => checkBlank({ ...gear, blank: { bore, wall, ...(keyway && { keyway: keyway.depth }) } }),
    (path) => names[path] ?? `gear.${path}`,
  )
  if (!checked) return null
  const left = length(checked.wall, 2)
  const over = keyway ? 'keyway' : 'bore'
  return {
    diameter: length(bore),
    keyway: keyway ? { width: length(keyway.width), depth: length(keyway.depth) } : null,
    wall: left,
    enough: checked.enough,
    text: checked.enough
      ? `${both(left)} of wall stay between root and ${over}.`
      : `Only ${both(left)} of wall between root and ${over}: it takes ${checked.fewestTeeth} teeth of this size, or a smaller bore.`,
  }
}

/**
 * What it takes to make a gear: blank, depth, cutter, indexing, what to measure, and what to mind. Where no cutter or no
 * division serves, the sheet says so and what would.
 * @throws InputError naming every problem of gear ('gear.teeth'), head, cutters, bore, keyway and wall.
 */
export function gearSheet(q: GearToMake): GearSheet {
  const problems = new Problems()
  if (typeof q?.gear !== 'object' || q.gear === null) problems.say('gear', 'object')
  problems.done()
  const gear = questionOf(q.gear)
  const made = problems.from(
    () => spurGear(gear),
    (path) => `gear.${path}`,
  )
  problems.done()
  const { teeth, dp, pressureAngle = 20, shift = 0 } = gear
  const { tipDiameter, pitchDiameter, rootDiameter, wholeDepth, baseTangent, chordal, undercut, undercutFrom } = made!
  const cutting = cutterOf(gear, q.cutters, problems)
  const plan = q.head ? indexingOf(teeth, q.head, problems) : null
  const bore = boreOf(q, gear, problems)
  problems.done()
  const size = sizeOf({ teeth, module: made!.module, pressureAngle, ...(dp !== undefined && { dp }) })
  const diameter = length(tipDiameter)
  const [span, thickness, height] = [length(baseTangent.length), length(chordal.thickness), length(chordal.height)]
  return {
    kind: 'gear',
    title: `Gear to make: ${teeth} teeth, ${size}`,
    gear: { teeth, size, text: `${teeth} (${size})`, pressureAngle: amount(pressureAngle, '°'), shift },
    blank: { diameter, text: `Turn the blank to ${both(diameter)}, true to the bore.` },
    pitchDiameter: length(pitchDiameter),
    rootDiameter: length(rootDiameter),
    depth: length(wholeDepth),
    bore,
    cutter: cutting,
    indexing: plan ?? null,
    baseTangent: {
      teeth: baseTangent.teeth,
      length: span,
      text: `Over ${baseTangent.teeth} teeth between flat jaws: ${both(span)}.`,
    },
    chordal: {
      thickness,
      height,
      text: `By a tooth caliper set ${both(height)} down from the tip: ${both(thickness)} across the tooth.`,
    },
    undercut: {
      undercut,
      from: undercutFrom,
      text: undercut
        ? `A rack would undercut it (fewer than ${undercutFrom} teeth); a form cutter leaves a fuller root, so try it with its mate.`
        : `No undercut (from ${undercutFrom} teeth on).`,
    },
    cautions: gearCuttingCautions.map((caution) => ({ ...caution })),
  }
}
