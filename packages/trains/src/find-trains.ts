import { add, multiply, type Rational, rational } from '@trainwright/measures'
import { BOUNDS } from './bounds.js'
import { checkFind } from './check-question.js'
import type { FindOptions, ProgressListener, ThreadWanted, Train, TrainSearch, Workshop } from './contract.js'
import { obstacle } from './messages.js'
import { findObstacles } from './obstacles.js'
import { type Bench, countMounted, makeBench, makeSettler, stagesOf } from './search/bench.js'
import { refuseTooMany, searchSets } from './search/engine.js'
import { type FixedRatio, makeQuestion, type Question } from './search/question.js'
import { type Ranked, Ranking } from './search/ranking.js'
import type { GearSet, Settler } from './search/settler.js'
import { tableLength } from './search/table.js'
import { makeBuilder } from './search/train.js'

const DEFAULT_LIMIT = 50

/** Factor by which the search for the closest train widens, each time that it comes back with nothing. */
const WIDER = rational(4)
const FIRST_RING = rational(1, 10_000)
/** Steps that may be spent on it: about a quarter of a second. */
const PATIENCE = 4_000_000

/**
 * The mountable train with the least error when none is within tolerance: looks further and further out. Undefined when
 * there is none, or none was found with patience: a lathe on which next to nothing fits would be searched for minutes.
 */
function lookFurther({ tables, box }: Bench, question: Question, settler: Settler, stages: number) {
  const possible = (s: number) => question.ratios.some((r) => settler.possible(s, r))
  if (!Array.from({ length: stages }, (_, i) => i + 1).some(possible)) return undefined
  const patience = settler.steps() + PATIENCE
  let ring: Rational = add(question.tolerance, FIRST_RING)
  for (;;) {
    let pairs = 0
    let all = 0
    for (let s = 1; s <= stages; s++) {
      pairs += tables.pairs(s, question.ratios, ring)
      all += question.ratios.length * tableLength(box.kinds, s) ** 2
    }
    if (pairs > BOUNDS.pairs) return undefined
    const ranking = new Ranking(1, 'closest', settler, box.kinds)
    const offer = (set: GearSet, ratio: FixedRatio, gears: number) => {
      ranking.offer(set, ratio, gears)
      return false
    }
    const { whole } = searchSets(tables, question, settler, stages, ring, offer, patience)
    if (!whole) return undefined
    if (!ranking.empty) return ranking.best()[0]
    if (pairs === all) return undefined
    ring = multiply(ring, WIDER)
  }
}

/** Sets between two steps of progress. */
const STEP = 1024

/** Tells how many sets were settled, of the pairs that may be: some of these share gears and are no sets. */
function telling(
  settler: Settler,
  { tables }: Bench,
  question: Question,
  stages: number,
  tell: ProgressListener,
): Settler {
  let pairs = 0
  for (let s = 1; s <= stages; s++) {
    const { ratios, tolerance } = question
    const settling = ratios.filter((ratio) => settler.possible(s, ratio))
    pairs += tables.pairs(s, settling, tolerance)
  }
  let settled = 0
  tell(0, pairs)
  return {
    ...settler,
    fewestGears(set, ratio) {
      if (++settled % STEP === 0) tell(settled, pairs)
      return settler.fewestGears(set, ratio)
    },
  }
}

/**
 * findTrains on a prepared bench and a checked question.
 * @param wish how much is wanted: trains alone; the closest too, when there is none; also why. Who wants no reasons has
 * made sure that there are not too many pairs.
 */
export function search(
  bench: Bench,
  wanted: ThreadWanted,
  options: FindOptions,
  wish: 'trains' | 'closest' | 'why' = 'why',
  onProgress?: ProgressListener,
): TrainSearch {
  const { lathe, box, tables } = bench
  const question = makeQuestion(lathe, wanted)
  const stages = stagesOf(lathe, options.stages)
  const refusal = wish === 'why' && refuseTooMany(tables, question, stages)
  if (refusal) {
    const nothing = { withinTolerance: 0, mountable: 0 }
    return { trains: [], counts: nothing, closest: null, obstacles: [obstacle.tooMany(refusal)] }
  }
  const settler = makeSettler(bench, countMounted(box, options.mounted))
  const shown = new Ranking(options.limit ?? DEFAULT_LIMIT, options.order ?? 'fewest gears', settler, box.kinds)
  const nearest = new Ranking(1, 'closest', settler, box.kinds)
  const { whole: _, ...counts } = searchSets(
    tables,
    question,
    onProgress ? telling(settler, bench, question, stages, onProgress) : settler,
    stages,
    question.tolerance,
    (set, ratio, gears) => {
      shown.offer(set, ratio, gears)
      nearest.offer(set, ratio, gears)
      return false
    },
  )
  const builder = makeBuilder(lathe, question, box.kinds)
  const build = (ranked: Ranked): Train => builder(ranked, settler.layoutOf(ranked.arrangement))
  const best = nearest.best()[0] ?? (wish === 'trains' ? undefined : lookFurther(bench, question, settler, stages))
  const trains = shown.best().map(build)
  const closest = best ? build(best) : null
  const obstacles =
    wish === 'why' && counts.mountable === 0
      ? findObstacles(bench, wanted, stages, options.stages !== undefined, counts.withinTolerance, closest)
      : []
  return { trains, counts, closest, obstacles }
}

/**
 * Which gears from the box, on which studs, cut this thread?
 *
 * Trains that can be mounted and are within tolerance (default 500 ppm), best first, one for each distinct gear set;
 * both counts; the closest train at any error; and, when there is none, the obstacles. The same question always gives
 * the same answer in the same order.
 * @param options `onProgress` is told, before the sets are gone through and then from time to time, how many pairs of gear
 * products are done of those within the tolerance
 * @throws WorkshopError naming every problem of workshop, thread and options.
 */
export function findTrains(
  workshop: Workshop,
  wanted: ThreadWanted,
  options: FindOptions & { onProgress?: ProgressListener } = {},
): TrainSearch {
  const asked = checkFind(workshop, wanted, options)
  return search(makeBench(asked.workshop), asked.wanted, asked.options, 'why', asked.options.onProgress)
}
