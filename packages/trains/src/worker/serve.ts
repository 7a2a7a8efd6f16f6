import { type Endpoint, expose, type Remote, releaseProxy } from 'comlink'
import type { ProgressListener } from '../contract.js'
import { failureOf } from './failure.js'
import { unservedMessage } from './messages.js'
import { argumentsOf, isRecord, type Kind, OPTIONS_AT, type Served } from './protocol.js'

/** The engine's functions by their names; one that is not there is refused when it is asked for. */
export type Engine = { readonly [K in Kind]?: (...args: never[]) => unknown }

/** Passes on whole percents only: each step sent is a message, and the engine may count millions. */
function byPercent(listener: Remote<ProgressListener>) {
  let shown = -1
  let last: Promise<unknown> = Promise.resolve()
  return {
    listen(done: number, total: number) {
      const percent = Math.floor((100 * done) / (total || 1))
      if (percent === shown) return
      shown = percent
      // A listener that throws is no failure of the search.
      last = listener(done, total).catch(() => {})
    },
    /** Progress travels by a channel of its own: wait for it, so that none comes after the answer. */
    async finish() {
      await last
      listener[releaseProxy]()
    },
  }
}

function withListener(kind: Kind, args: readonly unknown[], onProgress: ProgressListener): readonly unknown[] {
  const { [OPTIONS_AT]: options = {} } = args
  if (argumentsOf[kind] <= OPTIONS_AT || !isRecord(options)) return args
  return [...args.slice(0, OPTIONS_AT), { ...options, onProgress }]
}

/** Answers questions with the engine's functions, on this worker's own scope or on another endpoint. */
export function serve(engine: Engine, endpoint?: Endpoint): void {
  const served: Served = {
    ping: () => true,
    async answer(kind, args, onProgress) {
      const progress = onProgress && byPercent(onProgress as unknown as Remote<ProgressListener>)
      try {
        const ask = Object.hasOwn(engine, kind) ? (engine[kind] as (...args: unknown[]) => unknown) : undefined
        if (!ask) throw new Error(unservedMessage(kind))
        return { value: await ask(...(progress ? withListener(kind, args, progress.listen) : args)) }
      } catch (error) {
        return { failure: failureOf(error) }
      } finally {
        await progress?.finish()
      }
    },
  }
  expose(served, endpoint)
}
