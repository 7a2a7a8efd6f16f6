import { findTrains, type ThreadWanted, type Train, type Workshop } from '@trainwright/trains'
import type { ThreadWork } from '../thread-work.js'

export interface DemoJob {
  wanted: ThreadWanted
  work: ThreadWork
  train: Train
}

/** The best train, or the closest where none is within tolerance. */
export function trainFor(shop: Workshop, wanted: ThreadWanted): Train {
  const { trains, closest } = findTrains(shop, wanted)
  const train = trains[0] ?? closest
  if (!train) throw new Error(`nothing can be mounted for ${wanted.pitch}`)
  return train
}

/** The demo workshop, and its four threads with their trains and thread work. */
export function readDemo(json: { workshop: object; threads: readonly { work: object }[] }) {
  const workshop = json.workshop as Workshop
  const jobs = json.threads.map(({ work, ...rest }): DemoJob => {
    const wanted = rest as ThreadWanted
    return { wanted, work: work as ThreadWork, train: trainFor(workshop, wanted) }
  })
  const [eyepiece, footScrew, tangentScrew, tripodHead] = jobs as [DemoJob, DemoJob, DemoJob, DemoJob]
  return { workshop, jobs, eyepiece, footScrew, tangentScrew, tripodHead }
}

/** A lathe with a metric leadscrew on which 1:1, and trains near to it, stand. */
export const plain = (
  more: Partial<Workshop['lathe']> = {},
  gears: number[] = [40, 40, 60, 80, 20, 30, 50],
): Workshop => ({
  lathe: { leadscrew: { pitch: '3 mm' }, shaftClearance: 5, ...more },
  gears: gears.map((teeth) => ({ teeth })),
})
