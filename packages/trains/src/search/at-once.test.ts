import { expect, it } from 'vitest'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { neighbourSpares, tipRadius } from '../../../../bench/plain/clearances.js'
import { box, shop } from '../../../../bench/plain/in-brief.js'
import type { Gear, GearStock, Lathe } from '../contract.js'
import { makeAtOnce } from './at-once.js'
import { type Kind, makeBox } from './box.js'
import { makeRules } from './rules.js'
import type { GearSet } from './settler.js'
import { makeSupply } from './supply.js'

// Two gears of 30, and two that mesh with each other only.
const gears: GearStock[] = [
  ...box(20, 21, 25, 40, 41),
  { teeth: 30, count: 2 },
  { teeth: 24, module: 2 },
  { teeth: 28, module: 2 },
]

/** Every choice of so many gears, kinds ascending, no more of a kind than there are left. */
function choices(counts: readonly number[], size: number, from = 0): number[][] {
  if (size === 0) return [[]]
  return counts.flatMap((count, k) =>
    k < from || count === 0
      ? []
      : choices(
          counts.map((n, i) => n - Number(i === k)),
          size - 1,
          k,
        ).map((rest) => [k, ...rest]),
  )
}

/** The set as third and second entry of two lists whose other entries are of gears that never turn. */
const setOf = (drivers: number[], driven: number[]): GearSet => {
  const size = drivers.length
  const none = Array<number>(size).fill(0)
  const side = (...kinds: number[]) => ({ size, product: new Float64Array(3), kinds: Uint16Array.from(kinds) })
  return { top: side(...none, ...none, ...drivers), p: 2, bottom: side(...none, ...driven, ...none), q: 1 }
}

/** Large drivers first, small driven gears first, the largest gear that is left for an idler, on the first stage. */
function easiest(kinds: readonly Kind[], drivers: number[], driven: number[], idlers: number) {
  const taken = [...drivers, ...driven]
  const left = kinds.filter((kind, k) => kind.count > taken.filter((t) => t === k).length).map(({ gear }) => gear)
  const stages = drivers.map((_, i) => {
    const driver = kinds[drivers[drivers.length - 1 - i]].gear
    return { driver, idlers: [] as Gear[], driven: kinds[driven[i]].gear }
  })
  if (idlers === 0) return stages
  const fit = left.filter((gear) => gear.module === stages[0].driver.module).sort((a, b) => b.teeth - a.teeth)
  if (fit.length === 0) return null
  stages[0].idlers.push(fit[0])
  return stages
}

type Stages = NonNullable<ReturnType<typeof easiest>>

/** Every gear may sit where it does, all that mesh are of one module, and nothing fouls. */
function holds(lathe: Lathe, stages: Stages): boolean {
  const shafts = shaftsOf(stages, lathe.planes ?? 2)
  const meshes = stages.every((s) => new Set([s.driver, ...s.idlers, s.driven].map((g) => g.module)).size === 1)
  return meshes && sits(lathe, stages) && neighbourSpares(lathe, shafts).every((mm) => mm >= 0)
}

const seat = ({ room, fixedGears }: Lathe, shaft: 'input' | 'output', gear: Gear): boolean =>
  tipRadius(gear) <= (room?.[shaft] ?? 1000) && (fixedGears?.[shaft]?.teeth ?? gear.teeth) === gear.teeth
const sits = (lathe: Lathe, stages: Stages): boolean =>
  seat(lathe, 'input', stages[0].driver) && seat(lathe, 'output', stages[stages.length - 1].driven)

interface Tried {
  lathe: Lathe
  stages: Stages | null
  clears: boolean
  drivers: Gear[]
  driven: Gear[]
  hasEnds: boolean
}

/** What is told at once of every set of one to three stages, with no idler and with one. */
function* everySet(parts: Partial<Lathe>, stock = gears): Generator<Tried> {
  const { lathe } = shop(stock, parts)
  const made = makeBox(stock, lathe.fixedGears)
  const { kinds } = made
  const rules = makeRules(lathe, made)
  const largestFirst = Array.from({ length: made.groups }, (_, group) =>
    [...kinds.keys()].filter((k) => kinds[k].group === group).reverse(),
  )
  const supply = makeSupply(made, rules.restricted)
  const { clears, hasEnds } = makeAtOnce(made, rules, supply, largestFirst)
  for (const size of [1, 2, 3]) {
    const counts = kinds.map(({ count }) => count)
    for (const drivers of choices(counts, size)) {
      const rest = counts.map((n, k) => n - drivers.filter((d) => d === k).length)
      for (const driven of choices(rest, size)) {
        const set = setOf(drivers, driven)
        for (const idlers of [0, 1]) {
          // The supply counts the gears of the set as they are walked; here none is.
          yield {
            lathe,
            stages: easiest(kinds, drivers, driven, idlers),
            clears: clears(set, idlers),
            drivers: drivers.map((k) => kinds[k].gear),
            driven: driven.map((k) => kinds[k].gear),
            hasEnds: hasEnds(set),
          }
        }
      }
    }
  }
}

// Tips, shafts and tips in one plane are touched in turn: with 10 mm round a shaft 41:21 just clears the 40, for one, and
// with next to none the tips decide.
it.each<[what: string, parts: Partial<Lathe>]>([
  ['as custom has it', {}],
  ['with 10 mm round each shaft, in three planes', { shaftClearance: 10, planes: 3 }],
  ['with nothing round the shafts', { shaftClearance: 0 }],
  ['with little room at the ends', { shaftClearance: 10, room: { input: 21, output: 16 } }],
  ['with fixed ends', { shaftClearance: 2, fixedGears: { input: { teeth: 41 }, output: { teeth: 30 } } }],
])('a set clears at once if and only if its easiest order holds by plain geometry: %s', (_, parts) => {
  let clear = 0
  let foul = 0
  for (const { lathe, stages, clears } of everySet(parts)) {
    const expected = stages !== null && holds(lathe, stages)
    if (clears !== expected) expect({ stages, clears }).toEqual({ stages, clears: expected })
    if (expected) clear++
    else foul++
  }
  expect(Math.min(clear, foul)).toBeGreaterThan(10)
})

it('needs an idler that the set leaves over', () => {
  for (const { lathe, stages, clears } of everySet({ shaftClearance: 0 }, box(20, 30, 40, 60)))
    expect(clears).toBe(stages !== null && holds(lathe, stages))
})

it.each<Partial<Lathe>>([
  {},
  { room: { input: 21 } },
  { room: { output: 16 } },
  { room: { input: 21 }, fixedGears: { output: { teeth: 30 } } },
])('tells a set with an end for each fixed shaft from one without: %j', (parts) => {
  for (const { lathe, drivers, driven, hasEnds } of everySet(parts, box(20, 30, 40, 41, 60))) {
    const expected = drivers.some((g) => seat(lathe, 'input', g)) && driven.some((g) => seat(lathe, 'output', g))
    if (hasEnds !== expected) expect({ drivers, driven, hasEnds }).toEqual({ drivers, driven, hasEnds: expected })
  }
})

it('leaves gears that may not sit everywhere to the walk', () => {
  const stock: GearStock[] = [...box(20, 30, 40, 50, 60), { teeth: 45, shafts: ['input'] }]
  for (const { clears } of everySet({ shaftClearance: 0 }, stock)) expect(clears).toBe(false)
})
