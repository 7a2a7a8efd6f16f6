import { parseLength, parsePitch, parseRatio, toNumber } from '@trainwright/measures'
import { checkBanjo } from './banjo/check-banjo.js'
import { BOUNDS } from './bounds.js'
import type { CheckedWorkshop, FixedDrive, GearRef, GearStock, Head, Lathe, ShaftName, Workshop } from './contract.js'
import { optional, type Read, Reader } from './reader.js'
import { moduleOf, resolve } from './search/box.js'
import { PLAY } from './search/rules.js'

const hands = ['right', 'left'] as const
const shafts = ['input', 'stud', 'output'] as const
/** mm: no small lathe is longer; catches a slip of the keyboard. */
const FAR = 10_000

export const readRef = (r: Reader, x: unknown, path: string): GearRef | undefined =>
  r.object<GearRef>(x, path, {
    teeth: (y, q) => r.whole(y, q, BOUNDS.leastTeeth, BOUNDS.mostTeeth),
    module: optional((y, q) => r.positive(y, q, 100)),
    pressureAngle: optional((y, q) => r.number(y, q, 5, 45)),
  })

function readers(r: Reader) {
  const count: Read<number> = (x, p) => r.whole(x, p, 1, BOUNDS.gears)
  const teeth: Read<number> = (x, p) => r.whole(x, p, BOUNDS.leastTeeth, BOUNDS.mostTeeth)
  const size: Read<number> = (x, p) => r.positive(x, p, FAR)
  const name = optional((x, p) => r.text(x, p, BOUNDS.nameLength))
  const yesNo = optional((x, p) => r.yesNo(x, p))
  const ref: Read<GearRef> = (x, p) => readRef(r, x, p)

  const gear: Read<GearStock> = (x, p) => {
    const read = r.object<GearStock>(x, p, {
      teeth,
      count: optional(count),
      module: optional((y, q) => r.positive(y, q, 100)),
      dp: optional((y, q) => r.positive(y, q, 1000)),
      pressureAngle: optional((y, q) => r.number(y, q, 5, 45)),
      shafts: optional((y, q) => r.list<ShaftName>(y, q, [1, 3], (z, s) => r.oneOf(z, s, shafts))),
    })
    return read?.module !== undefined && read.dp !== undefined ? r.refuse(p, 'module-and-dp') : read
  }

  const fixedDrive: Read<FixedDrive> = (x, p) =>
    r.object<FixedDrive>(x, p, {
      name,
      ratio: (y, q) => r.parsed(y, q, parseRatio),
      reverses: yesNo,
      belt: optional((y, q) => r.oneOf(y, q, ['toothed', 'plain'] as const)),
    })
  const drives: Read<FixedDrive[]> = (x, p) => r.list(x, p, [1, BOUNDS.settings], fixedDrive)

  const lathe: Read<Lathe> = (x, p) =>
    r.object<Lathe>(x, p, {
      leadscrew: (y, q) =>
        r.object<Lathe['leadscrew']>(y, q, {
          pitch: (z, s) => r.parsed(z, s, parsePitch),
          hand: optional((z, s) => r.oneOf(z, s, hands)),
        }),
      drives: optional(drives),
      gearbox: optional(drives),
      studs: optional((y, q) => r.whole(y, q, 0, BOUNDS.studs)),
      planes: optional((y, q) => r.whole(y, q, 1, BOUNDS.planes)),
      shaftClearance: optional((y, q) => r.number(y, q, 0, FAR)),
      room: optional((y, q) => r.object(y, q, { input: optional(size), output: optional(size) })),
      centreDistance: optional(size),
      fixedGears: optional((y, q) => r.object(y, q, { input: optional(ref), output: optional(ref) })),
      banjo: optional((y, q) => checkBanjo(r, y, q)),
      halfNuts: yesNo,
      dial: optional((y, q) =>
        r.object(y, q, {
          travel: (z, s) => r.parsed<string>(z, s, parseLength),
          lines: (z, s) => r.whole(z, s, 1, 1000),
        }),
      ),
      screwedNose: yesNo,
      speeds: optional((y, q) => r.list(y, q, [0, 100], (z, s) => r.positive(z, s, 100_000))),
    })

  const head: Read<Head> = (x, p) =>
    r.object<Head>(x, p, {
      worm: (y, q) => r.whole(y, q, 1, 10_000),
      plates: (y, q) =>
        r.list(y, q, [0, 50], (z, s) => r.list(z, s, [0, 100], (hole, t) => r.whole(hole, t, 1, 10_000))),
    })

  return { gear, lathe, head, size, name }
}

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

/** Reads a lathe alone, and what its parts must be together. */
export function checkLathe(r: Reader, x: unknown, path: string): Lathe | undefined {
  const lathe = readers(r).lathe(x, path)
  if (!lathe) return undefined
  const settings = (lathe.drives?.length ?? 1) * (lathe.gearbox?.length ?? 1)
  if (settings > BOUNDS.settings) return r.refuse(`${path}.drives`, 'too-many-settings', settings)
  if (lathe.banjo && lathe.centreDistance === undefined) {
    return r.refuse(`${path}.centreDistance`, 'needs-centre-distance')
  }
  return lathe
}

/**
 * Checks a workshop of unknown origin: a file, a link, a form. The workshop returned holds only what is known here.
 * Problems are all of them, each with its path (`gears[3].teeth`), a code and a sentence. Never throws.
 */
export const checkWorkshop = (x: unknown): CheckedWorkshop => checkForMaking(x, 0)

/** checkWorkshop where gears of up to so many teeth may be made: they may reach where those of the box do not. */
export function checkForMaking(x: unknown, made: number): CheckedWorkshop {
  const r = new Reader()
  const { gear, head, size, name } = readers(r)
  const workshop = r.object<Workshop>(x, '', {
    name,
    lathe: (y, q) => checkLathe(r, y, q),
    gears: (y, q) => r.list(y, q, [1, BOUNDS.gears], gear),
    wires: optional((y, q) => r.list(y, q, [0, 100], size)),
    head: optional(head),
  })
  if (workshop) checkTogether(r, workshop, made)
  return workshop && r.problems.length === 0 ? { ok: true, workshop } : { ok: false, problems: r.problems }
}
