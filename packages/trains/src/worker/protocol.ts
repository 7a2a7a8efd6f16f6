import type { Endpoint, ProxyMarked } from 'comlink'
import type { ProgressListener } from '../contract.js'
import type { Failure } from './failure.js'

/** The questions, and how many arguments each takes: all take two things asked about, most then take options. */
export const argumentsOf = { findTrains: 3, proposeGears: 3, makeChart: 3, layOut: 2 } as const
export type Kind = keyof typeof argumentsOf
export const kinds = Object.keys(argumentsOf) as Kind[]
export const OPTIONS_AT = 2

/** Whether `x` can hold options; anything else in their place is left for the engine to refuse. */
export const isRecord = (x: unknown): x is object => typeof x === 'object' && x !== null && !Array.isArray(x)

export type Answer = { value: unknown } | { failure: Failure }

/** What a worker serves through Comlink. */
export interface Served {
  /** Answered when the worker is loaded and idle. */
  ping(): true
  answer(kind: Kind, args: readonly unknown[], onProgress?: ProgressListener & ProxyMarked): Promise<Answer>
}

/** What a client needs of a Worker: Comlink's endpoint, `error` and `messageerror` events, and an end. */
export interface WorkerLike extends Endpoint {
  terminate(): unknown
}
