import type { Question } from '../search/question.js'
import { compareErrors } from '../search/ranking.js'
import { eachHit, type Half, type Hit, makeHalf } from './hits.js'
import type { MadeBox } from './made-box.js'

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
