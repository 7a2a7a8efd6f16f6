import { parseLength, parsePitch, parseRatio, toNumber } from '@trainwright/measures'
import { banjo } from './banjo/check-banjo.js'
import { BOUNDS, FAR } from './bounds.js'
import { dp, gearModule, gearRef, hand, pressureAngle, teeth } from './check-fields.js'
import type { CheckedWorkshop, FixedDrive, GearRef, GearStock, Head, Lathe, Workshop } from './contract.js'
import {
  isObject,
  list,
  number,
  object,
  oneOf,
  optional,
  own,
  parsed,
  positive,
  Reader,
  sound,
  text,
  whole,
  yesNo,
} from './reader.js'
import { moduleOf, resolve } from './search/box.js'
import { PLAY } from './search/rules.js'

const size = positive(FAR)
const name = optional(text(BOUNDS.nameLength))

const stock = object<GearStock>(
  {
    teeth,
    count: optional(whole(1, BOUNDS.gears)),
    module: gearModule,
    dp,
    pressureAngle,
    shafts: optional(list(oneOf('input', 'stud', 'output'), 1, 3)),
  },
  (r, { module, dp }, path) => {
    if (module !== undefined && dp !== undefined) r.refuse(path, 'module-and-dp')
  },
)

const studs = whole(0, BOUNDS.studs)

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

/** Reads a lathe alone, and what its parts must be together. */
export const lathe = object<Lathe>(
  {
    leadscrew: object<Lathe['leadscrew']>({ pitch: parsed(parsePitch), hand }),
    drives,
    gearbox: drives,
    studs: optional(studs),
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
  },
  (r, { drives, gearbox }, path, x) => {
    const settings = (drives?.length ?? 1) * (gearbox?.length ?? 1)
    if (settings > BOUNDS.settings) r.refuse(`${path}.drives`, 'too-many-settings', settings)
    if (own(x, 'banjo') !== undefined && own(x, 'centreDistance') === undefined)
      r.refuse(`${path}.centreDistance`, 'needs-centre-distance')
  },
)

const workshop = object<Workshop>({
  name,
  lathe,
  gears: list(stock, 1, BOUNDS.gears),
  wires: optional(list(size, 0, 100)),
  head: optional(object<Head>({ worm: whole(1, 10_000), plates: list(list(whole(1, 10_000), 0, 100), 0, 50) })),
})

/** Of a gear yet to be made: its teeth, and its module where one is asked for. */
export interface Made {
  teeth: number
  module?: number | undefined
}

/** What of a workshop is looked at together; of a refused one, what is sound. */
interface Together {
  gears: readonly GearStock[]
  /** Teeth of gears that were refused. */
  refused: readonly unknown[]
  fixed: { input?: GearRef | undefined; output?: GearRef | undefined }
  lathe: { [K in 'banjo' | 'centreDistance' | 'studs']?: Lathe[K] | undefined }
}

function soundOf(x: unknown): Together {
  const part = (x: unknown, key: string) => (isObject(x) ? own(x, key) : undefined)
  const raw = sound(
    list<unknown>((_r, gear) => gear ?? null, 0, BOUNDS.gears),
    part(x, 'gears'),
  )
  const at = part(x, 'lathe')
  const fixed = (shaft: string) => sound(gearRef, part(part(at, 'fixedGears'), shaft))
  return {
    gears: raw?.flatMap((gear) => sound(stock, gear) ?? []) ?? [],
    refused: raw?.filter((gear) => !sound(stock, gear)).map((gear) => part(gear, 'teeth')) ?? [],
    fixed: raw ? { input: fixed('input'), output: fixed('output') } : {},
    lathe: {
      banjo: sound(banjo, part(at, 'banjo')),
      centreDistance: sound(size, part(at, 'centreDistance')),
      studs: sound(studs, part(at, 'studs')),
    },
  }
}

function checkTogether(r: Reader, together: Together, made?: Made): void {
  const total = together.gears.reduce((sum, g) => sum + (g.count ?? 1), 0)
  if (total > BOUNDS.gears) r.refuse('gears', 'too-many-gears', total)
  checkFixedGears(r, together)
  if (together.refused.length === 0 && together.gears.length > 0) checkReach(r, together, made)
}

/** A banjo on which no mesh of the box can bring a stud to the far shaft, or to the pivot, is measured wrongly. */
function checkReach(r: Reader, { gears, lathe: { banjo, centreDistance = 0, studs } }: Together, made?: Made): void {
  if (!banjo || studs === 0) return
  const modules = gears.map((g) => toNumber(moduleOf(g)))
  const radii = gears.map((g, i) => modules[i] * (g.teeth + PLAY))
  if (made) radii.push((made.module ?? Math.max(...modules)) * (made.teeth + PLAY))
  const largest = Math.max(0, ...radii)
  const ends = banjo.slots.map(({ offset = 0, from, to }) => [from, to].map((along) => Math.hypot(along, offset)))
  const furthest = Math.max(...ends.map(([, far]) => far))
  const nearest = Math.min(...ends.map(([near]) => near))
  const mm = (x: number) => x.toFixed(1)
  if (centreDistance - furthest > largest) {
    const told = `shafts are ${mm(centreDistance)} mm apart, slots end ${mm(furthest)} mm from the pivot, and the widest mesh spans ${mm(largest)} mm`
    r.refuse('lathe.banjo.slots', 'out-of-reach', told)
  } else if (nearest > largest && centreDistance > largest) {
    const told = `slots start ${mm(nearest)} mm from the pivot, and the widest mesh spans ${mm(largest)} mm`
    r.refuse('lathe.banjo.slots', 'out-of-reach', told)
  }
}

function checkFixedGears(r: Reader, { gears, refused, fixed }: Together): void {
  const able = new Set<GearStock>()
  for (const shaft of ['input', 'output'] as const) {
    const ref = fixed[shaft]
    // A gear that was refused may be the one.
    if (!ref || refused.includes(ref.teeth)) continue
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
export const checkWorkshop = (x: unknown): CheckedWorkshop => checkForMaking(x)

/** checkWorkshop where a gear may be made: it may reach where those of the box do not. */
export function checkForMaking(x: unknown, made?: Made): CheckedWorkshop {
  const r = new Reader()
  const read = workshop(r, x, '')
  checkTogether(r, read ? { ...read, refused: [], fixed: read.lathe.fixedGears ?? {} } : soundOf(x), made)
  return read && r.problems.length === 0 ? { ok: true, workshop: read } : { ok: false, problems: r.problems }
}
