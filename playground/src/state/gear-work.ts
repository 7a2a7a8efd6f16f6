import {
  type Angle,
  contactRatio,
  dialIndexing,
  type GearQuestion,
  type Outline,
  outline,
} from '@trainwright/gearcutting'
import { gather, type Problem } from '@trainwright/measures'
import { moduleOf } from '@trainwright/sheet'
import { type GearSheet, gearSheet } from '@trainwright/sheet/gear'
import type { Gear, Head, Train } from '@trainwright/trains'
import type { Making } from './making.js'

/** All that the page shows of one gear to be made. */
export interface GearWork {
  sheet: GearSheet
  /** Null when it cannot be drawn; `refused` then says why. */
  outline: Outline | null
  refused: string
  /** Where there is no head: each place on the degree scale of a rotary table, to the minute. */
  scale: Angle[]
  /** The gears that it meshes with, and how many teeth of each pair touch at once. */
  mates: { teeth: number; ratio: number }[]
}

/** The way in which gearcutting knows a gear: by its diametral pitch where it has one. */
const sizeOf = ({ teeth, module, dp, pressureAngle }: Gear): GearQuestion =>
  dp === undefined ? { teeth, module, pressureAngle } : { teeth, dp, pressureAngle }

const same = (a: Gear, b: Gear): boolean => a.teeth === b.teeth && moduleOf(a) === moduleOf(b)

/** The teeth of the gears that mesh with this one in these trains. */
function matesOf(gear: Gear, trains: readonly Train[]): number[] {
  const mates = new Set<number>()
  for (const { stages } of trains)
    for (const { driver, idlers, driven } of stages) {
      const chain = [driver, ...idlers, driven]
      chain.forEach((one, i) => {
        const next = chain[i + 1]
        if (next && same(one, gear)) mates.add(next.teeth)
        if (next && same(next, gear)) mates.add(one.teeth)
      })
    }
  return [...mates].sort((a, b) => a - b)
}

export const sentences = (problems: readonly Problem[]): string => problems.map(({ message }) => message).join(' ')

function drawn(gear: Gear, bore: Making['bore']): Pick<GearWork, 'outline' | 'refused'> {
  const hole = bore && { bore: bore.bore, ...(bore.keyway && { keyway: bore.keyway }) }
  const problems: Problem[] = []
  const found = gather(problems, () => outline({ ...sizeOf(gear), ...hole }))
  return { outline: found ?? null, refused: sentences(problems) }
}

/**
 * Works out how this gear is made, and how it runs in these trains.
 * @throws InputError for a gear, or a mate, of which gearcutting knows nothing: a box may hold odder ones.
 */
export function gearWork(gear: Gear, trains: readonly Train[], making: Making, head: Head | undefined): GearWork {
  const { bore, cutters } = making
  return {
    sheet: gearSheet({
      gear: sizeOf(gear),
      ...(head && { head }),
      ...(cutters && { cutters }),
      ...(bore && { bore: bore.bore, wall: bore.wall, ...(bore.keyway && { keyway: bore.keyway }) }),
    }),
    ...drawn(gear, bore),
    scale: head ? [] : dialIndexing({ divisions: gear.teeth, table: { worm: 1 } }).table.map(({ rim }) => rim),
    mates: matesOf(gear, trains).map((teeth) => ({
      teeth,
      ratio: contactRatio({
        teeth: [gear.teeth, teeth],
        module: moduleOf(gear),
        pressureAngle: gear.pressureAngle,
      }),
    })),
  }
}
