import { compare, divide, exactly, INCH, type Rational, rational, toNumber } from '@trainwright/measures'
import type { Gear, GearRef, GearStock, Lathe, ShaftName } from '../contract.js'

/** Shafts as bits: where a gear may sit. */
export const AT = { input: 1, stud: 2, output: 4 } as const
const EVERYWHERE = 7

/** One kind of gear: all gears of equal teeth, module and pressure angle, which are the same to the arithmetic. */
export interface Kind {
  gear: Gear
  /** Exact module in mm. */
  module: Rational
  /** Kinds of one group mesh with each other: same module and pressure angle. */
  group: number
  count: number
  /** reach[S]: how many gears of the kind may sit on at least one of the shafts of the bit set S. */
  reach: number[]
  /** Some gear of the kind may not sit everywhere. */
  restricted: boolean
}

export interface Box {
  /** By teeth, then module, then pressure angle. */
  kinds: Kind[]
  /** Index of the kind that stays on the shaft, or -1. */
  fixed: { input: number; output: number }
  groups: number
}

type AnyGear = Pick<GearStock, 'teeth' | 'module' | 'dp' | 'pressureAngle'>

const ONE = rational(1)
/** The exact module: 25.4 / dp for an inch gear, else the decimal that the number prints; default 1. */
export const moduleOf = (g: AnyGear): Rational =>
  g.dp !== undefined ? divide(INCH, exactly(g.dp)) : g.module === undefined ? ONE : exactly(g.module)
const angleOf = (g: AnyGear): number => g.pressureAngle ?? 20

/** A gear as answers show it. */
export function gearOf(g: AnyGear, exact = moduleOf(g)): Gear {
  const { teeth, dp } = g
  const module = toNumber(exact)
  return dp === undefined
    ? { teeth, module, pressureAngle: angleOf(g) }
    : { teeth, module, dp, pressureAngle: angleOf(g) }
}

/** Whether a ref with this module means the gear: exactly, or as the double that answers show for a dp gear. */
const sameModule = (module: number, g: AnyGear): boolean =>
  compare(exactly(module), moduleOf(g)) === 0 || module === toNumber(moduleOf(g))

/**
 * The gears that a ref names: those of its module; without one, module 1 where there is such, else the only module with
 * these teeth; 'several' when they differ in module or pressure angle. A ref that came out of an answer may carry dp and pressure angle, which are heeded.
 */
export function resolve<T extends AnyGear>(ref: GearRef & AnyGear, stock: readonly T[]): T[] | 'none' | 'several' {
  const { dp, module, pressureAngle } = ref
  const named = stock.filter(
    (g) =>
      g.teeth === ref.teeth &&
      (dp === undefined || compare(moduleOf(ref), moduleOf(g)) === 0) &&
      (dp !== undefined || module === undefined || sameModule(module, g)) &&
      (pressureAngle === undefined || pressureAngle === angleOf(g)),
  )
  if (named.length === 0) return 'none'
  const plain = module === undefined ? named.filter((g) => sameModule(1, g)) : []
  const kept = plain.length > 0 ? plain : named
  const first = kept[0]
  const alike = (g: T) => compare(moduleOf(g), moduleOf(first)) === 0 && angleOf(g) === angleOf(first)
  return kept.every(alike) ? kept : 'several'
}

const maskOf = (shafts: readonly ShaftName[] | undefined): number =>
  shafts === undefined ? EVERYWHERE : shafts.reduce((mask, s) => mask | AT[s], 0)

interface Entry extends AnyGear {
  mask: number
  count: number
}

/** What gears that mesh with each other have alike. */
const groupKeyOf = ({ n, d }: Rational, g: AnyGear): string => `${n}/${d} ${angleOf(g)}`
/** What the gears of one kind have alike. */
const keyOf = (teeth: number, groupKey: string): string => `${teeth} ${groupKey}`

/** Sorts a checked stock into kinds. Any order of the stock gives the same box. */
export function makeBox(gears: readonly GearStock[], fixedGears: Lathe['fixedGears']): Box {
  const entries: Entry[] = gears.map((g) => ({ ...g, count: g.count ?? 1, mask: maskOf(g.shafts) }))
  // Of one making from the first: the engine drops what it compiled for kinds when it meets others that were copied.
  const kinds: Kind[] = []
  const byKey = new Map<string, Kind>()
  const groups = new Map<string, number>()
  for (const entry of entries) {
    const module = moduleOf(entry)
    const groupKey = groupKeyOf(module, entry)
    const key = keyOf(entry.teeth, groupKey)
    let kind = byKey.get(key)
    if (!kind) {
      if (!groups.has(groupKey)) groups.set(groupKey, groups.size)
      const group = groups.get(groupKey)!
      kind = { gear: gearOf(entry, module), module, group, count: 0, reach: Array(8).fill(0), restricted: false }
      byKey.set(key, kind)
      kinds.push(kind)
    }
    // A gear given by dp shows it, whichever of equal entries came first.
    if (entry.dp !== undefined) kind.gear = gearOf(entry, module)
    kind.count += entry.count
    if (entry.mask !== EVERYWHERE && entry.count > 0) kind.restricted = true
    for (let s = 1; s < 8; s++) if (entry.mask & s) kind.reach[s] += entry.count
  }
  kinds.sort(
    (a, b) => a.gear.teeth - b.gear.teeth || compare(a.module, b.module) || a.gear.pressureAngle - b.gear.pressureAngle,
  )
  // Every train has the fixed gear at its end, so that no copy need be kept for it.
  const indexOf = (ref: GearRef | undefined) => {
    const found = ref && resolve(ref, entries)
    if (!found || typeof found === 'string') return -1
    const [gear] = found
    return kinds.indexOf(byKey.get(keyOf(gear.teeth, groupKeyOf(moduleOf(gear), gear)))!)
  }
  return {
    kinds,
    fixed: { input: indexOf(fixedGears?.input), output: indexOf(fixedGears?.output) },
    groups: groups.size,
  }
}
