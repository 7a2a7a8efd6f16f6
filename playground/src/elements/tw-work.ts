import { InputError } from '@trainwright/measures'
import { html, type TemplateResult } from 'lit'
import { readWork } from '../state/ask-work.js'
import type { TypedWork } from '../state/typed-work.js'
import { formNames } from '../words-work.js'
import { Part } from './base.js'
import { choice, type Field, mark, selectField, textField, when } from './fields.js'
import './tw-tool.js'

type Text = 'diameter' | 'engagement' | 'class' | 'allowance' | 'compound' | 'groove'

/** The thread in hand besides its pitch: what the sheet needs to say what to turn, how to feed, and what to measure. */
export class WorkPart extends Part {
  static override properties = { refused: { state: true } }
  /** Why the lead tolerance could not be set. */
  private refused = ''

  protected override follows() {
    return [this.desk.job.typed, this.desk.shown]
  }

  #text(key: Text, label: string, hint: string, more: Partial<Field> = {}): TemplateResult {
    const { desk } = this
    return textField({
      desk,
      path: `work.${key}`,
      label,
      hint,
      ...more,
    })
  }

  #own(): TemplateResult {
    const { desk } = this
    const part = (key: keyof TypedWork['own'], label: string, hint: string) =>
      textField({
        desk,
        path: `work.own.${key}`,
        label,
        hint,
        keys: 'decimal',
        span: 2,
      })
    return html`${part('angle', 'Angle', 'degrees, both flanks')} ${part('crest', 'Off the crest', 'of the sharp height: 0.125')}
    ${part('root', 'Off the root', '0 for sharp')}`
  }

  #limits({ limits, form }: TypedWork): TemplateResult {
    return html`${choice({
      desk: this.desk,
      path: 'work.limits',
      label: 'How closely it has to fit',
      options: [
        ['none', 'Not said'],
        ['class', 'By class'],
        ['allowance', 'Allowance'],
      ],
      span: 6,
    })}
    ${when(limits === 'class', () => this.#text('class', 'Class', form === 'ba' ? 'close or normal' : '6g for a screw, 6H for a nut'))}
    ${when(limits === 'allowance', () => this.#text('allowance', 'Allowance', 'mm on the effective diameter'))}
    ${when(
      limits !== 'none',
      () => html`<div class="cell span-3">
        <button type="button" class="key wide set-tolerance" @click=${() => this.#setTolerance()}>
          Set the lead tolerance by this
        </button>
        <p class="note" aria-live="polite">${this.refused ? mark(this.refused) : 'The lead may then eat half of it.'}</p>
      </div>`,
    )}`
  }

  async #setTolerance(): Promise<void> {
    const { job, recognising } = this.desk
    const { finder } = recognising
    await finder.load()
    const work = readWork(job.thread.work, [])
    this.refused = finder.value ? '' : 'The tables could not be loaded.'
    if (!finder.value) return
    try {
      if (!work) throw new InputError([{ path: 'form', code: 'missing', message: 'Give the form first.' }])
      const tolerance = finder.value.leadToleranceOf(work, job.thread.pitch)
      job.put('wanted.tolerance', { ...job.thread.tolerance, by: 'length', ...tolerance })
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      const missing = error.problems.some(({ path }) => path === 'engagement')
      this.refused = missing ? 'Give the length of engagement first.' : error.problems[0]!.message
    }
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { work } = desk.job.thread
    return html`<div class="cells">
        ${selectField({
          desk,
          path: 'work.form',
          label: 'Form',
          options: Object.entries(formNames) as [TypedWork['form'], string][],
          hint: 'With form and diameter the sheet holds blank, passes and wires.',
          span: 6,
        })}
        ${when(work.form === 'own', () => this.#own())}
        ${choice({
          desk,
          path: 'work.by',
          label: 'Known diameter',
          options: [
            ['major', 'Major'],
            ['effective', 'Effective'],
          ],
        })}
        ${this.#text('diameter', work.by === 'major' ? 'Major diameter' : 'Effective diameter', '6 mm, 1/4 in')}
        ${choice({
          desk,
          path: 'work.cut',
          label: 'What is cut',
          options: [
            ['screw', 'Screw'],
            ['nut', 'Nut'],
          ],
        })}
        ${this.#text('engagement', 'Engagement', 'length of nut on screw, mm')} ${this.#limits(work)}
        ${this.#text('compound', 'Compound slide at', "degrees from the cross-slide's travel; 0 straight in", { keys: 'decimal' })}
        ${this.#text('groove', 'Run-out groove', 'width, mm')}
      </div>
      <tw-tool .desk=${desk}></tw-tool>`
  }
}

customElements.define('tw-work', WorkPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-work': WorkPart
  }
}
