import { gather, type Problem } from '@trainwright/measures'
import type { Measurements, Recognition } from '@trainwright/threads'
import { readMeasured } from './ask-work.js'
import type { Job } from './job.js'
import type { Lazy } from './lazy.js'
import { Store } from './store.js'

export type Finder = typeof import('./thread-finder.js')

export interface Recognised {
  /** The threads that it may be, likeliest first; null while nothing is measured or it cannot be read. */
  found: readonly Recognition[] | null
  measured: Measurements | null
  /** What that comes to, in a sentence. */
  verdict: string
  problems: readonly Problem[]
}

/** Which published threads the measured one may be, told anew as the measurements are typed. */
export class Recognising extends Store<Recognised> {
  #measured: unknown
  #with: Finder | null = null

  constructor(
    private readonly job: Job,
    readonly finder: Lazy<Finder>,
  ) {
    super({ found: null, measured: null, verdict: '', problems: [] })
    for (const store of [job.typed, finder]) store.watch(() => this.#look())
    this.#look()
  }

  #look(): void {
    const { work } = this.job.thread
    const finder = this.finder.value
    if (work.measured === this.#measured && finder === this.#with) return
    this.#measured = work.measured
    this.#with = finder
    const problems: Problem[] = []
    const read = readMeasured(work, problems)
    const found =
      problems.length === 0 && read && finder ? gather(problems, () => finder.recogniseThread(read)) : undefined
    this.set({
      found: found ?? null,
      measured: read,
      verdict: found ? finder!.recognitionVerdict(found) : '',
      problems: problems.map((one) =>
        one.path.startsWith('measured') ? one : { ...one, path: `measured.${one.path}` },
      ),
    })
  }
}
