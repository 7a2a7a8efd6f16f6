import type { Box } from './box.js'
import { type Rules, TIP_GAP } from './rules.js'
import type { GearSet } from './settler.js'
import type { Supply } from './supply.js'

/** What can be told of a gear set without a walk through its arrangements. */
export interface AtOnce {
  /** Whether some driver may sit on the input shaft and some driven gear on the output shaft. */
  hasEnds(set: GearSet): boolean
  /**
   * Whether the order that clears most easily holds: large drivers first, small driven gears first, the one idler (or
   * none) in the first stage. It nearly always does. The shafts are taken to stand wherever the meshes put them.
   */
  clears(set: GearSet, idlers: number): boolean
}

/** @param largestFirst kinds that may be idlers, by group, descending */
export function makeAtOnce(box: Box, rules: Rules, supply: Supply, largestFirst: readonly number[][]): AtOnce {
  const { may, centre, count, need, tip, anyRestricted, pairsShareAPlane } = rules
  const group = Int32Array.from(box.kinds, (kind) => kind.group)
  /** Every kind may sit on the input shaft and on the output shaft. */
  const anyEnds = !may.input.includes(0) && !may.output.includes(0)

  function hasEnds({ top, p, bottom, q }: GearSet): boolean {
    if (anyEnds) return true
    const { size } = top
    let first = 0
    let last = 0
    for (let i = 0; i < size; i++) {
      first |= may.input[top.kinds[p * size + i]]
      last |= may.output[bottom.kinds[q * size + i]]
    }
    return (first & last) === 1
  }

  function clears(set: GearSet, idlers: number): boolean {
    // Where none is restricted, all may sit on a stud.
    if (anyRestricted) return false
    const { top, p, bottom, q } = set
    const { size, kinds } = top
    const driven = bottom.kinds
    let last = kinds[p * size + size - 1]
    let next = driven[q * size]
    if (!may.input[last] || !may.output[driven[q * size + size - 1]]) return false
    if (idlers === 1) {
      last = largestLeft(group[last], set)
      if (last < 0) return false
    }
    let distance = centre[last * count + next]
    if (size === 1) return distance >= 0
    // Gears that cannot mesh stand at -1, which is less than any need: that is looked at with the rest.
    let before = next
    last = kinds[p * size + size - 2]
    if (distance < need[last]) return false
    for (let stage = 1; ; stage++) {
      next = driven[q * size + stage]
      distance = centre[last * count + next]
      if (distance < need[before]) return false
      if (stage === size - 1) return true
      last = kinds[p * size + size - 2 - stage]
      if (distance < need[last]) return false
      if (pairsShareAPlane && distance < tip[before] + tip[last] + TIP_GAP) return false
      before = next
    }
  }

  /** The largest idler of a group that the set leaves over, or -1. */
  function largestLeft(mesh: number, { top, p, bottom, q }: GearSet): number {
    const { size } = top
    const list = largestFirst[mesh]
    for (let n = 0; n < list.length; n++) {
      const kind = list[n]
      let left = supply.left(kind)
      // The gears of a side ascend: whether one of the largest is among them is mostly told by the last.
      for (let i = p * size + size - 1; i >= p * size && top.kinds[i] >= kind; i--) if (top.kinds[i] === kind) left--
      for (let i = q * size + size - 1; i >= q * size && bottom.kinds[i] >= kind; i--)
        if (bottom.kinds[i] === kind) left--
      if (left > 0) return kind
    }
    return -1
  }

  return { hasEnds, clears }
}
