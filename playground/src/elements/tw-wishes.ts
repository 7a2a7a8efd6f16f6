import { html, type TemplateResult } from 'lit'
import { gearDesk } from '../state/gear-desk.js'
import { seriesLines, withLines } from '../state/wishes.js'
import { Part } from './base.js'
import { areaField, textField } from './fields.js'
import { seriesOptions } from './series-options.js'

/** The wish list: a thread a line, kept as it was typed; published series put their lines at its end. */
export class WishesPart extends Part {
  static override properties = { chosen: { state: true }, said: { state: true } }
  private chosen = 'BA'
  private said = ''

  #add(): void {
    const { list } = this.desk.job.typed.value.wishes
    const longer = withLines(list, seriesLines(this.chosen))
    const count = (text: string) => text.split('\n').filter((line) => line.trim() !== '').length
    this.desk.job.put('wishes.list', longer)
    const more = count(longer) - count(list)
    this.said = more === 0 ? 'All of it is on the list already.' : `${more} pitches added at the end.`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    gearDesk(desk)
    return html`<div class="cells">
        ${areaField({
          desk,
          path: 'wishes.list',
          label: 'A thread a line: pitch and name, or the name of a published thread',
          hint: '0.9 mm 1 BA, 26 tpi LH clamp, M6, 1/4 BSF',
          rows: 5,
          span: 6,
        })}
        <div class="cell span-4">
          <label for="f-wishes-series">Published series</label>
          <div class="entry">
            <select
              id="f-wishes-series"
              @change=${(event: Event) => {
                this.chosen = (event.target as HTMLSelectElement).value
                this.said = ''
              }}
            >
              ${seriesOptions(this.chosen)}
            </select>
            <button type="button" class="key wide" @click=${() => this.#add()}>Add all</button>
          </div>
          <p class="note" role="status">${this.said}</p>
        </div>
        ${textField({
          desk,
          path: 'wishes.ppm',
          label: 'Tolerance, ppm',
          hint: '500 if left blank',
          keys: 'decimal',
          span: 2,
        })}
      </div>`
  }
}

customElements.define('tw-wishes', WishesPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-wishes': WishesPart
  }
}
