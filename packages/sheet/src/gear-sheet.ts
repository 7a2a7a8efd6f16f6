import {
  checkBlank,
  chooseCutter,
  cutter,
  type GearQuestion,
  gearCuttingCautions,
  type Head,
  type Keyway,
  type OwnedCutter,
  type SpurGear,
  spurGear,
} from '@trainwright/gearcutting'
import { amount, both, length, named } from './figure.js'
import type { GearSheet } from './gear-contract.js'
import { indexingOf } from './gear-indexing.js'
import { answered } from './gear-problems.js'
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
  /** Diameter, mm, 0.01 to 10000; default none. */
  bore?: number
  /** In the bore, which must be given. */
  keyway?: Keyway
  /** The least wall between root and bore or corners of the keyway, mm, 0 to 10000, which needs a bore; default 0: any. */
  wall?: number
}

const rangeText = ({ from, to = Number.POSITIVE_INFINITY }: { from: number; to?: number }): string =>
  `${from} to ${Number.isFinite(to) ? to : 'rack'}`

function cutterOf(gear: GearQuestion, owned: OwnedCutter[] | undefined, problems: Problems): GearSheet['cutter'] {
  const set = gear.dp === undefined ? 'module' : 'dp'
  const none: GearSheet['cutter'] = { range: null, number: null, owned: null, text: '' }
  const best = answered(problems, () => cutter(gear.teeth, set))
  const chosen = owned === undefined ? undefined : answered(problems, () => chooseCutter({ ...gear, owned }))
  if (typeof best !== 'object') return { ...none, text: best ?? '' }
  const { number } = best
  const range = rangeText(best)
  const text = `Cutter stamped ${range} (commonly No. ${number} of a ${set} set; the range stamped on it rules).`
  if (typeof chosen !== 'object') return { range, number, owned: null, text: chosen ? `${text} ${chosen}` : text }
  return { range, number, owned: chosen.index, text: `${text} Yours of ${rangeText(chosen.cutter)} cuts it.` }
}

function boreOf(
  { bore, keyway, wall = 0 }: Omit<GearToMake, 'gear'>,
  gear: GearQuestion,
  problems: Problems,
): GearSheet['bore'] {
  if (bore === undefined && keyway === undefined && wall === 0) return null
  // A keyway by its depth alone, as checkBlank takes it too, is none that can be cut.
  const blank = { bore: bore!, wall, ...(keyway !== undefined && { keyway: { ...keyway } }) }
  const checked = answered(problems, () => checkBlank({ ...gear, blank }))
  if (typeof checked !== 'object') return null
  const { enough, fewestTeeth } = checked
  const left = length(checked.wall, 2)
  const over = `${both(left)} of wall stay between root and ${keyway ? 'keyway' : 'bore'}`
  return {
    text: enough ? `${over}.` : `Only ${over}: take ${fewestTeeth} teeth of this size, or a smaller bore.`,
    diameter: named('Bore', length(blank.bore)),
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
  const { gear: asked, head, cutters, ...holes } = { ...q }
  // A gear out of a box has a module beside its dp; the dp rules, since the depth of its cutters is another.
  const { module, ...rest } = { ...asked }
  const gear: GearQuestion = rest.dp === undefined && module !== undefined ? { ...rest, module } : rest
  const found = answered(problems, () => spurGear(gear))
  const cutting = cutterOf(gear, cutters, problems)
  const indexing = head === undefined ? null : indexingOf(gear.teeth, head, problems)
  const bore = boreOf(holes, gear, problems)
  problems.done()
  const made = found as SpurGear
  const { pitchDiameter, rootDiameter, wholeDepth, baseTangent, chordal, undercut, undercutFrom } = made
  const { teeth, pressureAngle = 20, shift = 0 } = gear
  const name = gearName({ ...gear, module: made.module, pressureAngle })
  const diameter = length(made.tipDiameter)
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
