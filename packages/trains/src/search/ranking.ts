import { type Arrangement, compareArrangements } from './arrangement.js'
import type { Kind } from './box.js'
import type { FixedRatio } from './question.js'
import type { GearSet, Settler } from './settler.js'

export type Order = 'fewest gears' | 'closest'

/** How far a ratio is off: its products of teeth, and |lead / wanted lead - 1| as a double, for a first look. */
export interface Off {
  ratio: FixedRatio
  drivers: number
  driven: number
  size: number
}

/** A mountable gear set as the ranking holds it: cheap, with what its place depends on first. */
export interface Candidate extends GearSet, Off {
  gears: number
}

export interface Ranked extends Candidate {
  arrangement: Arrangement
}

export const sizeOf = (ratio: FixedRatio, drivers: number, driven: number): number =>
  Math.abs((ratio.value * drivers) / driven - 1)

/** Doubles of error sizes further apart than this are in the right order; nearer ones are compared exactly. */
const CLOSE = 1e-13

/** |error| as an exact fraction: | n P - d Q | / d Q. */
function exactSize({ drivers, driven, ratio }: Off): [bigint, bigint] {
  const below = ratio.d * BigInt(driven)
  const over = ratio.n * BigInt(drivers) - below
  return [over < 0n ? -over : over, below]
}

/** Negative, zero or positive as a is less, equally or more off than b, exactly. */
export function compareErrors(a: Off, b: Off): number {
  const rough = a.size - b.size
  if (Math.abs(rough) > CLOSE) return rough
  if (a.ratio === b.ratio) {
    // Mostly the same ratio of other gears. Equal products are equal exactly as long as doubles hold them.
    const cross = a.drivers * b.driven
    if (cross === b.drivers * a.driven && cross <= Number.MAX_SAFE_INTEGER) return 0
  }
  const [an, ad] = exactSize(a)
  const [bn, bd] = exactSize(b)
  const [left, right] = [an * bd, bn * ad]
  return left < right ? -1 : left > right ? 1 : 0
}

/** Keeps the best of a stream of candidates: bounded in memory however many come. */
export class Ranking {
  private pool: Candidate[] = []
  private room: number
  /** What is turned away: more gears than these, and, from so many gears on, sizes larger than this. */
  private mostGears = Number.POSITIVE_INFINITY
  private fromGears = 0
  private largest = Number.POSITIVE_INFINITY

  constructor(
    private readonly limit: number,
    private readonly order: Order,
    private readonly settler: Settler,
    private readonly kinds: readonly Kind[],
  ) {
    this.room = 4 * limit + 60
  }

  private compare(a: Candidate, b: Candidate): number {
    return this.order === 'closest'
      ? compareErrors(a, b) || a.gears - b.gears
      : a.gears - b.gears || compareErrors(a, b)
  }

  offer(set: Readonly<GearSet>, ratio: FixedRatio, gears: number): void {
    // Most are turned away here, before anything is worked out.
    if (gears > this.mostGears) return
    const { top, p, bottom, q } = set
    const drivers = top.product[p]
    const driven = bottom.product[q]
    const size = sizeOf(ratio, drivers, driven)
    if (size > this.largest && gears >= this.fromGears) return
    this.pool.push({ top, p, bottom, q, ratio, gears, drivers, driven, size })
    if (this.pool.length >= this.room) this.cull()
  }

  /** Drops what cannot come among the best. Ties stay: what parts them is not known yet, unless they grow too many. */
  private cull(): void {
    if (this.limit === 0) this.pool = []
    if (this.pool.length <= this.limit) return
    this.pool.sort((a, b) => this.compare(a, b))
    const bar = this.pool[this.limit - 1]
    let end = this.limit
    while (end < this.pool.length && this.compare(this.pool[end], bar) === 0) end++
    this.pool.length = end
    this.largest = bar.size + CLOSE
    if (this.order !== 'closest') this.mostGears = this.fromGears = bar.gears
    if (end * 2 < this.room) return
    // Mostly ties: part them now, so that the pool stays bounded.
    this.pool = this.best()
    this.room = Math.max(this.room, 4 * this.pool.length)
  }

  /** The leading candidates, ties beyond the limit among them. */
  leading(): readonly Candidate[] {
    this.cull()
    return this.pool
  }

  get empty(): boolean {
    return this.pool.length === 0
  }

  /** The best, in order, each with its best arrangement. */
  best(): Ranked[] {
    const { limit, kinds, settler } = this
    const pool = this.pool.sort((a, b) => this.compare(a, b))
    const ranked: Ranked[] = []
    for (let start = 0; start < pool.length && ranked.length < limit; ) {
      let end = start + 1
      while (end < pool.length && this.compare(pool[start], pool[end]) === 0) end++
      const wanted = limit - ranked.length
      const tied: Ranked[] = []
      for (const candidate of pool.slice(start, end)) {
        const worst = tied.length === wanted ? tied[wanted - 1].arrangement : null
        const arrangement = settler.best(candidate, candidate.ratio, candidate.gears, worst)
        if (!arrangement) continue
        if (tied.length === wanted) tied.pop()
        const one = { ...candidate, arrangement }
        let at = tied.length
        while (at > 0 && compareArrangements(arrangement, tied[at - 1].arrangement, kinds) < 0) at--
        tied.splice(at, 0, one)
      }
      ranked.push(...tied)
      start = end
    }
    return ranked
  }
}
