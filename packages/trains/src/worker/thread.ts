import { type Remote, wrap } from 'comlink'
import { silentMessage } from './messages.js'
import type { Served, WorkerLike } from './protocol.js'

/** One worker from its start to its end. */
export interface Thread {
  remote: Remote<Served>
  /** Settles when the worker is loaded and idle; one that stays silent is lost. */
  ready(): Promise<void>
  /** Ends it at once; it is never heard of again. */
  end(): void
}

/** What an `error` event says; a `messageerror` event says nothing. */
const causeOf = (event: Event): unknown => {
  const { error, message } = event as ErrorEvent
  return error ?? (message ? new Error(message) : undefined)
}

/**
 * Starts a worker.
 * @param patience ms within which an idle worker must give a sign of life, loading included
 * @param lost called once when the worker dies, with the cause if there is one; it has been ended then
 */
export function startThread(spawn: () => WorkerLike, patience: number, lost: (cause: unknown) => void): Thread {
  const worker = spawn()
  const remote = wrap<Served>(worker)
  let late: ReturnType<typeof setTimeout> | undefined

  function end() {
    clearTimeout(late)
    worker.removeEventListener('error', onError)
    worker.removeEventListener('messageerror', onError)
    worker.terminate()
  }
  function onError(event: Event) {
    // It is handled here: it need not show up as an uncaught error of the page.
    event.preventDefault?.()
    end()
    lost(causeOf(event))
  }
  worker.addEventListener('error', onError as EventListener)
  worker.addEventListener('messageerror', onError as EventListener)

  return {
    remote,
    end,
    async ready() {
      late ??= setTimeout(() => {
        end()
        lost(new Error(silentMessage(patience)))
      }, patience)
      try {
        await remote.ping()
      } finally {
        clearTimeout(late)
        late = undefined
      }
    },
  }
}
