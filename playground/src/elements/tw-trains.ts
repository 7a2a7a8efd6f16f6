import { errorFigures, gearChanges, leadFigures, trainInLine } from '@trainwright/sheet'
import type { Train } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { shownTrain, trainKey } from '../state/picked.js'
import { changesInWords } from '../words-banjo.js'
import { Part } from './base.js'
import { choice, when } from './fields.js'

const FEW = 6

/** The other trains that go on, to be picked from. */
export class TrainsPart extends Part {
  static override properties = { all: { state: true } }
  private all = false

  #row(train: Train, shown: Train | null): TemplateResult {
    const gears = train.shafts.reduce((sum, shaft) => sum + shaft.gears.length, 0)
    const { ppm } = errorFigures(train)
    const mounted = this.desk.job.answers.value.question?.options.mounted
    const cautions = train.cautions.map(({ message }) => message).join(' ')
    return html`<label class="train-row">
      <input
        type="radio"
        name="train"
        .checked=${train === shown}
        @change=${() => this.desk.picked.set(trainKey(train))}
      />
      <span class="train-gears">${trainInLine(train)}</span>
      ${when(mounted, () => html`<span class="train-change">${changesInWords(gearChanges(train, mounted!))}</span>`)}
      <span class="train-count">${gears} gears</span>
      <span class="train-lead">${leadFigures(train).mm}</span>
      <span class="train-error">${ppm}</span>
      ${when(cautions, () => html`<span class="train-caution" title=${cautions}><span aria-hidden="true">⚠</span><span class="unseen">${cautions}</span></span>`)}
    </label>`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const answer = desk.job.answers.value
    const trains = answer.search?.trains ?? []
    const shown = shownTrain(answer, desk.picked.value)
    const list = this.all ? trains : trains.slice(0, FEW)
    const mountable = answer.search?.counts.mountable ?? 0
    return html`<div class="trains-head">
        <h3>Trains that go on</h3>
        ${choice({
          desk,
          path: 'options.order',
          label: 'First',
          value: desk.job.typed.value.order,
          options: [
            ['fewest gears', 'Fewest gears'],
            ['closest', 'Closest'],
          ],
          pick: (order) => desk.job.type({ order }),
        })}
      </div>
      <fieldset class="trains">
        <legend class="unseen">Train to show</legend>
        ${list.map((train) => this.#row(train, shown))}
      </fieldset>
      ${when(
        trains.length > FEW,
        () =>
          html`<p class="quiet-actions">
            <button type="button" class="quiet" aria-expanded=${this.all} @click=${() => {
              this.all = !this.all
            }}>
              ${this.all ? `Show the first ${FEW}` : `Show ${trains.length} of ${mountable}`}
            </button>
          </p>`,
      )}`
  }
}

customElements.define('tw-trains', TrainsPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-trains': TrainsPart
  }
}
