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
    const { job } = this.desk
    return choice<TypedYesNo>({
      path: `lathe.${key}`,
      label,
      value: job.typed.value.workshop.lathe[key],
      options: [
        ['yes', yes],
        ['no', no],
        ['unknown', 'Not said'],
      ],
      span: 6,
      pick: (value) => job.typeLathe({ [key]: value }),
    })
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { job } = desk
    const { lathe, wires } = job.typed.value.workshop
    return html`<details class="more" data-fold="lathe-work">
      <summary>Half nuts, nose, speeds and wires</summary>
      <div class="cells">
        ${this.#yesNo('halfNuts', 'Half nuts', 'Yes', 'None')}
        ${textField({
          desk,
          path: 'lathe.dial.travel',
          label: 'Chasing dial, one turn',
          value: lathe.dial.travel,
          hint: 'travel of the carriage: 4 in',
          type: (travel) => job.typeLathe({ dial: { ...lathe.dial, travel } }),
        })}
        ${textField({
          desk,
          path: 'lathe.dial.lines',
          label: 'Lines of the dial',
          value: lathe.dial.lines,
          hint: 'both blank: no dial',
          keys: 'numeric',
          type: (lines) => job.typeLathe({ dial: { ...lathe.dial, lines } }),
        })}
        ${this.#yesNo('screwedNose', 'The chuck', 'Screws on', 'Other')}
        ${textField({
          desk,
          path: 'lathe.speeds',
          label: 'Speeds of the spindle',
          value: lathe.speeds,
          hint: 'turns a minute: 45 80 150',
          span: 6,
          type: (speeds) => job.typeLathe({ speeds }),
        })}
        ${textField({
          desk,
          path: 'wires',
          label: 'Measuring wires owned',
          value: wires,
          hint: 'mm, or 0.018 in',
          span: 6,
          type: (wires) => job.typeWires(wires),
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
