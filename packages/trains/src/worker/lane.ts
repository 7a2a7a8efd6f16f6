import { proxy } from 'comlink'
import type { ProgressListener } from '../contract.js'
import { abortError, errorOf, TrainWorkerError } from './failure.js'
import type { AbortReason } from './messages.js'
import type { Kind, WorkerLike } from './protocol.js'
import { startThread, type Thread } from './thread.js'

/** How to take a question back, and how to hear how far it is. */
export interface CallOptions {
  /** Takes the question back, at once. */
  signal?: AbortSignal | undefined
  /** Hears how far the search is, in whole percents at most; from 0 again when the question is asked once more. */
  onProgress?: ProgressListener | undefined
}

interface Question {
  args: readonly unknown[]
  onProgress: ProgressListener | undefined
  /** The worker may be at work on it: it answers nothing else until it is done. */
  begun: boolean
  deaths: number
  resolve(value: unknown): void
  reject(error: unknown): void
  /** Stops listening for its abort. */
  release(): void
}

/** A question is asked once more when its worker dies, and given up when that one dies too. */
const MOST_DEATHS = 2

/**
 * One kind of question of one client. At most one question is open, the newest, and at most one worker is there for it,
 * so that whatever is taken back can be cut off at once and nobody else is disturbed.
 */
export class Lane {
  #thread: Thread | undefined
  #question: Question | undefined
  #closed = false

  constructor(
    readonly kind: Kind,
    readonly spawn: () => WorkerLike,
    readonly patience: number,
  ) {}

  ask(args: readonly unknown[], { signal, onProgress }: CallOptions): Promise<unknown> {
    return new Promise((resolve, reject) => {
      if (this.#closed) throw abortError('closed')
      if (signal?.aborted) throw abortError('aborted')
      const stop = () => {
        const begun = question.begun
        this.#giveUp('aborted')
        // The next question finds a worker that is loaded.
        if (begun) this.#worker()
      }
      const release = () => signal?.removeEventListener('abort', stop)
      const question = { args, onProgress, begun: false, deaths: 0, resolve, reject, release }
      signal?.addEventListener('abort', stop)
      this.#giveUp('superseded')
      this.#question = question
      void this.#put(question)
    })
  }

  close(): void {
    this.#closed = true
    this.#giveUp('closed')
    this.#dismiss()
  }

  async #put(question: Question): Promise<void> {
    const thread = this.#worker()
    const open = () => this.#question === question && this.#thread === thread
    if (!thread || !open()) return
    try {
      await thread.ready()
      if (!open()) return
      question.begun = true
      const { onProgress } = question
      const listener = (done: number, total: number) => {
        if (open()) onProgress?.(done, total)
      }
      const answer = await thread.remote.answer(this.kind, question.args, onProgress && proxy(listener))
      if (!open()) return
      this.#take()
      if ('failure' in answer) question.reject(errorOf(answer.failure))
      else question.resolve(answer.value)
    } catch (error) {
      // The question itself could not be sent, or its answer: another worker could do no better.
      if (open()) this.#take()?.reject(error)
    }
  }

  /** The worker of this lane, started when there is none. None when it cannot be started: the question has heard. */
  #worker(): Thread | undefined {
    if (this.#thread) return this.#thread
    try {
      this.#thread = startThread(this.spawn, this.patience, (cause) => this.#lost(cause))
    } catch (cause) {
      this.#lost(cause)
    }
    return this.#thread
  }

  #lost(cause: unknown): void {
    this.#thread = undefined
    const question = this.#question
    if (!question) return
    question.begun = false
    question.deaths++
    if (question.deaths < MOST_DEATHS) void this.#put(question)
    else this.#take()?.reject(new TrainWorkerError(cause))
  }

  /** Takes the open question off, to be settled by the caller. */
  #take(): Question | undefined {
    const question = this.#question
    this.#question = undefined
    question?.release()
    return question
  }

  #giveUp(reason: AbortReason): void {
    const question = this.#take()
    if (question?.begun) this.#dismiss()
    question?.reject(abortError(reason))
  }

  #dismiss(): void {
    this.#thread?.end()
    this.#thread = undefined
  }
}
