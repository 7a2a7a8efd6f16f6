import { BOUNDS, HAIR } from './bounds.js'
import type { Obstacle, ThreadWanted, Train } from './contract.js'
import { obstacle } from './messages.js'
import type { Arrangement } from './search/arrangement.js'
import { type Bench, makeSettler } from './search/bench.js'
import { tightest } from './search/clearances.js'
import { refuseTooMany, searchSets, type Visit } from './search/engine.js'
import { makeQuestion } from './search/question.js'
import { type Lifted, makeRules, studsOf } from './search/rules.js'

/** Limits in the order in which they tell most. */
const physical = ['hand', 'shafts', 'clearance', 'reach'] as const

/**
 * Why no train was found: each limit is lifted alone and the search run again; where that opens something, the limit
 * stands in the way. When no single one does, pairs are tried, then all of them.
 */
class Obstacles {
  constructor(
    private readonly bench: Bench,
    private readonly wanted: ThreadWanted,
    private readonly stages: number,
  ) {}

  private run(lifted: Lifted, stages: number, visit: Visit): void {
    const question = makeQuestion(this.bench.lathe, this.wanted, lifted.hand)
    const { tables } = this.bench
    if (refuseTooMany(tables, question, stages, question.tolerance)) return
    searchSets(tables, question, makeSettler(this.bench, null, lifted), stages, question.tolerance, visit)
  }

  opens(lifted: Lifted, stages = this.stages): boolean {
    let found = false
    this.run(lifted, stages, () => {
      found = true
      return true
    })
    return found
  }

  /** The fewest studs with which a train could be mounted, or 0. */
  studs(ownStages: boolean, lifted: Lifted = {}): number {
    for (let studs = studsOf(this.bench.lathe) + 1; studs <= BOUNDS.studs; studs++) {
      const stages = ownStages ? this.stages : Math.min(studs + 1, BOUNDS.stages)
      if (this.opens({ ...lifted, studs }, stages)) return studs
    }
    return 0
  }

  /** The gear that fouls least, and by how much. */
  clearance(lifted: Lifted): Obstacle | null {
    const { box, lathe } = this.bench
    const settler = makeSettler(this.bench, null, { ...lifted, clearance: true })
    let least: Arrangement | null = null
    this.run({ ...lifted, clearance: true }, this.stages, (set, ratio, gears) => {
      least = settler.best(set, ratio, gears, least) ?? least
      return false
    })
    if (!least) return null
    const worst = tightest(least, makeRules(lathe, box))
    return worst && worst.mm < -HAIR ? obstacle.clearance(box.kinds[worst.kind].gear, -worst.mm, worst.near) : null
  }

  /** How far the chain of meshes falls short of spanning the fixed distance, at the least. */
  reach(lifted: Lifted): Obstacle | null {
    const { box, lathe } = this.bench
    const { centre, count, studs, centreDistance } = makeRules(lathe, box, lifted)
    const settler = makeSettler(this.bench, null, { ...lifted, reach: true })
    if (centreDistance === null) return null
    let short = Number.POSITIVE_INFINITY
    this.run({ ...lifted, reach: true }, this.stages, (set, ratio, gears) => {
      for (let g = gears; g <= set.table.size + 1 + studs; g++) {
        const found = ratio.setting[(g - set.table.size) % 2] >= 0 && settler.best(set, ratio, g, null)
        if (!found) continue
        const { reading, idlers } = found
        const lengths: number[] = [centreDistance]
        let at = 0
        for (const between of idlers) {
          for (let i = 0; i <= between; i++, at++) lengths.push(centre[reading[at] * count + reading[at + 1]])
          at++
        }
        const sum = lengths.reduce((a, b) => a + b, 0)
        const gap = lengths.length === 2 ? Math.abs(lengths[0] - lengths[1]) : 2 * Math.max(...lengths) - sum
        short = Math.min(short, gap)
      }
      return false
    })
    return short === Number.POSITIVE_INFINITY ? null : obstacle.reach(short, null)
  }

  measure(limit: (typeof physical)[number], lifted: Lifted): Obstacle | null {
    if (limit === 'clearance') return this.clearance(lifted)
    if (limit === 'reach') return this.reach(lifted)
    return limit === 'hand' ? obstacle.hand(this.wanted.hand ?? 'right') : obstacle.shafts()
  }
}

/**
 * The obstacles of a question that found nothing, most telling first.
 * @param ownStages the number of stages was asked for, so more studs do not bring more stages
 */
export function findObstacles(
  bench: Bench,
  wanted: ThreadWanted,
  stages: number,
  ownStages: boolean,
  withinTolerance: number,
  closest: Train | null,
): Obstacle[] {
  const search = new Obstacles(bench, wanted, stages)
  const found: Obstacle[] = []
  const tolerance = closest ? [obstacle.tolerance(closest.errorPpm)] : []
  const studs = search.studs(ownStages)
  const studsNeeded = studs > 0 ? [obstacle.studs(studs, bench.lathe)] : []
  if (withinTolerance === 0) {
    const all = [...tolerance, ...studsNeeded]
    return all.length > 0 ? all : [obstacle.nothing()]
  }
  for (const limit of physical) {
    if (!search.opens({ [limit]: true })) continue
    const measured = search.measure(limit, {})
    if (measured) found.push(measured)
  }
  found.push(...studsNeeded)
  if (found.length === 0) {
    // No single limit is to blame: name the first two that are, each measured with the other lifted.
    for (const [i, a] of physical.entries()) {
      for (const b of physical.slice(i + 1)) {
        if (found.length > 0 || !search.opens({ [a]: true, [b]: true })) continue
        const pair = [search.measure(a, { [b]: true }), search.measure(b, { [a]: true })]
        found.push(...pair.filter((o) => o !== null))
      }
    }
  }
  found.push(...tolerance)
  return found.length > 0 ? found : [obstacle.nothing()]
}
