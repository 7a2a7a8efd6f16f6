import type { FixedDrive, GearRef, GearStock, Lathe, ThreadWanted, Workshop } from '@trainwright/trains'
import { boxLine } from './box.js'
import {
  blankMounted,
  blankThread,
  SHAFTS,
  type TypedDrive,
  type TypedKind,
  type TypedLathe,
  type TypedThread,
  type TypedWorkshop,
  type TypedYesNo,
} from './typed.js'
import { banjoFrom } from './typed-banjo.js'
import { makingFrom } from './typed-making.js'

const text = (x: string | number | undefined, otherwise = ''): string => (x === undefined ? otherwise : String(x))

const refText = (ref: GearRef | undefined): string => (ref ? [ref.teeth, ref.module].filter(Boolean).join(' ') : '')

const driveFrom = ({ name, ratio, reverses, belt }: FixedDrive): TypedDrive => ({
  name: text(name),
  ratio: text(ratio),
  reverses: reverses ?? false,
  belt: belt ?? 'none',
})

const yesNo = (x: boolean | undefined): TypedYesNo => (x === undefined ? 'unknown' : x ? 'yes' : 'no')

function latheFrom(lathe: Lathe): TypedLathe {
  const { leadscrew, studs, planes, centreDistance, shaftClearance, room, fixedGears, drives, gearbox, ...others } =
    lathe
  const { banjo, halfNuts, dial, screwedNose, speeds } = others
  return {
    leadscrew: { pitch: leadscrew.pitch, hand: leadscrew.hand ?? 'right' },
    studs: text(studs, '2'),
    planes: text(planes, '2'),
    centreDistance: text(centreDistance),
    shaftClearance: text(shaftClearance),
    room: { input: text(room?.input), output: text(room?.output) },
    fixed: { input: refText(fixedGears?.input), output: refText(fixedGears?.output) },
    drives: (drives ?? []).map(driveFrom),
    gearbox: (gearbox ?? []).map(driveFrom),
    halfNuts: yesNo(halfNuts),
    dial: { travel: text(dial?.travel), lines: text(dial?.lines) },
    screwedNose: yesNo(screwedNose),
    speeds: (speeds ?? []).join(' '),
    banjo: banjoFrom(banjo),
  }
}

/** Gears that differ in their teeth only share a kind, in the order in which kinds first appear. */
function kindsFrom(gears: readonly GearStock[]): TypedKind[] {
  const kinds = new Map<string, { kind: TypedKind; gears: GearStock[] }>()
  for (const gear of gears) {
    const kind: TypedKind = {
      line: '',
      by: gear.dp === undefined ? 'module' : 'dp',
      size: text(gear.dp ?? gear.module, '1'),
      angle: text(gear.pressureAngle, '20'),
      shafts: SHAFTS.filter((shaft) => gear.shafts?.includes(shaft) ?? true),
    }
    const key = JSON.stringify(kind)
    const known = kinds.get(key) ?? { kind, gears: [] }
    known.gears.push(gear)
    kinds.set(key, known)
  }
  return [...kinds.values()].map(({ kind, gears }) => ({ ...kind, line: boxLine(gears) }))
}

/** A workshop as a person would have typed it. */
export function workshopFrom({ name, lathe, gears, wires = [], head, ...also }: Workshop): TypedWorkshop {
  return {
    name: text(name),
    lathe: latheFrom(lathe),
    kinds: kindsFrom(gears),
    wires: wires.join(' '),
    mounted: blankMounted(),
    making: makingFrom(head),
    also,
  }
}

/** A thread as a person would have typed it. */
export function threadFrom({ name, pitch, starts, hand, tolerance }: ThreadWanted): TypedThread {
  const blank = blankThread()
  const given = !tolerance
    ? {}
    : 'ppm' in tolerance
      ? { by: 'ppm' as const, ppm: String(tolerance.ppm) }
      : { by: 'length' as const, ...tolerance }
  return {
    name: text(name),
    pitch,
    starts: text(starts, blank.starts),
    hand: hand ?? blank.hand,
    tolerance: { ...blank.tolerance, ...given },
    work: blank.work,
  }
}
