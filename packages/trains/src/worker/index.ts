import { makeClient, type TrainWorker } from './client.js'

export type { ProgressListener } from '../contract.js'
export type { TrainWorker } from './client.js'
export { TrainWorkerError } from './failure.js'
export type { CallOptions } from './lane.js'

/**
 * Starts a client of the search. Clients share nothing: each has workers of its own, started when they are first needed.
 *
 * ```ts
 * const worker = createTrainWorker()
 * const { trains } = await worker.findTrains(workshop, { pitch: '26 tpi' }, {}, { signal })
 * ```
 */
export function createTrainWorker(): TrainWorker {
  // Bundlers know this expression and make a chunk of the entry: keep it in one piece.
  return makeClient(() => new Worker(new URL('./entry.js', import.meta.url), { type: 'module' }))
}
