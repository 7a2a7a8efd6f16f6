import { html, nothing, type TemplateResult } from 'lit'
import { SHEETS, type SheetName } from '../state/top.js'
import { Part } from './base.js'
import { late } from './late.js'
import './tw-answer.js'

const names: Readonly<Record<SheetName, string>> = { train: 'Train', gear: 'Gear to make', chart: 'Chart' }

/** The sheets in their drawer. The one on top is the one that is printed. */
export class SheetsPart extends Part {
  protected override follows() {
    return [this.desk.top, this.desk.late]
  }

  get #top(): SheetName {
    return this.desk.top.value
  }

  /** Arrows go from tab to tab, as in any row of tabs. */
  #press(event: KeyboardEvent, at: number): void {
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: SHEETS.length - 1 }[event.key]
    if (to === undefined) return
    event.preventDefault()
    const sheet = SHEETS[(to + SHEETS.length) % SHEETS.length]!
    this.desk.top.set(sheet)
    this.querySelector<HTMLElement>(`#tab-${sheet}`)!.focus()
  }

  #tab(sheet: SheetName, at: number): TemplateResult {
    const on = sheet === this.#top
    return html`<button
      type="button"
      role="tab"
      class="tab"
      id="tab-${sheet}"
      aria-selected=${on}
      aria-controls="sheet-${sheet}"
      tabindex=${on ? 0 : -1}
      @click=${() => this.desk.top.set(sheet)}
      @keydown=${(event: KeyboardEvent) => this.#press(event, at)}
    >
      ${names[sheet]}
    </button>`
  }

  #sheet(sheet: SheetName, content: TemplateResult): TemplateResult {
    const on = sheet === this.#top
    return html`<section
      class="sheet"
      role="tabpanel"
      id="sheet-${sheet}"
      aria-labelledby="tab-${sheet}"
      tabindex="-1"
      ?hidden=${!on}
    >
      ${sheet === 'train' || on ? content : nothing}
    </section>`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    return html`<div class="tabs" role="tablist" aria-label="Sheets">${SHEETS.map((sheet, i) => this.#tab(sheet, i))}</div>
      ${this.#sheet('train', html`<tw-answer .desk=${desk}></tw-answer>`)}
      ${this.#sheet('gear', late(desk, html`<tw-gear .desk=${desk}></tw-gear>`))}
      ${this.#sheet('chart', late(desk, html`<tw-chart .desk=${desk}></tw-chart>`))}`
  }
}

customElements.define('tw-sheets', SheetsPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-sheets': SheetsPart
  }
}
