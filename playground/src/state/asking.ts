import { InputError, type Problem } from '@trainwright/measures'
import type { CallOptions } from '@trainwright/trains/worker'
import { Store } from './store.js'

/** What is known about a question that may take long. The last good answer stays until there is a better one. */
export interface Told<Q, A> {
  /** The last good answer, and the question that it answers. */
  answer: A | null
  question: Q | null
  /** Whether it answers what stands on the page now. */
  current: boolean
  /** How much of a long wait is over, 0 to 1; null when there is nothing to wait for, or not yet for long. */
  progress: number | null
  /** The owner stopped the search. */
  stopped: boolean
  problems: readonly Problem[]
  /** The search failed: what it said. */
  failure: string | null
}

/** ms before a wait is worth a word. */
const PATIENCE = 300
/** ms of quiet before a question takes the place of one that is still open: the worker of that one has to be ended. */
const QUIET = 200

/** Asks one kind of long question. Whoever asks something else no longer wants the earlier answer. */
export class Asking<Q, A> extends Store<Told<Q, A>> {
  #asked = ''
  #open: AbortController | undefined
  #quiet: ReturnType<typeof setTimeout> | undefined

  constructor(private readonly send: (question: Q, call: CallOptions) => Promise<A>) {
    super({
      answer: null,
      question: null,
      current: false,
      progress: null,
      stopped: false,
      problems: [],
      failure: null,
    })
  }

  #say(change: Partial<Told<Q, A>>): void {
    this.set({ ...this.value, ...change })
  }

  /** Whether what is known, or being found out, is about this question. */
  isAbout(question: Q, problems: readonly Problem[] = []): boolean {
    return JSON.stringify([question, problems]) === this.#asked
  }

  /** Asks, unless this very question was the last. With problems the answer is never taken for a current one. */
  ask(question: Q, problems: readonly Problem[] = []): void {
    if (this.isAbout(question, problems)) return
    this.#asked = JSON.stringify([question, problems])
    this.#endQuiet()
    if (this.#open) this.#quiet = setTimeout(() => void this.#ask(question, problems), QUIET)
    else void this.#ask(question, problems)
  }

  /** Takes the question back; the last good answer stays. */
  stop(): void {
    this.#cancel()
    this.#say({ current: false, progress: null, stopped: true })
  }

  /** Takes the question back because nobody looks any more; when somebody does, it is asked again. */
  leave(): void {
    if (!this.#open && !this.#quiet) return
    this.#cancel()
    this.#asked = ''
    this.#say({ progress: null })
  }

  #endQuiet(): void {
    clearTimeout(this.#quiet)
    this.#quiet = undefined
  }

  #cancel(): void {
    this.#endQuiet()
    const open = this.#open
    this.#open = undefined
    open?.abort()
  }

  /** Asks once more what was stopped or failed. */
  again(question: Q, problems: readonly Problem[] = []): void {
    this.#asked = ''
    this.ask(question, problems)
  }

  async #ask(question: Q, problems: readonly Problem[]): Promise<void> {
    this.#cancel()
    const mine = new AbortController()
    this.#open = mine
    const open = () => this.#open === mine
    let progress = 0
    let patient = true
    if (this.value.stopped) this.#say({ stopped: false })
    const patience = setTimeout(() => {
      patient = false
      if (open()) this.#say({ progress })
    }, PATIENCE)
    const onProgress = (done: number, total: number) => {
      progress = total > 0 ? done / total : 1
      if (!patient && open()) this.#say({ progress })
    }
    try {
      const answer = await this.send(question, { signal: mine.signal, onProgress })
      if (!open()) return
      if (problems.length > 0) this.#refuse(problems)
      else this.set({ answer, question, current: true, progress: null, stopped: false, problems: [], failure: null })
    } catch (error) {
      if (!open()) return
      if (error instanceof InputError) this.#refuse([...problems, ...error.problems])
      else this.#say({ current: false, progress: null, failure: String((error as Error).message ?? error) })
    } finally {
      clearTimeout(patience)
      if (open()) this.#open = undefined
    }
  }

  #refuse(problems: readonly Problem[]): void {
    this.#say({ current: false, progress: null, problems, failure: null })
  }
}
