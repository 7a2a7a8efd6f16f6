import { checkChart } from './check-question.js'
import type { ChartOptions, ChartRow, ProgressListener, ThreadWanted, Train, Workshop } from './contract.js'
import { search } from './find-trains.js'
import { type Bench, makeBench } from './search/bench.js'
import { refuseTooManyOf } from './too-many.js'

/** Trains of a thread looked at when the chart is put into an order with few changes. */
const ALTERNATIVES = 20

const gearKeys = ({ stages }: Train): string[] =>
  stages.flatMap((s) => [s.driver, ...s.idlers, s.driven]).map((g) => `${g.teeth} ${g.module} ${g.pressureAngle}`)

/** Gears that have to be put on to come from one train to the other. */
function changes(from: Train | null, to: Train): number {
  const there = from ? gearKeys(from) : []
  let fresh = 0
  for (const key of gearKeys(to)) {
    const at = there.indexOf(key)
    if (at < 0) fresh++
    else there.splice(at, 1)
  }
  return fresh
}

const changesInAll = (rows: readonly ChartRow[]): number =>
  rows.reduce((sum, { train }, i) => sum + (train ? changes(rows[i - 1]?.train ?? null, train) : 0), 0)

/**
 * From row to row the thread and train that change fewest gears; of equals the earlier thread, then the better train. In
 * the order given, each by its best train, where that comes to fewer changes in all.
 */
function inFewestChanges(rows: { row: ChartRow; trains: Train[] }[]): ChartRow[] {
  const withTrain = rows.filter(({ trains }) => trains.length > 0)
  const left = [...withTrain]
  const ordered: ChartRow[] = []
  let last: Train | null = null
  while (left.length > 0) {
    let best = { changes: Number.POSITIVE_INFINITY, at: 0, train: left[0].trains[0] }
    left.forEach(({ trains }, at) => {
      for (const train of trains) {
        const count = changes(last, train)
        if (count < best.changes) best = { changes: count, at, train }
      }
    })
    const [{ row }] = left.splice(best.at, 1)
    ordered.push({ ...row, train: best.train })
    last = best.train
  }
  const given = withTrain.map(({ row }) => row)
  const better = changesInAll(given) < changesInAll(ordered) ? given : ordered
  return [...better, ...rows.filter(({ trains }) => trains.length === 0).map(({ row }) => row)]
}

/** makeChart on a prepared bench and a checked question. */
export function chart(
  bench: Bench,
  wanted: readonly ThreadWanted[],
  options: ChartOptions,
  onProgress: ProgressListener = () => {},
): ChartRow[] {
  const few = options.sequence === 'fewest changes'
  refuseTooManyOf(bench, wanted, options.stages)
  const rows = wanted.map((thread, i) => {
    onProgress(i, wanted.length)
    const { trains, closest } = search(bench, thread, { ...options, limit: few ? ALTERNATIVES : 1 }, 'closest')
    return { row: { wanted: i, train: trains[0] ?? null, closest }, trains }
  })
  onProgress(wanted.length, wanted.length)
  return few ? inFewestChanges(rows) : rows.map(({ row }) => row)
}

/**
 * The chart of a lathe: for each wanted thread its best train, or null, and the closest at any error. In the order given,
 * or, with `sequence: 'fewest changes'`, so that neighbours change few gears (threads without a train last).
 * @param options `onProgress` is told, before and after each thread, how many are done
 * @throws WorkshopError naming every problem of workshop, threads (`wanted[3].…`) and options; or every thread with too
 * many pairs within the tolerance (`too-many`).
 */
export function makeChart(
  workshop: Workshop,
  wanted: ThreadWanted[],
  options: ChartOptions & { onProgress?: ProgressListener } = {},
): ChartRow[] {
  const asked = checkChart(workshop, wanted, options)
  return chart(makeBench(asked.workshop), asked.wanted, asked.options, asked.options.onProgress)
}
