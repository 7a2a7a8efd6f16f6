import { parseLength, parsePitch, parseRatio, toNumber } from '@trainwright/measures'
import { banjo } from './banjo/check-banjo.js'
import { BOUNDS, FAR } from './bounds.js'
import { dp, gearModule, gearRef, hand, pressureAngle, teeth } from './check-fields.js'
import type { CheckedWorkshop, FixedDrive, GearStock, Head, Lathe, Workshop } from './contract.js'
import {
  checked,
  list,
  number,
  object,
  oneOf,
  optional,
  parsed,
  positive,
  type Read,
  Reader,
  text,
  whole,
  yesNo,
} from './reader.js'
import { moduleOf, resolve } from './search/box.js'
import { PLAY } from './search/rules.js'

const size = positive(FAR)
const name = optional(text(BOUNDS.nameLength))

const stock = checked(
  object<GearStock>({
    teeth,
    count: optional(whole(1, BOUNDS.gears)),
    module: gearModule,
    dp,
    pressureAngle,
    shafts: optional(list(oneOf('input', 'stud', 'output'), 1, 3)),
  }),
  (gear) => gear.module !== undefined && gear.dp !== undefined && ['module-and-dp'],
)

const drives = optional(
  list(
    object<FixedDrive>({
      name,
      ratio: parsed(parseRatio),
      reverses: optional(yesNo),
      belt: optional(oneOf('toothed', 'plain')),
    }),
    1,
    BOUNDS.settings,
  ),
)

const latheAlone = object<Lathe>({
  leadscrew: object<Lathe['leadscrew']>({ pitch: parsed(parsePitch), hand }),
  drives,
  gearbox: drives,
  studs: optional(whole(0, BOUNDS.studs)),
  planes: optional(whole(1, BOUNDS.planes)),
  shaftClearance: optional(number(0, FAR)),
  room: optional(object({ input: optional(size), output: optional(size) })),
  centreDistance: optional(size),
  fixedGears: optional(object({ input: optional(gearRef), output: optional(gearRef) })),
  banjo: optional(banjo),
  halfNuts: optional(yesNo),
  dial: optional(object<NonNullable<Lathe['dial']>>({ travel: parsed(parseLength), lines: whole(1, 1000) })),
  screwedNose: optional(yesNo),
  speeds: optional(list(positive(100_000), 0, 100)),
})

/** Reads a lathe alone, and what its parts must be together. */
export const lathe: Read<Lathe> = (r, x, path) => {
  const read = latheAlone(r, x, path)
  if (!read) return undefined
  const settings = (read.drives?.length ?? 1) * (read.gearbox?.length ?? 1)
  if (settings > BOUNDS.settings) return r.refuse(`${path}.drives`, 'too-many-settings', settings)
  if (read.banjo && read.centreDistance === undefined) {
    return r.refuse(`${path}.centreDistance`, 'needs-centre-distance')
  }
  return read
}

const workshop = object<Workshop>({
  name,
  lathe,
  gears: list(stock, 1, BOUNDS.gears),
  wires: optional(list(size, 0, 100)),
  head: optional(object<Head>({ worm: whole(1, 10_000), plates: list(list(whole(1, 10_000), 0, 100), 0, 50) })),
})

function checkTogether(r: Reader, workshop: Workshop, made: number): void {
  const { gears } = workshop
  const total = gears.reduce((sum, g) => sum + (g.count ?? 1), 0)
  if (total > BOUNDS.gears) r.refuse('gears', 'too-many-gears', total)
  checkFixedGears(r, workshop)
  checkReach(r, workshop, made)
}

/** A banjo on which no mesh of the box can bring a stud to the far shaft, or to the pivot, is measured wrongly. */
function checkReach(r: Reader, { gears, lathe: { banjo, centreDistance = 0, studs } }: Workshop, made: number): void {
  if (!banjo || studs === 0) return
  const largest = gears.reduce((most, g) => Math.max(most, toNumber(moduleOf(g)) * (Math.max(g.teeth, made) + PLAY)), 0)
  const radii = banjo.slots.map(({ offset = 0, from, to }) => [from, to].map((along) => Math.hypot(along, offset)))
  const furthest = Math.max(...radii.map(([, far]) => far))
  const nearest = Math.min(...radii.map(([near]) => near))
  const mm = (x: number) => x.toFixed(1)
  if (centreDistance - furthest > largest) {
    const told = `shafts are ${mm(centreDistance)} mm apart, slots end ${mm(furthest)} mm from the pivot, and the widest mesh spans ${mm(largest)} mm`
    r.refuse('lathe.banjo.slots', 'out-of-reach', told)
  } else if (nearest > largest && centreDistance > largest) {
    const told = `slots start ${mm(nearest)} mm from the pivot, and the widest mesh spans ${mm(largest)} mm`
    r.refuse('lathe.banjo.slots', 'out-of-reach', told)
  }
}

function checkFixedGears(r: Reader, { gears, lathe }: Workshop): void {
  const able = new Set<GearStock>()
  for (const shaft of ['input', 'output'] as const) {
    const ref = lathe.fixedGears?.[shaft]
    if (!ref) continue
    const path = `lathe.fixedGears.${shaft}`
    const found = resolve(ref, gears)
    if (found === 'none') r.refuse(path, 'no-such-gear', ref.teeth)
    else if (found === 'several') r.refuse(path, 'which-gear', ref.teeth)
    else {
      const here = found.filter((g) => g.shafts?.includes(shaft) ?? true)
      if (here.length === 0) r.refuse(path, 'fixed-elsewhere', ref.teeth)
      // Two of one kind must be two gears, whichever sits where.
      const others = able.size
      for (const gear of here) able.add(gear)
      const copies = [...able].reduce((sum, g) => sum + (g.count ?? 1), 0)
      if (others > 0 && here.length > 0 && copies < 2) r.refuse(path, 'fixed-twice', ref.teeth)
    }
  }
}

/**
 * Checks a workshop of unknown origin: a file, a link, a form. The workshop returned holds only what is known here.
 * Problems are all of them, each with its path (`gears[3].teeth`), a code and a sentence. Never throws.
 */
export const checkWorkshop = (x: unknown): CheckedWorkshop => checkForMaking(x, 0)

/** checkWorkshop where gears of up to so many teeth may be made: they may reach where those of the box do not. */
export function checkForMaking(x: unknown, made: number): CheckedWorkshop {
  const r = new Reader()
  const read = workshop(r, x, '')
  if (read) checkTogether(r, read, made)
  return read && r.problems.length === 0 ? { ok: true, workshop: read } : { ok: false, problems: r.problems }
}
