import { InputError, type Problem, type Rational } from '@trainwright/measures'
import { type Hand, type LaidOut, leadOf, type SetUp } from '@trainwright/trains'
import type { TrainWorker } from '@trainwright/trains/worker'
import { ask } from './ask.js'
import type { Job } from './job.js'
import { readSetUp } from './read-set-up.js'
import { Store } from './store.js'

/** What is known about the gears that are on the lathe now. */
export interface Now {
  setUp: SetUp | null
  /** What it cuts; null while that cannot be said. */
  cuts: { lead: Rational; hand: Hand; approximate: boolean } | null
  /** How it stands on the banjo; null without a banjo, or while it is worked out. */
  laid: LaidOut | null
  problems: readonly Problem[]
}

const nothing: Now = { setUp: null, cuts: null, laid: null, problems: [] }

/** Fields of the page by the paths of a set-up. */
const fieldOf = (path: string): string =>
  path === 'setUp'
    ? 'mounted.drive'
    : path.startsWith('setUp.stages')
      ? 'mounted.gears'
      : path.replace('setUp', 'mounted')

/** Works out what the gears that are on now cut, and how they stand, whenever they or the lathe change. */
export class Mounted extends Store<Now> {
  #asked = ''

  constructor(
    private readonly job: Job,
    private readonly worker: Pick<TrainWorker, 'layOut'>,
  ) {
    super(nothing)
    job.typed.watch(() => void this.#update())
    void this.#update()
  }

  async #update(): Promise<void> {
    const { job } = this
    const { mounted } = job.typed.value.workshop
    const problems: Problem[] = []
    const setUp = readSetUp(mounted, job.read, problems)
    const { lathe } = ask(job.typed.value).question.workshop
    const asked = JSON.stringify([setUp, problems, lathe])
    if (asked === this.#asked) return
    this.#asked = asked
    if (!setUp) return this.set({ ...nothing, problems })
    try {
      this.set({ setUp, cuts: leadOf(lathe, setUp), laid: null, problems })
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      // What is wrong with the lathe itself is told beside its own fields.
      const own = error.problems.filter(({ path }) => path.startsWith('setUp'))
      return this.set({ setUp, cuts: null, laid: null, problems: own.map((p) => ({ ...p, path: fieldOf(p.path) })) })
    }
    if (!lathe.banjo) return
    try {
      const laid = await this.worker.layOut(lathe, setUp)
      if (asked === this.#asked) this.set({ ...this.value, laid })
    } catch {
      // A lathe that cannot be is told beside its own fields.
    }
  }
}
