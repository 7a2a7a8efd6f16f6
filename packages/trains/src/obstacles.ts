import { type Rational, rational } from '@trainwright/measures'
import { BanjoChain } from './banjo/banjo-chain.js'
import { BOUNDS, HAIR } from './bounds.js'
import type { Obstacle, ThreadWanted, Train } from './contract.js'
import { idlerThatReaches, reachObstacle } from './lay-out.js'
import { obstacle } from './messages.js'
import type { Arrangement } from './search/arrangement.js'
import { type Bench, makeChain, makeSettler } from './search/bench.js'
import { tightest } from './search/clearances.js'
import { refuseTooMany, searchSets, type Visit } from './search/engine.js'
import { makeQuestion } from './search/question.js'
import { Ranking } from './search/ranking.js'
import { type Lifted, makeRules, studsOf } from './search/rules.js'
import { stagesOf } from './search/train.js'

/** Sets that are looked at to measure how much a limit lacks, ways to choose idlers for one, and steps for all of them. */
const LOOKED_AT = 60
const CHOICES = 10_000
const EFFORT = 150_000
/** Steps after which a limit that opens nothing is taken not to be the one. */
const PATIENCE = 1_000_000

/** A tolerance within which every lead lies. */
const WHATEVER = rational(10 ** 9)

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

  private run(lifted: Lifted, stages: number, visit: Visit, tolerance?: Rational): void {
    const asked = makeQuestion(this.bench.lathe, this.wanted, lifted.hand)
    const question = { ...asked, tolerance: tolerance ?? asked.tolerance }
    const { tables } = this.bench
    if (refuseTooMany(tables, question, stages)) return
    const settler = makeSettler(this.bench, null, lifted)
    searchSets(tables, question, settler, stages, question.tolerance, visit, PATIENCE)
  }

  opens(lifted: Lifted, stages = this.stages, tolerance?: Rational): boolean {
    let found = false
    const visit = () => {
      found = true
      return true
    }
    this.run(lifted, stages, visit, tolerance)
    return found
  }

  /** The fewest studs with which a train could be mounted, or 0. */
  studs(ownStages: boolean, lifted: Lifted = {}): number {
    const own = studsOf(this.bench.lathe)
    // On a banjo more studs mean more ways for each: one more is as far as it is worth looking.
    const most = this.bench.lathe.banjo ? own + 1 : BOUNDS.studs
    for (let studs = own + 1; studs <= Math.min(most, BOUNDS.studs); studs++) {
      const stages = ownStages ? this.stages : Math.min(studs + 1, BOUNDS.stages)
      if (this.opens({ ...lifted, studs }, stages)) return studs
    }
    return 0
  }

  /** The arrangement that breaks a lifted limit least, among the sets with fewest gears: with as few idlers, then more. */
  private nearest(lifted: Lifted): Arrangement | null {
    const { box } = this.bench
    const settler = makeSettler(this.bench, null, lifted)
    const ranking = new Ranking(LOOKED_AT, 'fewest gears', settler, box.kinds)
    this.run(lifted, this.stages, (set, ratio, gears) => {
      ranking.offer(set, ratio, gears)
      return false
    })
    let least: Arrangement | null = null
    const candidates = ranking.leading()
    const studs = studsOf(this.bench.lathe)
    for (let more = 0; more <= studs; more++) {
      for (const { gears: fewest, ...set } of candidates) {
        const { ratio, top } = set
        const gears = fewest + more
        const idlers = gears - 2 * top.size
        if (top.size - 1 + idlers > studs || ratio.setting[(gears - top.size) % 2] < 0) continue
        if (least && (box.kinds.length ** idlers > CHOICES || settler.steps() > EFFORT)) return least
        least = settler.best(set, ratio, gears, least) ?? least
      }
    }
    return least
  }

  /** The gear that fouls least, and by how much. */
  private clearance(lifted: Lifted): Obstacle | null {
    const { box, lathe } = this.bench
    const least = this.nearest({ ...lifted, clearance: true })
    if (!least) return null
    const rules = makeRules(lathe, box, { ...lifted, clearance: true })
    const chain = makeChain(lathe, box, rules)
    if (chain instanceof BanjoChain && !rules.anyReach) {
      const worst = chain.tightest(least)
      return worst && worst.mm < -HAIR ? obstacle.fouls(box.kinds[worst.kind].gear, -worst.mm, worst.between) : null
    }
    const worst = tightest(least, rules)
    return worst && worst.mm < -HAIR ? obstacle.clearance(box.kinds[worst.kind].gear, -worst.mm, worst.near) : null
  }

  /** How far the train is from standing on the banjo, or from spanning the fixed distance. */
  private reach(lifted: Lifted): Obstacle | null {
    const { box, lathe } = this.bench
    const least = this.nearest({ ...lifted, reach: true })
    if (!least) return null
    const chain = makeChain(lathe, box, makeRules(lathe, box, lifted))
    if (!(chain instanceof BanjoChain)) return least.spare < 0 ? obstacle.reach(-least.spare / 1000, null) : null
    const miss = chain.miss(least)
    if (miss.faults.length === 0) return null
    return reachObstacle(miss, idlerThatReaches(lathe, stagesOf(least, box.kinds)))
  }

  /** Where the shafts stand is not told, so an idler must go between two gears: whether it is that which is missing. */
  bridge(stages?: number, tolerance?: Rational): Obstacle[] {
    const missing = this.bench.lathe.centreDistance === undefined
    return missing && this.opens({ reach: true, hand: true }, stages, tolerance) ? [obstacle.bridge()] : []
  }

  measure(limit: (typeof physical)[number], lifted: Lifted): Obstacle | null {
    if (limit === 'clearance') return this.clearance(lifted)
    if (limit === 'reach') return this.reach(lifted)
    if (limit === 'hand') return obstacle.hand(this.wanted.hand ?? 'right')
    return this.bench.lathe.planes === 1 ? obstacle.planes() : obstacle.shafts()
  }
}

const orNothing = (found: Obstacle[]): Obstacle[] => (found.length > 0 ? found : [obstacle.nothing()])

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
    if (all.length > 0) return all
    // Nothing can be mounted, whatever its lead. Of one stage that is soon gone through.
    const why = physical
      .filter((limit) => search.opens({ [limit]: true }, 1, WHATEVER))
      .map((l) => search.measure(l, {}))
    const measured = why.filter((o) => o !== null)
    return orNothing(measured.length > 0 ? measured : search.bridge(1, WHATEVER))
  }
  for (const limit of physical) {
    if (!search.opens({ [limit]: true })) continue
    const measured = search.measure(limit, {})
    if (measured) found.push(measured)
  }
  found.push(...studsNeeded)
  if (found.length === 0) found.push(...search.bridge())
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
  return orNothing([...found, ...tolerance])
}
