import type { ShaftName } from '@trainwright/trains'
import { type KindStage, shaftsOf } from './arrangements.js'
import type { Kind } from './shop.js'

/** Whether copies of one kind, each allowed on some shafts only, can fill all `places` at once: tried one by one. */
export function canFill(places: readonly ShaftName[], stock: Kind['stock']): boolean {
  if (places.length === 0) return true
  return stock.some(
    (entry) =>
      entry.count > 0 &&
      entry.shafts.includes(places[0]) &&
      canFill(
        places.slice(1),
        stock.map((e) => (e === entry ? { ...e, count: e.count - 1 } : e)),
      ),
  )
}

/**
 * Whether the box supplies every gear of an arrangement at once. A fixed gear needs no place of its own here: it is
 * the first driver (or the last driven gear) of every mountable train, so its copy is among the places to fill.
 */
export function canSupply(stages: readonly KindStage[]): boolean {
  const places = new Map<Kind, ShaftName[]>()
  for (const { shaft, gears } of shaftsOf<Kind>(stages, 1)) {
    for (const { gear } of gears) places.set(gear, [...(places.get(gear) ?? []), shaft])
  }
  return [...places].every(([kind, wanted]) => wanted.length <= kind.owned && canFill(wanted, kind.stock))
}
