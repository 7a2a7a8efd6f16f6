import type { Problem } from '@trainwright/measures'
import type { Desk } from '../elements/base.js'
import { ask } from './ask.js'
import { chartAsking } from './chart.js'
import { placedAtLimits } from './making.js'
import { gearAsking, type ReadGearQuestion, readGearQuestion } from './proposals.js'
import { Store } from './store.js'

/** What the parts for making gears share, from when the first of them is opened. */
export class GearDesk {
  readonly gears
  readonly charts
  /** Key of the proposal picked from the list; null for the first. */
  readonly picked = new Store<string | null>(null)
  /** Key of the proposal whose trains the chart adds; null for the first, '' for none. */
  readonly added = new Store<string | null>(null)
  read: ReadGearQuestion

  constructor(private readonly desk: Desk) {
    this.gears = gearAsking(desk.worker)
    this.charts = chartAsking(desk.worker)
    this.read = this.#readTyped()
    desk.job.typed.watch(() => {
      this.read = this.#readTyped()
      this.#tell()
    })
    this.gears.watch(() => this.#tell())
    this.#tell()
  }

  #readTyped(): ReadGearQuestion {
    const typed = this.desk.job.typed.value
    return readGearQuestion(typed, ask(typed))
  }

  /** Says what is wrong beside the fields, each thing once. */
  #tell(): void {
    const { own, question, problems } = this.read
    const about = this.gears.isAbout(question, problems) ? this.gears.value.problems : []
    const found = placedAtLimits(about).filter(({ path }) => !own.some((one) => one.path === path))
    const told: readonly Problem[] = [...own, ...found]
    this.desk.aside.set({ problems: told })
  }

  /** Asks which gear to make, for somebody is looking. */
  look(): void {
    this.gears.ask(this.read.question, this.read.problems)
  }
}

const desks = new WeakMap<Desk, GearDesk>()

export function gearDesk(desk: Desk): GearDesk {
  const known = desks.get(desk) ?? new GearDesk(desk)
  desks.set(desk, known)
  return known
}
