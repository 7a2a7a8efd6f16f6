import {
  checkBlank,
  chooseCutter,
  cutter,
  type GearQuestion,
  gearCuttingCautions,
  type Head,
  type OwnedCutter,
  spurGear,
} from '@trainwright/gearcutting'
import { amount, both, length, named } from './figure.js'
import type { GearSheet } from './gear-contract.js'
import { answered, indexingOf } from './gear-indexing.js'
import { gearName } from './mount.js'
import { Problems } from './problems.js'

export type { GearIndexing, GearSheet } from './gear-contract.js'

/** A gear to be made, and what there is to make it with; lengths in mm. */
export interface GearToMake {
  /** Teeth and module or dp; a gear that proposeGears gives will do. */
  gear: GearQuestion
  /** Dividing head or rotary table. */
  head?: Head
  /** Cutters owned, as they are stamped. */
  cutters?: OwnedCutter[]
  /** Diameter, mm; default none. */
  bore?: number
  /** mm, each up to the bore; needs one. */
  keyway?: { width: number; depth: number }
  /** The least wall between root and bore or keyway, mm; default 0. */
  wall?: number
}

const rangeText = ({ from, to = Number.POSITIVE_INFINITY }: { from: number; to?: number }): string =>
  `${from} to ${Number.isFinite(to) ? to : 'rack'}`

function cutterOf(gear: GearQuestion, owned: OwnedCutter[] | undefined, problems: Problems): GearSheet['cutter'] {
  const set = gear.dp === undefined ? 'module' : 'dp'
  const none: GearSheet['cutter'] = { range: null, number: null, owned: null, text: '' }
  const best = answered(problems, () => cutter(gear.teeth, set), 'gear')
  if (typeof best !== 'object') return { ...none, text: best ?? '' }
  const { number } = best
  const range = rangeText(best)
  const text = `Cutter stamped ${range} (commonly No. ${number} of a ${set} set; the range stamped on it rules).`
  const chosen = owned && answered(problems, () => chooseCutter({ ...gear, owned }), '')
  if (typeof chosen !== 'object') return { range, number, owned: null, text: chosen ? `${text} ${chosen}` : text }
  return { range, number, owned: chosen.index, text: `${text} Yours of ${rangeText(chosen.cutter)} cuts it.` }
}

function boreOf({ bore, keyway, wall = 0 }: GearToMake, gear: GearQuestion, problems: Problems): GearSheet['bore'] {
  if (bore === undefined) return null
  problems.number(keyway?.width, 'keyway.width', 0.01, bore)
  const blank = { bore, wall, ...(keyway && { keyway: keyway.depth }) }
  const checked = problems.from(() => checkBlank({ ...gear, blank }), 'gear')
  if (!checked) return null
  const { enough, fewestTeeth } = checked
  const left = length(checked.wall, 2)
  const over = `${both(left)} of wall stay between root and ${keyway ? 'keyway' : 'bore'}`
  return {
    text: enough ? `${over}.` : `Only ${over}: take ${fewestTeeth} teeth of this size, or a smaller bore.`,
    diameter: named('Bore', length(bore)),
    keyway: keyway
      ? { width: named('Keyway, width', length(keyway.width)), depth: named('Keyway, depth', length(keyway.depth)) }
      : null,
    wall: left,
    enough,
  }
}

/**
 * What it takes to make a gear: blank, depth, cutter, indexing, what to measure, and what to mind. Where no cutter or no
 * division serves, the sheet says so and what would.
 * @throws InputError naming every problem of gear ('gear.teeth'), head, cutters, bore, keyway and wall.
 */
export function gearSheet(q: GearToMake): GearSheet {
  const problems = new Problems()
  problems.object(q?.gear, 'gear')
  problems.done()
  // A gear out of a box has a module beside its dp; the dp rules, since the depth of its cutters is another.
  const { module, ...rest } = q.gear
  const gear: GearQuestion = rest.dp === undefined && module !== undefined ? { ...rest, module } : rest
  const made = problems.from(() => spurGear(gear), 'gear')
  problems.done()
  const { pitchDiameter, rootDiameter, wholeDepth, baseTangent, chordal, undercut, undercutFrom } = made!
  const { teeth, pressureAngle = 20, shift = 0 } = gear
  const cutting = cutterOf(gear, q.cutters, problems)
  const indexing = q.head ? indexingOf(teeth, q.head, problems) : null
  const bore = boreOf(q, gear, problems)
  problems.done()
  const name = gearName({ ...gear, module: made!.module, pressureAngle })
  const diameter = length(made!.tipDiameter)
  const [over, thickness, height] = [length(baseTangent.length), length(chordal.thickness), length(chordal.height)]
  return {
    kind: 'gear',
    title: `Gear to make: ${teeth} teeth, ${name.size}`,
    gear: {
      ...name,
      text: shift ? `${name.text}, shift ${shift}` : name.text,
      pressureAngle: named('Pressure angle', amount(pressureAngle, '°')),
      shift,
    },
    blank: { diameter, text: `Turn the blank to ${both(diameter)}, true to the bore.` },
    pitchDiameter: named('Pitch diameter', length(pitchDiameter)),
    rootDiameter: named('Root diameter', length(rootDiameter)),
    depth: named('Depth, from touching the blank', length(wholeDepth)),
    bore,
    cutter: cutting,
    undercut: {
      undercut,
      from: undercutFrom,
      text: undercut
        ? `A rack would undercut it (fewer than ${undercutFrom} teeth); a form cutter leaves a fuller root: try it with its mate.`
        : `No undercut (from ${undercutFrom} teeth on).`,
    },
    indexing: indexing ?? null,
    baseTangent: {
      teeth: baseTangent.teeth,
      length: over,
      text: `Over ${baseTangent.teeth} teeth between flat jaws: ${both(over)}.`,
    },
    chordal: {
      thickness,
      height,
      text: `By a tooth caliper ${both(height)} down from the tip: ${both(thickness)} across the tooth.`,
    },
    cautions: gearCuttingCautions.map((caution) => ({ ...caution })),
  }
}
