import { HAIR } from '../bounds.js'
import type { Kind } from './box.js'

/** How far the chain of meshes could still reach, to leave early the branches that cannot span a fixed distance. */
export interface IdlerReach {
  /** Takes the gears of a set. */
  start(drivers: Int32Array, driven: Int32Array, stages: number): void
  /** Puts an idler in, or with -1 takes it out. */
  add(kind: number, by: 1 | -1): void
  /** Whether so many more idlers cannot bring the chain far enough. */
  short(idlers: number): boolean
  /** The fewest teeth that so many more idlers can have. */
  teethToCome(idlers: number): number
}

/** @param distance mm to span, 0 when nothing is to be spanned */
export function makeIdlerReach(kinds: readonly Kind[], idlers: readonly number[], distance: number): IdlerReach {
  const diameter = Float64Array.from(kinds, ({ gear }) => gear.teeth * gear.module)
  // Of the idlers there are: greatest pitch diameter, fewest teeth, greatest module.
  const widest = Math.max(0, ...idlers.map((k) => diameter[k]))
  const fewest = Math.min(...idlers.map((k) => kinds[k].gear.teeth))
  const coarsest = Math.max(...idlers.map((k) => kinds[k].gear.module))
  /** Half the pitch diameters of the set, the whole ones of the idlers so far. */
  let span = 0
  /** mm that the idlers to come must add. */
  const missing = () => distance - span - HAIR
  return {
    start(drivers, driven, stages) {
      span = 0
      if (distance > 0) for (let i = 0; i < stages; i++) span += (diameter[drivers[i]] + diameter[driven[i]]) / 2
    },
    add(kind, by) {
      span += by * diameter[kind]
    },
    short: (count) => distance > 0 && missing() > count * widest + HAIR,
    teethToCome: (count) => (count === 0 ? 0 : Math.max(count * fewest, missing() / coarsest)),
  }
}
