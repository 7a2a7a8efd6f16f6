import type { FixedDrive, Gear, GearRef, Lathe, Train } from '@trainwright/trains'
import type { GearName, GearsToMount, MeshToSet, MountedShaft, SheetOptions } from './contract.js'
import { amount, both, length, rounded } from './figure.js'
import type { Asked } from './job.js'
import { isMixed, moduleOf, type Place, pitchRadius, placesOf, sizeOf, trainInLine } from './places.js'

export const gearName = (gear: Gear, sized: boolean): GearName => {
  const size = sized ? sizeOf(gear) : null
  return { teeth: gear.teeth, size, text: size ? `${gear.teeth} (${size})` : String(gear.teeth) }
}

/** Null for the only way there is, when it has no name. */
export function settingName(ways: readonly FixedDrive[] | undefined, index: number): string | null {
  const way = ways?.[index]
  if (way?.name) return way.name
  return way && ways.length > 1 ? `setting ${index + 1} of ${ways.length}, ratio ${way.ratio}` : null
}

function shaftsOf(train: Train, places: readonly Place[], sized: boolean): MountedShaft[] {
  return places.map(({ letter, shaft, name, turning, gears }, i) => {
    const stands = train.layout?.shafts[i]
    const setting =
      stands && stands.slot !== null && stands.along !== null
        ? { slot: stands.slot + 1, along: length(stands.along, 2) }
        : null
    const mounted = gears.map(({ gear, plane, role, turns }) => ({
      ...gearName(gear, sized),
      plane,
      role,
      turns: turns === null ? null : places[turns]!.letter,
      turnedBy: role === 'driver' ? null : places[i - 1]!.letter,
    }))
    const what = mounted.map(({ text, plane, role }) => `${text} in plane ${plane}, ${role}`).join('; keyed to it ')
    const where = setting ? `; in slot ${setting.slot} at ${both(setting.along)} along` : ''
    return {
      letter,
      shaft,
      name,
      turning,
      gears: mounted,
      setting,
      text: `${letter}, ${name.toLowerCase()}: ${what}; turns ${turning}${where}.`,
    }
  })
}

function meshesOf(train: Train, places: readonly Place[], { diameters }: SheetOptions): MeshToSet[] {
  return places.slice(1).map((to, i) => {
    const from = places[i]!
    const { gear, plane } = from.gears.at(-1)!
    const driven = to.gears[0]!.gear
    const apart = train.layout?.meshes[i]?.centreDistance ?? rounded(pitchRadius(gear) + pitchRadius(driven))
    const touched = [diameters?.[from.shaft], diameters?.[to.shaft]]
    const [a, b] = touched
    const over =
      a === undefined || b === undefined
        ? null
        : { diameters: [length(a, 2), length(b, 2)] as MeshOver, distance: length(apart + (a + b) / 2, 2) }
    const centreDistance = length(apart, 2)
    const calipers = over
      ? `; calipers over ${both(over.diameters[0])} and ${both(over.diameters[1])}: ${both(over.distance)}`
      : ''
    return {
      between: [from.letter, to.letter],
      teeth: [gear.teeth, driven.teeth],
      plane,
      centreDistance,
      over,
      text: `${from.letter} to ${to.letter}, ${gear.teeth} with ${driven.teeth}: ${both(centreDistance)} between centres${calipers}.`,
    }
  })
}
type MeshOver = [ReturnType<typeof length>, ReturnType<typeof length>]

const matches = (gear: Gear, { teeth, module }: GearRef): boolean =>
  gear.teeth === teeth && (module === undefined || Math.abs(moduleOf(gear) - module) < 1e-9)

/** What comes off and goes on; gears of which nothing else is known go by their teeth. */
function changesOf(train: Train, sized: boolean, mounted: readonly GearRef[] | undefined): GearsToMount['changes'] {
  if (!mounted) return null
  const left = [...mounted]
  const stay: GearName[] = []
  const on: GearName[] = []
  for (const { gear } of train.shafts.flatMap(({ gears }) => gears)) {
    const at = left.findIndex((ref) => matches(gear, ref))
    if (at >= 0) left.splice(at, 1)
    ;(at >= 0 ? stay : on).push(gearName(gear, sized))
  }
  const off = left.map(({ teeth, module }) => {
    const size = module === undefined ? null : `module ${module}`
    return { teeth, size, text: size ? `${teeth} (${size})` : String(teeth) }
  })
  const list = (names: readonly GearName[]) => names.map(({ text }) => text).join(', ') || 'none'
  return { off, on, stay, text: `Take off: ${list(off)}. Put on: ${list(on)}. Stay, or only move: ${list(stay)}.` }
}

const backlash: GearsToMount['backlash'] = {
  text: 'Backlash: set each mesh with a strip of thin paper between the teeth, tighten the stud, wind the paper out, and feel for a little shake all the way round.',
  source: 'common practice, no source',
}

/** Gears by place, as they are put on and set. */
export function gearsOf({ workshop, train }: Asked, options: SheetOptions): GearsToMount {
  const lathe: Lathe = workshop.lathe
  const places = placesOf(lathe, train)
  const sized = isMixed(train)
  const { layout } = train
  return {
    line: trainInLine(train),
    drive: settingName(lathe.drives, train.drive),
    gearbox: settingName(lathe.gearbox, train.gearbox),
    shafts: shaftsOf(train, places, sized),
    idlers: places.flatMap(({ letter, gears }) =>
      gears.filter(({ role }) => role === 'idler').map(({ gear }) => ({ letter, gear: gearName(gear, sized) })),
    ),
    meshes: meshesOf(train, places, options),
    swing: layout && layout.swing !== null ? amount(layout.swing, '°') : null,
    clearance: layout?.clearance ? { gap: length(layout.clearance.mm, 2), between: layout.clearance.between } : null,
    changes: changesOf(train, sized, options.mounted),
    backlash,
  }
}
