import { AT, type Box } from './box.js'

const SETS = 8

/** What the box can still supply while an arrangement is built. */
export class Supply {
  /** Copies of each kind in the set and among its idlers. */
  readonly used: Int32Array
  private readonly placed: Int32Array
  private readonly counts: Int32Array
  private readonly any: boolean

  constructor(
    private readonly box: Box,
    /** Kinds of which some gear may not sit everywhere: only they need be matched to places. */
    readonly restricted: Uint8Array,
  ) {
    this.used = new Int32Array(box.kinds.length)
    this.placed = new Int32Array(box.kinds.length * SETS)
    this.counts = Int32Array.from(box.kinds, (k) => k.count)
    this.any = restricted.includes(1)
  }

  left(kind: number): number {
    return this.counts[kind] - this.used[kind]
  }

  lend(kind: number, copies: number): void {
    this.counts[kind] += copies
    const { reach } = this.box.kinds[kind]
    for (let s = 1; s < SETS; s++) reach[s] += copies
  }

  clear(): void {
    if (this.any) this.placed.fill(0)
  }

  /**
   * Takes a copy for a place when the box can supply it beside those already placed: for every set of places, as many
   * gears may sit on one of them as are asked for there (Hall's condition).
   */
  take(kind: number, at: number): boolean {
    if (this.restricted[kind] === 0) return true
    const { placed } = this
    const { reach } = this.box.kinds[kind]
    const o = kind * SETS
    placed[o + at]++
    for (let s = 1; s < SETS; s++) {
      if (!(s & at)) continue
      let demand = 0
      if (s & AT.input) demand += placed[o + AT.input]
      if (s & AT.stud) demand += placed[o + AT.stud]
      if (s & AT.output) demand += placed[o + AT.output]
      if (demand > reach[s]) {
        placed[o + at]--
        return false
      }
    }
    return true
  }

  giveBack(kind: number, at: number): void {
    if (this.restricted[kind] !== 0) this.placed[kind * SETS + at]--
  }

  /** Gears in use that are among those mounted. */
  common(mounted: Int32Array): number {
    let common = 0
    for (let k = 0; k < mounted.length; k++) common += Math.min(this.used[k], mounted[k])
    return common
  }
}
