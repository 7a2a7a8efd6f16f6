import { html, type TemplateResult } from 'lit'
import type { TypedYesNo } from '../state/typed.js'
import { Part } from './base.js'
import { choice, textField } from './fields.js'

/** What the lathe has for cutting threads: half nuts and dial, nose, speeds; and the wires to measure with. */
export class LatheWorkPart extends Part {
  protected override follows() {
    return [this.desk.job.typed, this.desk.shown]
  }

  #yesNo(key: 'halfNuts' | 'screwedNose', label: string, yes: string, no: string): TemplateResult {
    return choice<TypedYesNo>({
      desk: this.desk,
      path: `lathe.${key}`,
      label,
      options: [
        ['yes', yes],
        ['no', no],
        ['unknown', 'Not said'],
      ],
      span: 6,
    })
  }

  protected override render(): TemplateResult {
    const { desk } = this
    return html`<details class="more" data-fold="lathe-work">
      <summary>Half nuts, nose, speeds and wires</summary>
      <div class="cells">
        ${this.#yesNo('halfNuts', 'Half nuts', 'Yes', 'None')}
        ${textField({
          desk,
          path: 'lathe.dial.travel',
          label: 'Chasing dial, one turn',
          hint: 'travel of the carriage: 4 in',
        })}
        ${textField({
          desk,
          path: 'lathe.dial.lines',
          label: 'Lines of the dial',
          hint: 'both blank: no dial',
          keys: 'numeric',
        })}
        ${this.#yesNo('screwedNose', 'The chuck', 'Screws on', 'Other')}
        ${textField({
          desk,
          path: 'lathe.speeds',
          label: 'Speeds of the spindle',
          hint: 'turns a minute: 45 80 150',
          span: 6,
        })}
        ${textField({
          desk,
          path: 'wires',
          label: 'Measuring wires owned',
          hint: 'mm, or 0.018 in',
          span: 6,
        })}
      </div>
    </details>`
  }
}

customElements.define('tw-lathe-work', LatheWorkPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-lathe-work': LatheWorkPart
  }
}
