import { errorFigures, trainInLine } from '@trainwright/sheet'
import { html } from 'lit'
import { shopName } from '../keeping-words.js'
import { shownTrain } from '../state/picked.js'
import { withUnit } from '../state/read-text.js'
import { count, spoken, stamp, verdict } from '../words.js'
import { workSummary } from '../words-work.js'
import { Part } from './base.js'
import { fold, idOf, when } from './fields.js'
import './tw-box.js'
import './tw-keeping.js'
import './tw-lathe.js'
import { mountedSaid } from './tw-mounted.js'
import './tw-plans.js'
import './tw-sheets.js'
import './tw-thread.js'
import './tw-workshops.js'
import './tw-work.js'
import { allDrawn } from './turns.js'

/** ms of quiet before the answer is said to those who listen. */
const PAUSE = 900

/** The whole sheet: the job card with the question, the drawing sheet with the answer. */
export class App extends Part {
  static override properties = { wide: { type: Boolean }, said: { state: true }, inSight: { state: true } }
  /** Wide enough for the card to lie open beside the drawing. */
  wide = false
  private said = ''
  #pause: ReturnType<typeof setTimeout> | undefined

  /** Where something was wrong already. */
  #pointed: string[] = []

  /** Whether the answer itself can be seen, so that it need not be told twice. */
  private inSight = false

  protected override firstUpdated(): void {
    const look = (entries: IntersectionObserverEntry[]) => {
      this.inSight = entries.at(-1)!.isIntersecting
    }
    // In sight is in the upper part of the window: a strip of it at the foot says nothing yet.
    new IntersectionObserver(look, { rootMargin: '0px 0px -40% 0px' }).observe(this.querySelector('#answer')!)
    if (this.wide) this.#unfold('lathe', 'kinds')
  }

  /** Folds open by themselves where something is wrong, and are closed by hand only: nothing vanishes unasked. */
  #unfold(...names: string[]): void {
    for (const name of names) this.querySelector<HTMLDetailsElement>(`[data-fold=${name}]`)!.open = true
  }

  #unfoldRound(field: Element | null): void {
    for (let fold = field?.closest('details'); fold; fold = fold.parentElement?.closest('details')) fold.open = true
  }

  protected override updated(): void {
    this.#speak()
    void this.#point()
  }

  /** Shows where something is wrong, once it has been drawn. */
  async #point(): Promise<void> {
    if (this.desk.shown.value.size === 0) {
      this.#pointed = []
      return
    }
    await this.desk.answered
    await allDrawn()
    // A fold that was closed since stays closed: only what is newly wrong is pointed at.
    const all = [...this.desk.shown.value.keys()]
    const wrong = all.filter((path) => !this.#pointed.includes(path))
    this.#pointed = all
    this.#unfold(
      ...['lathe', 'kinds', 'mounted', 'wishes', 'making'].filter((name) =>
        wrong.some((path) => path.startsWith(name)),
      ),
    )
    if (wrong.some((path) => path.startsWith('lathe.banjo'))) this.#unfold('banjo')
    for (const path of wrong) this.#unfoldRound(this.querySelector(`#${idOf(path)}-note`))
  }

  #speak(): void {
    clearTimeout(this.#pause)
    const { job, picked } = this.desk
    const answer = job.answers.value
    const words = spoken(answer, shownTrain(answer, picked.value))
    if (words === this.said) return
    this.#pause = setTimeout(() => {
      this.said = words
    }, PAUSE)
  }

  #boxSummary(): string {
    const gears = this.desk.job.read.flatMap((kind) => kind ?? [])
    return count(
      gears.reduce((sum, { count = 1 }) => sum + count, 0),
      'gear',
    )
  }

  #latheSummary(): string {
    const { leadscrew, studs, planes } = this.desk.job.typed.value.workshop.lathe
    return `${withUnit(leadscrew.pitch)}${leadscrew.hand === 'left' ? ' left-hand' : ''}, ${count(studs, 'stud')}, ${count(planes, 'plane')}`
  }

  protected override render() {
    const { desk } = this
    const answer = desk.job.answers.value
    const train = shownTrain(answer, desk.picked.value)
    // A train that fails is not told like one that goes on.
    const word = train && stamp(answer, train)
    const fails = word === 'Out of tolerance' || word === 'Does not fit'
    const line = train && !fails ? trainInLine(train) : verdict(answer)
    const error = word === 'Old' ? 'old answer' : train && !fails && errorFigures(train).ppm
    return html`<a class="unseen skip" href="#answer">To the answer</a>
      <header class="band">
        <h1><img src="./icon.svg" alt="" width="28" height="28" />Trainwright</h1>
        <p>Change gears for the thread in hand</p>
        <tw-keeping .desk=${desk}></tw-keeping>
      </header>
      <main>
        <form class="card" aria-label="Job card" @submit=${(event: Event) => event.preventDefault()}>
          <tw-thread .desk=${desk}></tw-thread>
          ${fold('workshops', 'Workshop', shopName(desk.job.typed.value.workshop.name), html`<tw-workshops .desk=${desk}></tw-workshops>`)}
          ${fold('work', 'The thread itself', workSummary(desk.job.thread.work), html`<tw-work .desk=${desk}></tw-work>`)}
          ${fold('lathe', 'Lathe', this.#latheSummary(), html`<tw-lathe .desk=${desk}></tw-lathe>`)}
          ${fold('kinds', 'Box of gears', this.#boxSummary(), html`<tw-box .desk=${desk}></tw-box>`)}
          ${fold('mounted', 'On the lathe now', mountedSaid(desk), html`<tw-mounted .desk=${desk}></tw-mounted>`)}
          <tw-plans .desk=${desk}></tw-plans>
        </form>
        <tw-sheets id="answer" tabindex="-1" .desk=${desk}></tw-sheets>
      </main>
      <a class="glance" href="#answer" @click=${() => desk.top.set('train')} ?hidden=${this.inSight} data-state=${answer.current && !fails ? 'current' : 'old'}>
        <span class="glance-gears">${line}</span>
        ${when(error, () => html`<span class="glance-error">${error}</span>`)}
      </a>
      <p class="unseen" role="status">${this.said}</p>`
  }
}

customElements.define('tw-app', App)

declare global {
  interface HTMLElementTagNameMap {
    'tw-app': App
  }
}
