import { chart } from './chart.js'
import { checkChart, checkedWorkshop, checkFind, checkPropose } from './check-question.js'
import type {
  ChartOptions,
  ChartRow,
  FindOptions,
  GearProposals,
  ProgressListener,
  ProposeOptions,
  ThreadWanted,
  TrainSearch,
  Workshop,
} from './contract.js'
import { search } from './find-trains.js'
import { propose } from './propose-gears.js'
import { makeBench } from './search/bench.js'

/** The questions of one workshop, without naming it again. */
export interface Prepared {
  /** As the function of this name; `onProgress` hears how far it is. */
  findTrains(wanted: ThreadWanted, options?: FindOptions & { onProgress?: ProgressListener }): TrainSearch
  /** As the function of this name; `onProgress` hears how far it is. */
  proposeGears(wanted: ThreadWanted[], options?: ProposeOptions & { onProgress?: ProgressListener }): GearProposals
  /** As the function of this name; `onProgress` hears how far it is. */
  makeChart(wanted: ThreadWanted[], options?: ChartOptions & { onProgress?: ProgressListener }): ChartRow[]
}

/**
 * Makes a workshop ready for many questions: what depends on the box alone is worked out once and kept.
 * @throws WorkshopError naming every problem of the workshop; its questions throw for the rest.
 */
export function prepare(workshop: Workshop): Prepared {
  const known = checkedWorkshop(workshop)
  const bench = makeBench(known)
  return {
    findTrains(wanted, options = {}) {
      const asked = checkFind(known, wanted, options)
      return search(bench, asked.wanted, asked.options, 'why', asked.options.onProgress)
    },
    proposeGears(wanted, options = {}) {
      const asked = checkPropose(known, wanted, options)
      return propose(known, bench, asked.wanted, asked.options, asked.options.onProgress)
    },
    makeChart(wanted, options = {}) {
      const asked = checkChart(known, wanted, options)
      return chart(bench, asked.wanted, asked.options, asked.options.onProgress)
    },
  }
}
