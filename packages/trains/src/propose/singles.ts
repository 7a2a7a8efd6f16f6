import type { FixedRatio, Question } from '../search/question.js'
import { compareErrors } from '../search/ranking.js'
import type { GearSet } from '../search/settler.js'
import { eachHit, type Half, type Hit, kindsOf, makeHalf, setOf } from './hits.js'
import type { MadeBox } from './made-box.js'

/** What the settling of hits needs, worked out once for all threads. */
export class Workbench {
  private readonly halves = new Map<string, Half | null>()
  readonly teeth: Int32Array
  private readonly mayRepeat: ReadonlySet<number>

  constructor(
    readonly box: MadeBox,
    readonly stages: number,
  ) {
    const { kinds, fixed } = box.bench.box
    this.teeth = Int32Array.from(kinds, (k) => k.gear.teeth)
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

  /** Shows all hits with so many gears made on each side. */
  hits(question: Question, onTop: number, below: number, visit: (hit: Hit) => void): void {
    for (let s = Math.max(1, onTop, below); s <= this.stages; s++) {
      const top = this.half(s, onTop)
      const bottom = this.half(s, below)
      if (top && bottom && question.ratios.some((r) => this.box.settler.possible(s, r))) {
        eachHit(question, s, top, bottom, visit)
      }
    }
  }

  /**
   * The set of a hit when it is one: no gear on both sides of a compound train (but for fixed gears), and no more of a
   * kind than there are with `lent` made.
   */
  setOf(hit: Hit, lent: readonly number[]): GearSet | null {
    const top = kindsOf(this.box, hit.top, hit.p)
    const bottom = kindsOf(this.box, hit.bottom, hit.q)
    for (const k of top) {
      const repeated = bottom.includes(k)
      if (repeated && hit.stages > 1 && !this.mayRepeat.has(k)) return null
      let uses = 0
      for (const other of top) if (other === k) uses++
      for (const other of bottom) if (other === k) uses++
      if (uses === 1) continue
      let copies = this.box.bench.box.kinds[k].count
      for (const c of lent) if (this.box.kindOf[c] === k) copies++
      if (uses > copies) return null
    }
    for (const k of bottom) {
      const uses = bottom.reduce((n, other) => n + (other === k ? 1 : 0), 0)
      if (uses === 1) continue
      const copies = this.box.bench.box.kinds[k].count + lent.filter((c) => this.box.kindOf[c] === k).length
      if (uses > copies) return null
    }
    return setOf(this.box, hit, this.teeth)
  }

  /** Whether a hit can be mounted with these gears made (candidate indices). */
  mounts(hit: Hit, lent: readonly number[]): boolean {
    const set = this.setOf(hit, lent)
    return set !== null && this.settles(set, hit.ratio, lent)
  }

  private settles(set: GearSet, ratio: FixedRatio, lent: readonly number[]): boolean {
    const { settler, kindOf } = this.box
    if (!settler.possible(set.table.size, ratio)) return false
    for (const c of lent) settler.lend(kindOf[c], 1)
    const gears = settler.fewestGears(set, ratio)
    for (const c of lent) settler.lend(kindOf[c], -1)
    return gears > 0
  }

  /** Whether any of the gears that might be made, as idlers beside those lent, could mount a hit. */
  couldMount(hit: Hit, lent: readonly number[], copies: number): boolean {
    const everyOne = this.box.kindOf.map((_, c) => c)
    const set = this.setOf(hit, lent)
    if (!set) return false
    const all = [...lent, ...Array.from({ length: copies }, () => everyOne).flat()]
    return this.settles(set, hit.ratio, all)
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
 */
export function openSingly(bench: Workbench, question: Question, keepStuck: boolean): Opened {
  const count = bench.box.kindOf.length
  const byCandidate: Hit[][] = Array.from({ length: count }, () => [])
  const sort = (hit: Hit) => byCandidate[hit.top.made ? hit.top.which[hit.p] : hit.bottom.which[hit.q]].push(hit)
  bench.hits(question, 1, 0, sort)
  bench.hits(question, 0, 1, sort)
  const idle: Hit[] = []
  bench.hits(question, 0, 0, (hit) => {
    if (bench.couldMount(hit, [], keepStuck ? 2 : 1)) idle.push(hit)
  })
  const best: (Hit | null)[] = []
  const stuck: Hit[][] = []
  byCandidate.forEach((hits, c) => {
    const ordered = [...hits, ...idle].sort(compareErrors)
    const failed: Hit[] = []
    let found: Hit | null = null
    for (const hit of ordered) {
      if (bench.mounts(hit, [c])) {
        found = hit
        break
      }
      if (keepStuck && hit.top.made + hit.bottom.made > 0 && bench.couldMount(hit, [c], 1)) failed.push(hit)
    }
    best.push(found)
    stuck.push(failed)
  })
  return { best, stuck, idle }
}
