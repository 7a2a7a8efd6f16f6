import { errorFigures, leadFigures, settingName, trainInLine } from '@trainwright/sheet'
import type { Train, Workshop } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import type { Answer } from '../state/answers.js'
import { shownTrain, trainKey } from '../state/picked.js'
import { isTooMany, stamp, verdict } from '../words.js'
import { Part } from './base.js'
import { when } from './fields.js'
import { searchLine } from './search-line.js'
import { turnTo } from './turn-to.js'
import './tw-drawing.js'
import './tw-set-up.js'
import './tw-sheet.js'
import './tw-trains.js'

/** The answer: what the train cuts, the train drawn, how to set it up, and the others; or why there is none. */
export class AnswerPart extends Part {
  /** One of the trains to look at when none is right, and what is wrong with it. */
  #lame(train: Train, wrong: string, shown: Train | null): TemplateResult {
    return html`<label class="train-row">
      <input
        type="radio"
        name="train"
        .checked=${train === shown}
        @change=${() => this.desk.picked.set(trainKey(train))}
      />
      <span class="train-gears">${trainInLine(train)}</span>
      <span class="train-error">${errorFigures(train).ppm}</span>
      <span class="train-change">${wrong}</span>
    </label>`
  }

  #why({ search, misfit }: Answer, shown: Train | null): TemplateResult {
    const { obstacles, closest } = search!
    const refused = isTooMany(obstacles)
    return html`<section class="why" aria-label="Why no train">
      <h3>What stands in the way</h3>
      ${when(obstacles.length > 1, () => html`<p>Each of these stops a different train: to lift one is enough.</p>`)}
      <ul>
        ${obstacles.map(({ message }) => html`<li>${message}</li>`)}
      </ul>
      ${when(
        !refused,
        () =>
          html`<p class="why-next">
            <button type="button" class="go" @click=${() => void turnTo(this.desk, 'gear')}>Which gear should I make?</button>
          </p>`,
      )}
      ${
        closest || misfit
          ? html`<fieldset class="trains">
              <legend>To look at all the same</legend>
              ${when(misfit, () => this.#lame(misfit!.train, `Cuts it, but does not fit. ${misfit!.obstacle?.message ?? ''}`, shown))}
              ${when(closest, () => this.#lame(closest!, 'Goes on, but is out of tolerance.', shown))}
            </fieldset>`
          : when(!refused, () => html`<p>Nothing from this box goes on.</p>`)
      }
    </section>`
  }

  /** The title block: the figures that a person looks for first. */
  #titleBlock(answer: Answer, train: Train): TemplateResult {
    const { mm, tpi } = leadFigures(train)
    const error = errorFigures(train)
    const inch = this.desk.job.typed.value.view.units === 'inch'
    const [lead, other, over] = inch ? [tpi, mm, error.inch] : [mm, tpi, error.over]
    const word = stamp(answer, train)
    const wanted = answer.question!.wanted
    const lathe = answer.question!.workshop.lathe
    const settings = [settingName(lathe.drives, train.drive), settingName(lathe.gearbox, train.gearbox)]
      .filter(Boolean)
      .join(', ')
    return html`<dl class="title-block">
      <div class="block-thread">
        <dt>For</dt>
        <dd>${wanted.name ?? 'Thread'} <span class="minor">${wanted.pitch}${(wanted.starts ?? 1) > 1 ? `, ${wanted.starts} starts` : ''}</span></dd>
      </div>
      <div>
        <dt>Lead</dt>
        <dd>${lead} <span class="minor">${other}</span></dd>
      </div>
      <div>
        <dt>Error</dt>
        <dd>${error.exact ? 'none' : error.ppm} <span class="minor">${over || 'the lead is exact'}</span></dd>
      </div>
      <div class="block-gears">
        <dt>Gears</dt>
        <dd>${trainInLine(train)}${when(settings, () => html` <span class="minor">with ${settings}</span>`)}</dd>
      </div>
      <div class="block-hand">
        <dt>Hand</dt>
        <dd>${train.hand}</dd>
      </div>
      <div class="block-stamp">
        <dt class="unseen">Verdict</dt>
        <dd><span class="stamp" data-stamp=${word}>${word}</span></dd>
      </div>
    </dl>`
  }

  #train(answer: Answer, train: Train, workshop: Workshop): TemplateResult {
    const { desk } = this
    return html`${this.#titleBlock(answer, train)}
      <div class="bench">
        <tw-drawing .desk=${desk} .train=${train} .lathe=${workshop.lathe}></tw-drawing>
        <tw-set-up .desk=${desk} .train=${train} .lathe=${workshop.lathe}></tw-set-up>
      </div>`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const answer = desk.job.answers.value
    const train = shownTrain(answer, desk.picked.value)
    const { search, question } = answer
    const loose = desk.shown.value.get('') ?? []
    return html`<h2 class="unseen">Answer</h2>
      ${searchLine({ ...answer, answer: search, progress: answer.working ? answer.progress : null }, verdict(answer), {
        stop: () => desk.job.answers.stop(),
        again: () => desk.job.again(),
      })}
      ${loose.map(({ path, message }) => html`<p class="wrong">${path}: ${message}</p>`)}
      ${when(search && search.trains.length === 0, () => this.#why(answer, train))}
      ${when(train && question, () => this.#train(answer, train!, question!.workshop))}
      ${when(search && search.trains.length > 0, () => html`<tw-trains .desk=${desk}></tw-trains>`)}
      ${when(train, () => html`<tw-sheet .desk=${desk}></tw-sheet>`)}`
  }
}

customElements.define('tw-answer', AnswerPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-answer': AnswerPart
  }
}
