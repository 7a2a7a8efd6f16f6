import type { Gear, GearRef, ShaftName, Train } from '@trainwright/trains'
import { gearChanges } from './changes.js'
import type { GearName, GearsToMount, MeshToSet, MountedShaft, SheetOptions } from './contract.js'
import { gearsInWords, gearsOn } from './describe.js'
import { drawTrain, type TrainDrawing } from './drawing.js'
import { amount, both, type Length, length, named } from './figure.js'
import type { Asked } from './job.js'
import { isMixed, moduleOf, settingName, sizeOf, trainInLine } from './places.js'
import { PRACTICE } from './sources.js'

const nameOf = (teeth: number, size: string | null): GearName => ({
  teeth,
  size,
  text: size ? `${teeth} (${size})` : String(teeth),
})
export const gearName = (gear: Gear): GearName => nameOf(gear.teeth, sizeOf(gear))

function shaftOf(drawing: TrainDrawing, index: number, shaft: ShaftName): MountedShaft {
  const { letter, name, turning, setting } = drawing.shafts[index]!
  const along = setting && length(setting.along, 2)
  const at = (i: number): string => drawing.shafts[i]!.letter
  return {
    letter,
    shaft,
    name,
    turning,
    gears: gearsOn(drawing, index).map(({ teeth, size, plane, role }) => ({
      ...nameOf(teeth, size),
      plane,
      role,
      turns: role === 'driven' ? null : at(index + 1),
      turnedBy: role === 'driver' ? null : at(index - 1),
    })),
    setting: setting && { slot: setting.slot, along: along! },
    label: `${letter}, ${name.toLowerCase()}`,
    text: `${gearsInWords(drawing, index)}; turns ${turning}${setting ? `; in slot ${setting.slot}, ${both(along!)} along` : ''}`,
  }
}

function meshesOf(drawing: TrainDrawing, train: Train, diameters: SheetOptions['diameters'] = {}): MeshToSet[] {
  return drawing.meshes.map(({ between, plane, centreDistance: apart }) => {
    const [from, to] = between.map((i) => drawing.shafts[i]!.letter) as [string, string]
    const teeth: [number, number] = [gearsOn(drawing, between[0]).at(-1)!.teeth, gearsOn(drawing, between[1])[0]!.teeth]
    const [a, b] = between.map((i) => diameters[train.shafts[i]!.shaft])
    const touched: [Length, Length] | null = a && b ? [length(a, 2), length(b, 2)] : null
    const over = touched && { diameters: touched, distance: length(apart + (a! + b!) / 2, 2) }
    const calipers = over ? `; calipers over ${over.diameters.map(both).join(' and ')}: ${both(over.distance)}` : ''
    const centreDistance = length(apart, 2)
    return {
      between: [from, to],
      teeth,
      plane,
      centreDistance,
      over,
      label: `${from} to ${to}, ${teeth.join(' with ')}`,
      text: `${both(centreDistance)} between centres${calipers}`,
    }
  })
}

/** What comes off and goes on; gears go by their teeth alone where these are enough to tell them. */
function changesOf(train: Train, mounted: readonly GearRef[]): GearsToMount['changes'] {
  const changes = gearChanges(train, mounted)
  const mixed = isMixed(train)
  const usual = moduleOf(train.stages[0]!.driver)
  const names = (gears: readonly Gear[]) => gears.map((gear) => nameOf(gear.teeth, mixed ? sizeOf(gear) : null))
  const [on, stay] = [names(changes.on), names(changes.stay)]
  const off = changes.off.map(({ teeth, module }) => {
    const told = module !== undefined && (mixed || module !== usual)
    return nameOf(teeth, told ? `module ${module}` : null)
  })
  const list = (gears: readonly GearName[]) => gears.map(({ text }) => text).join(', ') || 'none'
  return { off, on, stay, text: `Take off: ${list(off)}. Put on: ${list(on)}. Stay, or only move: ${list(stay)}.` }
}

/** Gears by place, as they are put on and set. */
export function gearsOf({ workshop: { lathe }, train }: Asked, { mounted, diameters }: SheetOptions): GearsToMount {
  const drawing = drawTrain(lathe, train)
  const line = trainInLine(train)
  const [drive, gearbox] = [settingName(lathe.drives, train.drive), settingName(lathe.gearbox, train.gearbox)]
  const idlers = drawing.gears
    .filter(({ role }) => role === 'idler')
    .map(({ teeth, size, shaft }) => ({ letter: drawing.shafts[shaft]!.letter, gear: nameOf(teeth, size) }))
  const { banjo, clearance } = drawing
  const parts = [
    `Train ${line}`,
    drive && `drive ${drive}`,
    gearbox && `gearbox ${gearbox}`,
    idlers.length > 0 && `idlers ${idlers.map(({ letter, gear }) => `${gear.text} on ${letter}`).join(', ')}`,
    'seen from the gear end, the spindle running forward',
  ]
  return {
    line,
    drive,
    gearbox,
    idlers,
    text: parts.filter(Boolean).join('; '),
    changes: mounted ? changesOf(train, mounted) : null,
    shafts: train.shafts.map(({ shaft }, i) => shaftOf(drawing, i, shaft)),
    swing: banjo && named('Banjo swung to', amount(banjo.swing, '°')),
    meshes: meshesOf(drawing, train, diameters),
    clearance: clearance && {
      gap: length(clearance.mm, 2),
      between: clearance.between,
      label: 'Least clearance',
      text: `${both(length(clearance.mm, 2))}, ${clearance.between}`,
    },
    backlash: {
      text: 'Backlash: set each mesh with a strip of thin paper between the teeth, tighten the stud, wind the paper out, and feel for a little shake all the way round.',
      source: PRACTICE,
    },
  }
}
