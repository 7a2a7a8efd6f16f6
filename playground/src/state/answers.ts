import { InputError, type Problem } from '@trainwright/measures'
import type { TrainSearch } from '@trainwright/trains'
import type { Asked, Question } from './ask.js'
import { findMisfit, type Misfit, type Searcher } from './misfit.js'
import { Store } from './store.js'

/** What is known about the question on the page. The last good answer stays until there is a better one. */
export interface Answer {
  /** The last good answer, and the question that it answers. */
  search: TrainSearch | null
  question: Question | null
  /** When none goes on: the best train that would cut the thread, and what keeps it off. */
  misfit: Misfit | null
  /** Whether it answers what stands on the page now. */
  current: boolean
  /** A question is with the worker and has been for long enough to say so. */
  working: boolean
  /** How much of the search is done, 0 to 1, while it is worked on. */
  progress: number
  /** The owner stopped the search. */
  stopped: boolean
  problems: readonly Problem[]
  /** The worker failed: what it said. */
  failure: string | null
}

/** ms before a wait is worth a word; most answers come sooner, and a word that flashes is worse than none. */
const PATIENCE = 300

/** Nothing is known, and nothing is wrong. */
export const nothing: Answer = {
  search: null,
  question: null,
  misfit: null,
  current: false,
  working: false,
  progress: 0,
  stopped: false,
  problems: [],
  failure: null,
}

/** Asks the worker and keeps what it said. Whoever asks again no longer wants the earlier answer. */
export class Answers extends Store<Answer> {
  #latest = 0
  #strange = false
  #open = new AbortController()

  constructor(private readonly worker: Searcher) {
    super(nothing)
  }

  #say(change: Partial<Answer>): void {
    this.set({ ...this.value, ...change })
  }

  /** What is asked next is about another workshop: the last good answer is no old answer to that. */
  forget(): void {
    this.#strange = true
  }

  /** Takes the question back; the last good answer stays, as an old one. */
  stop(): void {
    this.#latest++
    this.#open.abort()
    this.#keep({ problems: this.value.problems, stopped: true })
  }

  async ask({ question, problems }: Asked): Promise<void> {
    const turn = ++this.#latest
    this.#open = new AbortController()
    const { signal } = this.#open
    let progress = 0
    const onProgress = (done: number, total: number) => {
      progress = done / (total || 1)
      if (turn === this.#latest && this.value.working) this.#say({ progress })
    }
    const wait = () => turn === this.#latest && this.#say({ working: true, progress, stopped: false })
    const patience = setTimeout(wait, PATIENCE)
    try {
      const { workshop, wanted, options } = question
      const search = await this.worker.findTrains(workshop, wanted, options, { signal, onProgress })
      if (turn !== this.#latest) return
      if (problems.length > 0) return this.#keep({ problems })
      const misfit = await findMisfit(this.worker, question, search, signal)
      if (turn !== this.#latest) return
      this.#strange = false
      this.set({ ...nothing, search, question, misfit, current: true })
    } catch (error) {
      if (turn !== this.#latest || (error as Error).name === 'AbortError') return
      if (error instanceof InputError) this.#keep({ problems: [...problems, ...unless(problems, error.problems)] })
      else this.#keep({ problems, failure: String((error as Error).message ?? error) })
    } finally {
      clearTimeout(patience)
    }
  }

  /** Keeps the last good answer, which is no answer to the question of now. */
  #keep(change: Partial<Answer>): void {
    const { search, question, misfit } = this.#strange ? nothing : this.value
    this.set({ ...nothing, search, question, misfit, ...change })
  }
}

/**
 * Gears that could not be read are missing from the question: what follows from that alone is not worth saying, nor is a
 * second thing of one field.
 */
const unless = (own: readonly Problem[], others: readonly Problem[]): readonly Problem[] => {
  const lacking = own.some(({ path }) => path.startsWith('kinds'))
  return others.filter(
    ({ path }) => !(lacking && /^gears$|fixedGears/.test(path)) && !own.some((one) => one.path === path),
  )
}
