import type { Problem } from '@trainwright/measures'
import type { TrainWorker } from '@trainwright/trains/worker'
import { LitElement, type PropertyDeclarations } from 'lit'
import type { Job } from '../state/job.js'
import type { Keeper } from '../state/keeper.js'
import type { Lazy } from '../state/lazy.js'
import type { Mounted } from '../state/mounted.js'
import type { Recognising } from '../state/recognising.js'
import type { Sheets } from '../state/sheets.js'
import type { ShownProblems } from '../state/shown-problems.js'
import { Follow, type Store } from '../state/store.js'
import type { SheetName } from '../state/top.js'
import type { Updates } from '../updates.js'
import { turn } from './turns.js'

/** What the elements of the page share. */
export interface Desk {
  worker: TrainWorker
  job: Job
  shown: ShownProblems
  /** Key of the train picked from the list; null for the best. */
  picked: Store<string | null>
  keeper: Keeper
  updates: Updates
  /** The set-up sheet of the train that is shown. */
  sheets: Sheets
  /** Which published thread the measured one may be; its finder looks threads up by name, too. */
  recognising: Recognising
  /** What the gears on the lathe now cut. */
  mounted: Mounted
  /** The sheet that lies on top. */
  top: Store<SheetName>
  /** All that the first answer does not wait for. */
  late: Lazy<unknown>
  /** What those parts find wrong. */
  aside: Store<{ problems: readonly Problem[] }>
  /** Settles when the answer to the first question, or why there is none, has been drawn. */
  answered: Promise<void>
}

/**
 * A part of the page. Rendered without a shadow root: one style sheet draws the whole sheet, and labels and
 * descriptions may point across parts.
 */
export class Part extends LitElement {
  static override properties: PropertyDeclarations = { desk: { attribute: false } }
  desk!: Desk
  #follow: Follow | undefined

  protected override createRenderRoot(): this {
    return this
  }

  /** First drawn when its turn comes; what is folded away lets the first answer go before. */
  protected override async scheduleUpdate(): Promise<void> {
    if (!this.hasUpdated) {
      // A part whose code came later than its tag has no desk yet, and need not wait.
      if (this.closest('details:not([open])')) await this.desk?.answered
      await turn()
    }
    super.scheduleUpdate()
  }

  /** The stores after whose changes this part renders again. */
  protected follows(): readonly Pick<Store<unknown>, 'watch'>[] {
    const { job, shown, picked } = this.desk
    return [job.typed, job.answers, shown, picked]
  }

  protected override willUpdate(): void {
    this.#follow ??= new Follow(this, this.follows())
  }
}
