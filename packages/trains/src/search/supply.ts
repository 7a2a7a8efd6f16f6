import { AT, type Box } from './box.js'

const SETS = 8

/** What the box can still supply while an arrangement is built. */
export interface Supply {
  /** Copies of each kind in the set and among its idlers. */
  used: Int32Array
  left(kind: number): number
  /** Adds copies of a kind to the box, or takes them back. */
  lend(kind: number, copies: number): void
  clear(): void
  /**
   * Takes a copy for a place when the box can supply it beside those already placed: for every set of places, as many
   * gears may sit on one of them as are asked for there (Hall's condition).
   */
  take(kind: number, at: number): boolean
  giveBack(kind: number, at: number): void
  /** Gears in use that are among those mounted. */
  common(mounted: Int32Array): number
}

/** @param restricted kinds of which some gear may not sit everywhere: only they need be matched to places */
export function makeSupply({ kinds }: Box, restricted: Uint8Array): Supply {
  const used = new Int32Array(kinds.length)
  const placed = new Int32Array(kinds.length * SETS)
  const counts = Int32Array.from(kinds, (k) => k.count)
  const any = restricted.includes(1)
  return {
    used,
    left: (kind) => counts[kind] - used[kind],
    lend(kind, copies) {
      counts[kind] += copies
      const { reach } = kinds[kind]
      for (let s = 1; s < SETS; s++) reach[s] += copies
    },
    clear() {
      if (any) placed.fill(0)
    },
    take(kind, at) {
      if (!restricted[kind]) return true
      const { reach } = kinds[kind]
      const o = kind * SETS
      placed[o + at]++
      for (let s = 1; s < SETS; s++) {
        if (!(s & at)) continue
        let demand = 0
        for (let one = AT.input; one <= AT.output; one *= 2) if (s & one) demand += placed[o + one]
        if (demand > reach[s]) {
          placed[o + at]--
          return false
        }
      }
      return true
    },
    giveBack(kind, at) {
      if (restricted[kind]) placed[kind * SETS + at]--
    },
    common(mounted) {
      let common = 0
      for (let k = 0; k < mounted.length; k++) common += Math.min(used[k], mounted[k])
      return common
    },
  }
}
