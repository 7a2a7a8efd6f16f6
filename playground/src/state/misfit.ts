import type { Lathe, Obstacle, Train, TrainSearch } from '@trainwright/trains'
import type { TrainWorker } from '@trainwright/trains/worker'
import type { Question } from './ask.js'

export type Searcher = Pick<TrainWorker, 'findTrains' | 'layOut'>

/** A train that cuts the thread and does not go on this lathe. */
export interface Misfit {
  train: Train
  /** What keeps it off, where the banjo tells. */
  obstacle: Obstacle | null
}

/** The lathe with nothing in the way of gears: no banjo, no given distance, no nuts. */
function bare({ banjo: _, centreDistance: __, ...lathe }: Lathe): Lathe {
  return { ...lathe, shaftClearance: 0 }
}

/** Where no train goes on though the right ratio is there: the best that would cut the thread if it did. */
export async function findMisfit(
  worker: Searcher,
  { workshop, wanted, options }: Question,
  search: TrainSearch,
  signal?: AbortSignal,
): Promise<Misfit | null> {
  if (search.counts.mountable > 0 || search.counts.withinTolerance === 0) return null
  const { lathe } = workshop
  const { trains } = await worker.findTrains(
    { ...workshop, lathe: bare(lathe) },
    wanted,
    { ...options, limit: 1 },
    { signal },
  )
  const [train] = trains
  if (!train) return null
  const laid = lathe.banjo ? await worker.layOut(lathe, train) : null
  return { train, obstacle: laid && !laid.ok ? laid.obstacle : null }
}
