import { gather, type Problem } from '@trainwright/measures'
import type { SetUpSheet, setUpSheet } from '@trainwright/sheet'
import type { Train } from '@trainwright/trains'
import type { Question } from './ask.js'
import { workProblems } from './ask-work.js'
import type { Job } from './job.js'
import type { Lazy } from './lazy.js'
import { shownTrain } from './picked.js'
import { same } from './same.js'
import { Store } from './store.js'

export interface SheetState {
  sheet: SetUpSheet | null
  /** Whether it is the sheet of what stands on the page now, the thread's own work included. */
  current: boolean
  problems: readonly Problem[]
}

/** Runs a piece of work once what is on the page has been drawn. */
type Later = (work: () => void) => void
const afterDrawing: Later = (work) => void setTimeout(work)

/** The set-up sheet of the train that is shown: made anew whenever the question, its answer or the choice changes. */
export class Sheets extends Store<SheetState> {
  /** What the sheet was made of. */
  #question: Question | null = null
  #train: Train | null = null
  #waiting = false

  constructor(
    private readonly job: Job,
    private readonly picked: Store<string | null>,
    readonly maker: Lazy<{ setUpSheet: typeof setUpSheet }>,
    private readonly later: Later = afterDrawing,
  ) {
    super({ sheet: null, current: false, problems: [] })
    for (const store of [job.answers, job.typed, picked, maker]) store.watch(() => this.#soon())
    this.#soon()
  }

  /** Answers come faster than anybody reads: a sheet is made of the last only. */
  #soon(): void {
    if (this.#waiting) return
    this.#waiting = true
    this.later(() => {
      this.#waiting = false
      this.#make()
    })
  }

  #make(): void {
    const { answers, typed } = this.job
    const { question, current } = answers.value
    const train = shownTrain(answers.value, this.picked.value)
    const problems = workProblems(typed.value)
    if (!question || !train || !this.maker.value) {
      this.set({ sheet: null, current: false, problems })
      return
    }
    const sheet = problems.length === 0 ? this.#sheet(question, train, problems) : undefined
    // Until the thread's work can be read, the sheet that there was stays if it is one of the same train.
    const shown =
      sheet ?? (this.#isOf(question, train) ? this.value.sheet : this.#sheet({ ...question, work: null }, train))
    this.#question = question
    this.#train = train
    this.set({ sheet: shown ?? null, current: current && sheet !== undefined, problems })
  }

  #sheet(question: Question, train: Train, problems: Problem[] = []): SetUpSheet | undefined {
    const { workshop, wanted, work, options } = question
    const { mounted } = options
    if (question === this.#question && train === this.#train && this.value.current) return this.value.sheet ?? undefined
    return gather(problems, () =>
      this.maker.value!.setUpSheet(workshop, wanted, train, work, mounted ? { mounted } : {}),
    )
  }

  /** Whether the sheet that there was is one of this train for this thread, whatever else has changed. */
  #isOf({ wanted }: Question, train: Train): boolean {
    return same([wanted, train], [this.#question?.wanted, this.#train])
  }
}
