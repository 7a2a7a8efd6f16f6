import type {
  ChartOptions,
  ChartRow,
  FindOptions,
  GearProposals,
  LaidOut,
  Lathe,
  ProposeOptions,
  SetUp,
  ThreadWanted,
  TrainSearch,
  Workshop,
} from '../contract.js'
import { type CallOptions, Lane } from './lane.js'
import { argumentsOf, isRecord, type Kind, kinds, OPTIONS_AT, type WorkerLike } from './protocol.js'

/**
 * The search, in workers of its own. Every call takes the arguments of the function of its name and then
 * `{ signal, onProgress }`, which may also stand among the options.
 *
 * It rejects with what the function throws (WorkshopError with its problems), with an error named AbortError when it is
 * aborted, superseded by a newer question of its kind, or the client is closed, and with TrainWorkerError when the
 * worker died of it twice.
 */
export interface TrainWorker {
  /** Resolves to what the function of this name gives. */
  findTrains(
    workshop: Workshop,
    wanted: ThreadWanted,
    options?: FindOptions & CallOptions,
    call?: CallOptions,
  ): Promise<TrainSearch>
  /** Resolves to what the function of this name gives. */
  proposeGears(
    workshop: Workshop,
    wanted: ThreadWanted[],
    options?: ProposeOptions & CallOptions,
    call?: CallOptions,
  ): Promise<GearProposals>
  /** Resolves to what the function of this name gives. */
  makeChart(
    workshop: Workshop,
    wanted: ThreadWanted[],
    options?: ChartOptions & CallOptions,
    call?: CallOptions,
  ): Promise<ChartRow[]>
  /** Resolves to what the function of this name gives. */
  layOut(lathe: Lathe, setUp: SetUp, call?: CallOptions): Promise<LaidOut>
  /** Ends the workers; what is open, or asked later, rejects with AbortError. */
  close(): void
}

/** ms: loading the worker on a slow phone takes a second or two. */
const PATIENCE = 15_000

/** Takes `signal` and `onProgress` out of the options and of what follows them. */
function parted(kind: Kind, args: readonly unknown[]): [args: unknown[], call: CallOptions] {
  const call: CallOptions = {}
  const plain = args.map((x, i) => {
    if (i < OPTIONS_AT || !isRecord(x)) return x
    const { signal, onProgress, ...options } = x as CallOptions
    if (signal) call.signal = signal
    if (onProgress) call.onProgress = onProgress
    return options
  })
  return [plain.slice(0, argumentsOf[kind]), call]
}

/**
 * A client over workers that `spawn` starts, one at most for each kind of question.
 * @param patience ms within which an idle worker must give a sign of life, loading included
 */
export function makeClient(spawn: () => WorkerLike, patience = PATIENCE): TrainWorker {
  const lanes = kinds.map((kind) => new Lane(kind, spawn, patience))
  const calls = lanes.map((lane) => [lane.kind, (...args: unknown[]) => lane.ask(...parted(lane.kind, args))])
  const close = () => {
    for (const lane of lanes) lane.close()
  }
  return { ...Object.fromEntries(calls), close }
}
