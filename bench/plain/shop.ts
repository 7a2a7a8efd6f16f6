import { exactly, parsePitch, parseRatio, toNumber } from '@trainwright/measures'
import type { FixedDrive, Gear, GearRef, GearStock, ShaftName, Workshop } from '@trainwright/trains'
import { compareFractions, equal, type Fraction, fraction, fromRational, over, times, toRational } from './fraction.js'

/** All gears of the box that are alike in teeth, module and pressure angle. */
export interface Kind {
  teeth: number
  module: Fraction
  /** Place of the module among the box's modules, smallest first: compares exactly, as a plain number. */
  moduleRank: number
  gear: Gear
  owned: number
  stock: { count: number; shafts: readonly ShaftName[] }[]
}

/** One choice of drive and one of gearbox. */
export interface Setting {
  drive: number
  gearbox: number
  /** Drive ratio x gearbox ratio. */
  ratio: Fraction
  /** How many of the two reverse. */
  reverses: number
  plainBelt: boolean
}

/** A workshop read once: exact numbers, and every default filled in. */
export interface Shop {
  workshop: Workshop
  kinds: Kind[]
  settings: Setting[]
  /** Leadscrew pitch, mm. */
  leadscrew: Fraction
  approximate: boolean
  studs: number
  planes: number
  fixed: { input: Kind | null; output: Kind | null }
}

const everywhere: readonly ShaftName[] = ['input', 'stud', 'output']
const one: FixedDrive[] = [{ ratio: 1 }]

export const moduleOf = ({ module, dp }: Pick<GearStock, 'module' | 'dp'>): Fraction =>
  dp === undefined ? fromRational(exactly(module ?? 1)) : over(fraction(254, 10), fromRational(exactly(dp)))

function readKinds(gears: readonly GearStock[]): Kind[] {
  const kinds: Kind[] = []
  for (const entry of gears) {
    const module = moduleOf(entry)
    const pressureAngle = entry.pressureAngle ?? 20
    const known = kinds.find(
      (k) => k.teeth === entry.teeth && equal(k.module, module) && k.gear.pressureAngle === pressureAngle,
    )
    const gear: Gear = { teeth: entry.teeth, module: toNumber(toRational(module)), pressureAngle }
    const kind = known ?? { teeth: entry.teeth, module, moduleRank: 0, gear, owned: 0, stock: [] }
    if (!known) kinds.push(kind)
    if (entry.dp !== undefined) kind.gear.dp = entry.dp
    const count = entry.count ?? 1
    kind.owned += count
    kind.stock.push({ count, shafts: entry.shafts ?? everywhere })
  }
  kinds.sort(
    (a, b) => a.teeth - b.teeth || compareFractions(a.module, b.module) || a.gear.pressureAngle - b.gear.pressureAngle,
  )
  const modules = kinds.map((k) => k.module).sort(compareFractions)
  for (const kind of kinds) kind.moduleRank = modules.findIndex((m) => equal(m, kind.module))
  return kinds
}

/** The kind that a reference names, or null when it names none or could name several. */
export function resolve(kinds: readonly Kind[], ref: GearRef): Kind | null {
  const angle = ref.pressureAngle
  const withTeeth = kinds.filter(
    (k) => k.teeth === ref.teeth && (angle === undefined || k.gear.pressureAngle === angle),
  )
  const ofModule = (mm: number): Kind[] =>
    withTeeth.filter((k) => equal(k.module, fromRational(exactly(mm))) || k.gear.module === mm)
  const inModule1 = ofModule(1)
  const named = ref.module !== undefined ? ofModule(ref.module) : inModule1.length > 0 ? inModule1 : withTeeth
  return named.length === 1 ? named[0] : null
}

function readSettings(drives: readonly FixedDrive[], gearbox: readonly FixedDrive[]): Setting[] {
  return drives.flatMap((drive, i) =>
    gearbox.map((box, j) => ({
      drive: i,
      gearbox: j,
      ratio: times(fromRational(parseRatio(drive.ratio)), fromRational(parseRatio(box.ratio))),
      reverses: Number(drive.reverses ?? false) + Number(box.reverses ?? false),
      plainBelt: drive.belt === 'plain' || box.belt === 'plain',
    })),
  )
}

/** Reads a workshop that is known to be sound. */
export function readShop(workshop: Workshop): Shop {
  const { lathe } = workshop
  const kinds = readKinds(workshop.gears)
  const pitch = parsePitch(lathe.leadscrew.pitch)
  const fixed = (ref: GearRef | undefined): Kind | null => {
    const kind = ref === undefined ? null : resolve(kinds, ref)
    if (ref !== undefined && kind === null)
      throw new Error(`the fixed gear of ${ref.teeth} teeth is not one in the box`)
    return kind
  }
  return {
    workshop,
    kinds,
    settings: readSettings(lathe.drives ?? one, lathe.gearbox ?? one),
    leadscrew: fromRational(pitch.mm),
    approximate: pitch.approximate,
    studs: lathe.studs ?? 2,
    planes: lathe.planes ?? 2,
    fixed: { input: fixed(lathe.fixedGears?.input), output: fixed(lathe.fixedGears?.output) },
  }
}
