import { leadFigures } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { shownTrain } from '../state/picked.js'
import { gearsLine } from '../state/read-set-up.js'
import type { TypedDrive } from '../state/typed.js'
import { standsAs } from '../words-banjo.js'
import { type Desk, Part } from './base.js'
import { selectField, textField, when } from './fields.js'

/** What is on the lathe, in few words, for its fold. */
export const mountedSaid = (desk: Desk): string => desk.job.typed.value.workshop.mounted.gears.trim() || 'not told'

/** The gears that are on the lathe now: what they cut, how they stand, and so what the next thread changes least. */
export class MountedPart extends Part {
  protected override follows() {
    return [...super.follows(), this.desk.mounted]
  }

  #setting(key: 'drive' | 'gearbox', label: string, list: readonly TypedDrive[]): TemplateResult {
    const { desk } = this
    const value = desk.job.typed.value.workshop.mounted[key]
    return selectField({
      desk,
      path: `mounted.${key}`,
      label,
      value: String(value),
      options: list.map(({ name, ratio }, i) => [String(i), name.trim() || `setting ${i + 1}, ${ratio}`]),
      pick: (index) => desk.job.put(`mounted.${key}`, Number(index)),
    })
  }

  #cuts(): TemplateResult {
    const { cuts, laid } = this.desk.mounted.value
    const { mm, tpi } = cuts ? leadFigures(cuts) : { mm: '', tpi: '' }
    return html`${when(cuts, () => html`<p><strong>Cuts lead ${mm} (${tpi}), ${cuts!.hand} hand.</strong></p>`)}
      ${when(laid, () => html`<p>${standsAs(laid!)}</p>`)}`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { mounted, lathe } = desk.job.typed.value.workshop
    const { drives, gearbox } = lathe
    const train = shownTrain(desk.job.answers.value, desk.picked.value)
    return html`<div class="cells">
        ${textField({
          desk,
          path: 'mounted.gears',
          label: 'Gears, stage by stage',
          hint: '24:72 48:80, idlers between: 20-20-48',
          span: 6,
        })}
        ${when(drives.length > 1, () => this.#setting('drive', 'Drive set to', drives))}
        ${when(gearbox.length > 1, () => this.#setting('gearbox', 'Gearbox set to', gearbox))}
      </div>
      <div class="banjo-said" aria-live="polite">${this.#cuts()}</div>
      <p class="banjo-head">
        ${when(
          train,
          () =>
            html`<button
              type="button"
              class="quiet"
              @click=${() => desk.job.put('mounted', { gears: gearsLine(train!), drive: train!.drive, gearbox: train!.gearbox })}
            >
              The train shown is on the lathe now
            </button>`,
        )}
        ${when(
          mounted.gears,
          () =>
            html`<button type="button" class="quiet" @click=${() => desk.job.put('mounted.gears', '')}>Clear the line</button>`,
        )}
      </p>`
  }
}

customElements.define('tw-mounted', MountedPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-mounted': MountedPart
  }
}
