import { InputError } from '@trainwright/measures'
import { WorkshopError } from '@trainwright/trains'
import { createTrainWorker, TrainWorkerError } from '@trainwright/trains/worker'

const reached = { createTrainWorker, InputError, WorkshopError, TrainWorkerError }

declare global {
  /** What the tests reach from outside the page. */
  var tools: typeof reached
}
globalThis.tools = reached
