import type { Recognition } from '@trainwright/threads'
import { html, type TemplateResult } from 'lit'
import { takeMeasured, takePublished } from '../state/take-thread.js'
import type { TypedThread } from '../state/typed.js'
import { MEASURES, type Measure } from '../state/typed-work.js'
import { deviationsInWords, formNames, measureNames } from '../words-work.js'
import { Part } from './base.js'
import { textField, when } from './fields.js'
import { late } from './late.js'

const MOST = 5

const hints: Record<Measure, string> = {
  major: 'by calipers: 5.92 mm, 0.233 in',
  effective: 'by three wires',
  pitch: 'by a pitch gauge: 0.66 mm, 26 tpi',
  angle: 'degrees between flanks',
}

const doubts: Record<Measure, string> = {
  major: 'Crests ±',
  effective: 'Effective ±',
  pitch: 'Pitch ±, mm',
  angle: 'Angle ±, degrees',
}

/** A thread known from a worn sample: what was measured, each with its doubt, and the published threads that it may be. */
export class MeasuredPart extends Part {
  protected override follows() {
    return [this.desk.job.typed, this.desk.recognising, this.desk.shown, this.desk.late]
  }

  #fill(thread: TypedThread): void {
    this.desk.picked.set(null)
    this.desk.job.put('wanted', thread)
  }

  #measure(what: Measure): TemplateResult {
    const { desk } = this
    return html`${textField({
      desk,
      path: `measured.${what}.value`,
      label: measureNames[what],
      hint: hints[what],
      span: 4,
    })}
    ${textField({
      desk,
      path: `measured.${what}.doubt`,
      label: doubts[what],
      span: 2,
    })}`
  }

  #candidate(one: Recognition): TemplateResult {
    const { job, recognising } = this.desk
    const { name, pitch, form, major } = one.thread
    return html`<li class="candidate">
      <p>
        <b>${name}</b> <span class="minor">${pitch}, ${formNames[form]}, ${major} mm</span>
      </p>
      <ul class="deviations">
        ${deviationsInWords(one, recognising.value.measured ?? {}).map((line) => html`<li>${line}</li>`)}
      </ul>
      <button
        type="button"
        class="key wide"
        @click=${() => this.#fill(takePublished(job.thread, one.thread, recognising.finder.value!.isThread))}
      >
        Take ${name}
      </button>
    </li>`
  }

  protected override render(): TemplateResult {
    const { job, recognising } = this.desk
    const { found, verdict } = recognising.value
    const more = (found?.length ?? 0) - MOST
    return html`<details class="more" data-fold="measured">
      <summary>Not known? Recognise it from measurements</summary>
      <div class="cells">${MEASURES.map((what) => this.#measure(what))}</div>
      <p class="set-note" aria-live="polite">
        ${verdict || 'Measure what you can; two figures say more than one.'}
      </p>
      ${late(this.desk)}
      ${when(
        found?.length,
        () => html`<ol class="candidates" aria-label="Threads that it may be, likeliest first">
          ${found!.slice(0, MOST).map((one) => this.#candidate(one))}
        </ol>`,
      )}
      ${when(more > 0, () => html`<p class="note">${more} more would fit: measure another figure, or more closely.</p>`)}
      ${when(
        found,
        () => html`<p class="quiet-actions">
          <button type="button" class="quiet" @click=${() => this.#fill(takeMeasured(job.thread))}>
            Treat it as my own, as measured
          </button>
        </p>`,
      )}
    </details>`
  }
}

customElements.define('tw-measured', MeasuredPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-measured': MeasuredPart
  }
}
