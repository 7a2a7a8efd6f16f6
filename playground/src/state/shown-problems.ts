import type { Problem } from '@trainwright/measures'
import type { Job } from './job.js'
import { type Placed, placeProblems } from './problems.js'
import { Store } from './store.js'

/** ms of quiet before a person who is still typing is told that it cannot be read yet. */
const QUIET = 700

/**
 * Problems as they are shown: at once when they are gone or stand elsewhere, but beside the field that is being typed
 * in only after a pause, so that `1/` on the way to `1/8` is not corrected.
 */
export class ShownProblems extends Store<Placed> {
  #editing = ''
  #timer: ReturnType<typeof setTimeout> | undefined

  constructor(
    private readonly job: Job,
    /** Others that find something wrong with what is typed. */
    private readonly others: readonly Store<{ problems: readonly Problem[] }>[] = [],
  ) {
    super(new Map())
    for (const source of [job.answers, ...others]) source.watch(() => this.#update(true))
    this.#update(false)
  }

  /** The field that has the focus; '' for none. */
  edit(field: string): void {
    this.#editing = field
    this.#update(true)
  }

  #update(patient: boolean): void {
    clearTimeout(this.#timer)
    const problems = [this.job.answers, ...this.others].flatMap(({ value }) => value.problems)
    const placed = new Map(placeProblems(problems, this.job.typed.value))
    if (patient && placed.has(this.#editing) && !this.value.has(this.#editing)) {
      placed.delete(this.#editing)
      this.#timer = setTimeout(() => this.#update(false), QUIET)
    }
    if (placed.size > 0 || this.value.size > 0) this.set(placed)
  }
}
