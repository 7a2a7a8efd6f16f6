import type { Gear, ShaftGears, ShaftName } from '@trainwright/trains'
import type { GearSet } from './gear-sets.js'
import type { Kind } from './shop.js'

export interface KindStage {
  driver: Kind
  /** From driver to driven. */
  idlers: Kind[]
  driven: Kind
}

/** `items` in every different order; equal items are not told apart. */
export function orders<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]]
  return [...new Set(items)].flatMap((first) => {
    const rest = [...items]
    rest.splice(rest.indexOf(first), 1)
    return orders(rest).map((order) => [first, ...order])
  })
}

/** Every way to write `total` as `parts` whole numbers, zeros included, in order. */
export function compositions(total: number, parts: number): number[][] {
  if (parts === 1) return [[total]]
  return Array.from({ length: total + 1 }, (_, first) => first).flatMap((first) =>
    compositions(total - first, parts - 1).map((rest) => [first, ...rest]),
  )
}

/** Meshing gears share module and pressure angle, exactly. */
export const canMesh = (a: Kind, b: Kind): boolean =>
  a.moduleRank === b.moduleRank && a.gear.pressureAngle === b.gear.pressureAngle

/** One choice from each list, in every way. */
function* choices<T>(lists: readonly (readonly T[])[]): Generator<T[]> {
  if (lists.length === 0) {
    yield []
    return
  }
  for (const first of lists[0]) for (const rest of choices(lists.slice(1))) yield [first, ...rest]
}

/** Every run of `length` kinds, in every order, none more often than `left` allows. */
const runs = (kinds: readonly Kind[], length: number, left: (kind: Kind) => number): Kind[][] =>
  length === 0
    ? [[]]
    : kinds
        .filter((kind) => left(kind) > 0)
        .flatMap((kind) => runs(kinds, length - 1, (k) => left(k) - Number(k === kind)).map((rest) => [kind, ...rest]))

/**
 * Every arrangement of a set with `idlers` idlers in it whose meshing gears fit each other: which driver meets which
 * driven gear, in which order, with which idlers where. The lathe is not looked at, and the stock only so far that no
 * run of idlers takes more of a kind than the set leaves.
 */
export function* arrangements(
  { drivers, driven }: Pick<GearSet, 'drivers' | 'driven'>,
  idlers: number,
  kinds: readonly Kind[],
): Generator<KindStage[]> {
  const size = drivers.length
  const left = (kind: Kind): number => kind.owned - [...drivers, ...driven].filter((k) => k === kind).length
  const studded = kinds.filter((kind) => kind.stock.some(({ shafts }) => shafts.includes('stud')))
  for (const first of orders(drivers)) {
    for (const second of orders(driven)) {
      if (first.some((driver, k) => !canMesh(driver, second[k]))) continue
      for (const numbers of compositions(idlers, size)) {
        const idlerRuns = numbers.map((number, k) => {
          const fitting = studded.filter((kind) => canMesh(kind, first[k]))
          return runs(fitting, number, left)
        })
        for (const chosen of choices(idlerRuns)) {
          yield first.map((driver, k) => ({ driver, idlers: chosen[k], driven: second[k] }))
        }
      }
    }
  }
}

/** The gears along the train: driver 1, its idlers, driven 1, driver 2 and so on. */
export const reading = (stages: readonly KindStage[]): Kind[] =>
  stages.flatMap(({ driver, idlers, driven }) => [driver, ...idlers, driven])

/**
 * The shafts of an arrangement, input first. On each shaft the gears stand in the order of the train, so the last gear
 * of a shaft meshes with the first of the next. Stage k lies in plane ((k - 1) mod planes) + 1, idlers with it.
 */
export function shaftsOf<T = Gear>(
  stages: readonly { driver: T; idlers: readonly T[]; driven: T }[],
  planes: number,
): (Omit<ShaftGears, 'gears'> & { gears: { gear: T; plane: number }[] })[] {
  const shafts: { shaft: ShaftName; gears: { gear: T; plane: number }[] }[] = [{ shaft: 'input', gears: [] }]
  stages.forEach(({ driver, idlers, driven }, k) => {
    const plane = (k % planes) + 1
    shafts[shafts.length - 1].gears.push({ gear: driver, plane })
    for (const gear of [...idlers, driven]) shafts.push({ shaft: 'stud', gears: [{ gear, plane }] })
  })
  shafts[shafts.length - 1].shaft = 'output'
  return shafts
}
