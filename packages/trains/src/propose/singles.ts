import { atLeastTooMany, LARGEST_TABLE, pairsWithin, type Refusal, refusalOf } from '../search/engine.js'
import type { Question } from '../search/question.js'
import { compareErrors } from '../search/ranking.js'
import { tableLength } from '../search/table.js'
import { eachHit, type Half, type Hit, halfLength, makeHalf } from './hits.js'
import type { MadeBox } from './made-box.js'

/** Gears made among drivers and among driven gears, when one gear is made. */
const SINGLE = [
  [0, 0],
  [1, 0],
  [0, 1],
]
/** What a second one adds. */
const PAIRED = [
  [2, 0],
  [1, 1],
  [0, 2],
]
/** Hits that are held at once: past these, what they open is found before more are looked at. */
const HELD = 500_000

/** What the settling of hits needs, worked out once for all threads. */
export class Workbench {
  private readonly halves = new Map<string, Half | null>()
  private readonly mayRepeat: ReadonlySet<number>

  constructor(
    readonly box: MadeBox,
    readonly stages: number,
  ) {
    const { fixed } = box.bench.box
    this.mayRepeat = new Set([fixed.input, fixed.output])
  }

  private half(stages: number, made: number): Half | null {
    const key = `${stages} ${made}`
    let half = this.halves.get(key)
    if (half === undefined) {
      half = makeHalf(this.box, stages, made)
      this.halves.set(key, half)
    }
    return half
  }

  /** Null when the hits of a question are within bounds; else how many there are, and the stages that would do. */
  tooMany({ ratios, tolerance }: Question, make: 1 | 2 = 1): Refusal | null {
    const { kindOf, bench } = this.box
    const { kinds } = bench.box
    const sides = make === 2 ? [...SINGLE, ...PAIRED] : SINGLE
    const lengths = (s: number, side: readonly number[]) =>
      side.map((made) => halfLength(kinds, kindOf.length, s, made))
    const all = (s: number, side: readonly number[]) => lengths(s, side).reduce((a, b) => a * b)
    const count = (s: number, side: readonly number[]): number => {
      if (all(s, side) === 0) return 0
      if (Math.max(...lengths(s, side)) > LARGEST_TABLE) {
        // In proportion as many as of the owned ones.
        const owned = bench.tables.pairs(s, ratios, tolerance) / Math.max(1, tableLength(kinds, s) ** 2)
        return atLeastTooMany(owned * all(s, side))
      }
      const [top, below] = side.map((made) => this.half(s, made)!)
      return pairsWithin(top.product, below.product, ratios, tolerance)
    }
    const sum = (of: typeof all) => (s: number) => sides.reduce((total, side) => total + of(s, side), 0)
    return refusalOf(this.stages, (s) => ratios.length * sum(all)(s), sum(count))
  }

  /** Shows all hits with so many gears made on each side. */
  hits(question: Question, onTop: number, below: number, visit: (hit: Hit) => void): void {
    for (let s = Math.max(1, onTop, below); s <= this.stages; s++) {
      const top = this.half(s, onTop)
      const bottom = this.half(s, below)
      if (top && bottom && question.ratios.some((r) => this.box.settler.possible(s, r))) {
        eachHit(question, top, bottom, visit)
      }
    }
  }

  /** No gear on both sides of a compound train (but for fixed gears), and no more of a kind than there are with `lent` made. */
  private supplied({ top, p, bottom, q }: Hit, lent: readonly number[]): boolean {
    const { kindOf, bench } = this.box
    const { size } = top
    for (let i = 0; i < 2 * size; i++) {
      const kind = i < size ? top.kinds[p * size + i] : bottom.kinds[q * size + i - size]
      let above = 0
      let below = 0
      for (let j = 0; j < size; j++) {
        if (top.kinds[p * size + j] === kind) above++
        if (bottom.kinds[q * size + j] === kind) below++
      }
      if (above > 0 && below > 0 && size > 1 && !this.mayRepeat.has(kind)) return false
      if (above + below === 1) continue
      let copies = bench.box.kinds[kind].count
      for (const c of lent) if (kindOf[c] === kind) copies++
      if (above + below > copies) return false
    }
    return true
  }

  /** Whether a hit can be mounted with these gears made (candidate indices). */
  mounts(hit: Hit, lent: readonly number[]): boolean {
    return this.supplied(hit, lent) && this.settles(hit, lent)
  }

  /** Whether any of the gears that might be made, as idlers beside those lent, could mount a hit. */
  couldMount(hit: Hit, lent: readonly number[], copies: number): boolean {
    if (!this.supplied(hit, lent)) return false
    const everyOne = this.box.kindOf.map((_, c) => c)
    return this.settles(hit, [...lent, ...Array.from({ length: copies }, () => everyOne).flat()])
  }

  private settles(hit: Hit, lent: readonly number[]): boolean {
    const { settler, kindOf } = this.box
    if (!settler.possible(hit.top.size, hit.ratio)) return false
    for (const c of lent) settler.lend(kindOf[c], 1)
    const gears = settler.fewestGears(hit, hit.ratio)
    for (const c of lent) settler.lend(kindOf[c], -1)
    return gears > 0
  }
}

export interface Opened {
  /** For each candidate its closest hit that can be mounted, or null. */
  best: (Hit | null)[]
  /** Hits with one gear made that cannot be mounted with it alone, but perhaps with another as idler; by candidate. */
  stuck: Hit[][]
  /** Sets of the box as it is that idlers yet to be made could mount. */
  idle: Hit[]
}

/**
 * What each single gear does for a thread that the box does not cut.
 * @param keepStuck also tell what two gears might still do
 * @param most hits that are held at once
 */
export function openSingly(bench: Workbench, question: Question, keepStuck: boolean, most = HELD): Opened {
  const each = bench.box.kindOf
  const best: (Hit | null)[] = each.map(() => null)
  const stuck: Hit[][] = each.map(() => [])
  const idle: Hit[] = []
  let held: Hit[][] = each.map(() => [])
  let heldIdle: Hit[] = []
  let count = 0
  const settle = () => {
    held.forEach((hits, c) => {
      for (const hit of [...hits, ...heldIdle].sort(compareErrors)) {
        const known = best[c]
        if (known && compareErrors(known, hit) <= 0) break
        if (bench.mounts(hit, [c])) {
          best[c] = hit
          break
        }
        if (keepStuck && hit.top.made + hit.bottom.made > 0 && bench.couldMount(hit, [c], 1)) stuck[c].push(hit)
      }
    })
    held = each.map(() => [])
    heldIdle = []
    count = 0
  }
  const hold = (hits: Hit[], hit: Hit) => {
    hits.push(hit)
    if (++count >= most) settle()
  }
  const sort = (hit: Hit) => {
    const c = hit.top.made ? hit.top.which[hit.p] : hit.bottom.which[hit.q]
    const known = best[c]
    if (!known || compareErrors(known, hit) > 0) hold(held[c], hit)
  }
  bench.hits(question, 1, 0, sort)
  bench.hits(question, 0, 1, sort)
  bench.hits(question, 0, 0, (hit) => {
    if (!bench.couldMount(hit, [], keepStuck ? 2 : 1)) return
    if (keepStuck) idle.push(hit)
    hold(heldIdle, hit)
  })
  settle()
  return { best, stuck, idle }
}
