import type { Question } from '../search/question.js'
import { compareErrors } from '../search/ranking.js'
import type { Hit } from './hits.js'
import type { Opened, Workbench } from './singles.js'

/** Pairs a <= b of `count` candidates, numbered row by row. */
export class PairNumbers {
  readonly length: number

  constructor(readonly count: number) {
    this.length = (count * (count + 1)) / 2
  }

  of(a: number, b: number): number {
    const [low, high] = a <= b ? [a, b] : [b, a]
    return low * this.count - (low * (low - 1)) / 2 + (high - low)
  }
}

/**
 * For each pair its closest hit that can be mounted, or null: what either gear does alone, what both do in one ratio, and
 * what one does with the other, or the box with both, as idlers.
 */
export function openByPairs(bench: Workbench, question: Question, single: Opened, pairs: PairNumbers): (Hit | null)[] {
  const { count } = pairs
  const best: (Hit | null)[] = new Array(pairs.length)
  for (let a = 0, n = 0; a < count; a++) {
    for (let b = a; b < count; b++, n++) {
      const [x, y] = [single.best[a], single.best[b]]
      best[n] = x && y ? (compareErrors(x, y) <= 0 ? x : y) : (x ?? y)
    }
  }
  const consider = (hit: Hit, a: number, b: number): void => {
    const n = pairs.of(a, b)
    const known = best[n]
    if (known && compareErrors(known, hit) <= 0) return
    if (bench.mounts(hit, [a, b])) best[n] = hit
  }
  bench.hits(question, 2, 0, (hit) => consider(hit, hit.top.which[hit.p * 2], hit.top.which[hit.p * 2 + 1]))
  bench.hits(question, 0, 2, (hit) => consider(hit, hit.bottom.which[hit.q * 2], hit.bottom.which[hit.q * 2 + 1]))
  bench.hits(question, 1, 1, (hit) => consider(hit, hit.top.which[hit.p], hit.bottom.which[hit.q]))
  single.stuck.forEach((hits, a) => {
    for (const hit of hits) for (let b = 0; b < count; b++) consider(hit, a, b)
  })
  for (const hit of single.idle) {
    for (let a = 0; a < count; a++) for (let b = a; b < count; b++) consider(hit, a, b)
  }
  return best
}
