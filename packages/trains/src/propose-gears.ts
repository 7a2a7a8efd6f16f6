import { checkPropose } from './check-question.js'
import type {
  Gear,
  GearProposals,
  ProgressListener,
  ProposeOptions,
  ThreadWanted,
  Train,
  Workshop,
} from './contract.js'
import { search } from './find-trains.js'
import type { Hit } from './propose/hits.js'
import { MadeBox, withMade } from './propose/made-box.js'
import { openByPairs, PairNumbers } from './propose/pairs.js'
import { permitted } from './propose/permitted.js'
import { openSingly, Workbench } from './propose/singles.js'
import { type Bench, makeBench, stagesOf } from './search/bench.js'
import { makeQuestion } from './search/question.js'
import { compareErrors } from './search/ranking.js'
import { refuseThreads, refuseTooManyOf } from './too-many.js'

const DEFAULT_LIMIT = 10

interface Choice {
  /** Candidate indices, ascending. */
  make: number[]
  opens: number
  /** The greatest of its errors. */
  worst: Hit
}

/** Most threads opened, then the smallest worst error, then fewest teeth. */
const betterChoice = (a: Choice, b: Choice): number =>
  b.opens - a.opens || compareErrors(a.worst, b.worst) || a.make[0] - b.make[0] || (a.make[1] ?? 0) - (b.make[1] ?? 0)

/** Sums up what each choice does for the threads: `best[thread][choice]`. */
function choicesOf(best: readonly (Hit | null)[][], makes: readonly number[][]): Choice[] {
  const choices: Choice[] = []
  makes.forEach((make, n) => {
    let opens = 0
    let worst: Hit | null = null
    for (const thread of best) {
      const hit = thread[n]
      if (!hit) continue
      opens++
      if (!worst || compareErrors(hit, worst) > 0) worst = hit
    }
    if (worst) choices.push({ make, opens, worst })
  })
  return choices
}

const closestOf = (bench: Bench, thread: ThreadWanted): Train | undefined =>
  search(bench, thread, { order: 'closest', limit: 1 }, 'trains').trains[0]

/** proposeGears on a checked question. */
export function propose(
  workshop: Workshop,
  bench: Bench,
  wanted: readonly ThreadWanted[],
  options: ProposeOptions,
  onProgress: ProgressListener = () => {},
): GearProposals {
  refuseTooManyOf(bench, wanted)
  const already: GearProposals['already'] = []
  const open: number[] = []
  wanted.forEach((thread, i) => {
    const train = closestOf(bench, thread)
    if (train) already.push({ wanted: i, train })
    else open.push(i)
  })
  const candidates = permitted(bench.box, options)
  if (open.length === 0 || candidates.length === 0) return { already, proposals: [], never: open }

  const workbench = new Workbench(new MadeBox(workshop, candidates), stagesOf(workshop.lathe, undefined))
  const questionOf = (thread: number) => makeQuestion(workshop.lathe, wanted[thread])
  refuseThreads(open, (thread) => workbench.tooMany(questionOf(thread), options.make))
  const pairs = new PairNumbers(candidates.length)
  const single: (Hit | null)[][] = []
  const paired: (Hit | null)[][] = []
  open.forEach((thread, done) => {
    onProgress(done, open.length)
    const question = questionOf(thread)
    const opened = openSingly(workbench, question, options.make === 2)
    single.push(opened.best)
    if (options.make === 2) paired.push(openByPairs(workbench, question, opened, pairs))
  })
  onProgress(open.length, open.length)

  const alone = candidates.map((_, c) => [c])
  const twos = options.make === 2 ? alone.flatMap(([a]) => alone.slice(a).map(([b]) => [a, b])) : []
  const best = options.make === 2 ? paired : single
  const opensAlone = candidates.map((_, c) => single.filter((thread) => thread[c]).length)
  const choices = choicesOf(best, options.make === 2 ? twos : alone)
    // What one gear of the pair opens by itself is no reason to make two.
    .filter(({ make, opens }) => make.length === 1 || make.every((c) => opensAlone[c] < opens))
    .sort(betterChoice)
    .slice(0, options.limit ?? DEFAULT_LIMIT)

  const number = (make: readonly number[]) => (make.length === 1 ? make[0] : pairs.of(make[0], make[1]))
  const proposals = choices.map(({ make }) => {
    const gears: Gear[] = make.map((c) => candidates[c])
    const box = makeBench(withMade(workshop, gears))
    const opens = open.flatMap((thread, i) => {
      const train = best[i][number(make)] ? closestOf(box, wanted[thread]) : undefined
      return train ? [{ wanted: thread, train }] : []
    })
    return { make: gears, opens, worstErrorPpm: Math.max(0, ...opens.map(({ train }) => Math.abs(train.errorPpm))) }
  })
  const never = open.filter((_, i) => !best[i].some((hit) => hit))
  return { already, proposals, never }
}

/**
 * Which gear (or pair) should be made next? For each permitted tooth count, one such gear is added to the box; it opens
 * each wanted thread that then has a mountable train, shown by its closest one. Most threads opened first, then the
 * smallest worst error, then fewest teeth.
 * @param options `onProgress` is told, before and after each thread, how many of those not cut yet are done
 * @throws WorkshopError naming every problem of workshop, threads (`wanted[3].…`) and options; or every thread for which
 * too many pairs, of gears owned or yet to be made, lie within the tolerance (`too-many`).
 */
export function proposeGears(
  workshop: Workshop,
  wanted: ThreadWanted[],
  options: ProposeOptions & { onProgress?: ProgressListener } = {},
): GearProposals {
  const asked = checkPropose(workshop, wanted, options)
  return propose(asked.workshop, makeBench(asked.workshop), asked.wanted, asked.options, asked.options.onProgress)
}
