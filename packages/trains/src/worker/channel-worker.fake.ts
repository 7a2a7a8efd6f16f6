import type { WorkerLike } from './protocol.js'
import { type Engine, serve } from './serve.js'

/**
 * A worker of this thread, over a MessageChannel, that can be killed. Like a real one it hears nothing while a job runs,
 * though the job may be a promise here. `engine` null: it is silent.
 */
export class ChannelWorker extends EventTarget implements WorkerLike {
  readonly #channel = new MessageChannel()
  readonly #held: [unknown, Transferable[]][] = []
  #busy = false
  ended = false

  constructor(engine: Engine | null) {
    super()
    if (engine) serve(this.#deaf(engine), this.#channel.port2)
    this.#channel.port1.onmessage = ({ data }) => this.dispatchEvent(new MessageEvent('message', { data }))
  }

  #deaf(engine: Engine): Engine {
    const jobs = Object.entries(engine).map(([kind, job]) => [
      kind,
      async (...args: never[]) => {
        this.#busy = true
        try {
          return await job(...args)
        } finally {
          this.#busy = false
          for (const [message, transfer] of this.#held.splice(0)) this.postMessage(message, transfer)
        }
      },
    ])
    return Object.fromEntries(jobs)
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    if (this.#busy) this.#held.push([message, transfer])
    else this.#channel.port1.postMessage(message, transfer)
  }

  terminate(): void {
    this.ended = true
    this.#channel.port1.close()
    this.#channel.port2.close()
  }

  /** What a browser does when a worker throws where nobody catches it, or a message cannot be read. */
  die(cause?: unknown, type: 'error' | 'messageerror' = 'error'): void {
    this.dispatchEvent(
      Object.assign(new Event(type, { cancelable: true }), cause === undefined ? {} : { error: cause }),
    )
  }
}
