import type { SeriesThread } from '@trainwright/threads'
import { html, type TemplateResult } from 'lit'
import { takePublished } from '../state/take-thread.js'
import { formNames } from '../words-work.js'
import { Part } from './base.js'
import { mark, when } from './fields.js'

/** More than fit on a telephone are not read through: a letter more is typed sooner. */
const MOST = 24

/** A published thread looked up by its name: typing narrows the list, picking fills pitch, form and diameter. */
export class FinderPart extends Part {
  static override properties = { sought: { state: true }, open: { state: true }, at: { state: true } }
  private sought = ''
  private open = false
  private at = -1

  protected override follows() {
    return [this.desk.recognising.finder]
  }

  get #finder() {
    return this.desk.recognising.finder
  }

  #type(sought: string): void {
    this.sought = sought
    this.open = sought.trim() !== ''
    this.at = -1
  }

  #take(thread: SeriesThread): void {
    const { job, picked } = this.desk
    picked.set(null)
    job.put('wanted', takePublished(job.thread, thread, this.#finder.value!.isThread))
    this.sought = ''
    this.open = false
  }

  /** Takes the thread marked, or the first found; `exactly` only the one of that very name. The list may have to come yet. */
  async #choose(exactly: boolean): Promise<void> {
    const { sought, at } = this
    await this.#finder.load()
    const finder = this.#finder.value
    const thread = finder?.searchThreads(sought)[Math.max(at, 0)]
    if (thread && sought === this.sought && (!exactly || finder.isThread(sought))) this.#take(thread)
  }

  #key(event: KeyboardEvent, threads: readonly SeriesThread[]): void {
    const last = threads.length - 1
    const to: Record<string, number> = {
      ArrowDown: this.at >= last ? 0 : this.at + 1,
      ArrowUp: this.at <= 0 ? last : this.at - 1,
    }
    if (event.key in to) {
      this.open = this.sought.trim() !== ''
      this.at = to[event.key]!
    } else if (event.key === 'Enter') void this.#choose(false)
    else if (event.key === 'Escape' && this.open) this.#type('')
    else {
      if (event.key === 'Tab') void this.#choose(true)
      return
    }
    event.preventDefault()
  }

  protected override updated(): void {
    this.querySelector('[aria-selected=true]')?.scrollIntoView({ block: 'nearest' })
  }

  /** Pressing an option would take the focus from the entry, and with it the list. */
  #option(thread: SeriesThread, index: number): TemplateResult {
    const { name, pitch, form, major } = thread
    return html`<li
      role="option"
      id="finder-${index}"
      aria-selected=${index === this.at}
      @pointerdown=${(event: Event) => event.preventDefault()}
      @click=${() => this.#take(thread)}
    >
      <span class="finder-name">${name}</span>
      <span class="finder-said">${pitch}, ${formNames[form]}, ${major} mm</span>
    </li>`
  }

  #note(found: number): string | TemplateResult {
    if (this.#finder.failed) return 'The published threads could not be loaded: type the pitch below.'
    if (!this.open && this.sought.trim()) return mark('Not taken: choose it from the list.')
    if (!this.open || !this.#finder.value) return 'M6, 4 BA, 1/4 BSF: fills pitch, form and diameter'
    if (found === 0) return 'No published thread is called that.'
    return found > MOST ? `${MOST} of ${found}: type more of the name` : `${found} found`
  }

  protected override render(): TemplateResult {
    const all = this.#finder.value?.searchThreads(this.sought) ?? []
    const threads = all.slice(0, MOST)
    const shown = this.open && threads.length > 0
    return html`<div class="cells finder">
      <div class="cell span-6">
        <label for="f-finder">Pick a published thread</label>
        <div class="entry">
          <input
            id="f-finder"
            type="text"
            role="combobox"
            autocomplete="off"
            autocapitalize="off"
            spellcheck="false"
            aria-autocomplete="list"
            aria-expanded=${shown}
            aria-controls="finder-list"
            aria-activedescendant=${shown && this.at >= 0 ? `finder-${this.at}` : ''}
            aria-describedby="f-finder-note"
            .value=${this.sought}
            @focus=${() => {
              this.open = this.sought.trim() !== ''
              void this.#finder.load()
            }}
            @blur=${() => {
              this.open = false
            }}
            @input=${(event: Event) => this.#type((event.target as HTMLInputElement).value)}
            @keydown=${(event: KeyboardEvent) => this.#key(event, threads)}
          />
        </div>
        <p class="note" id="f-finder-note" aria-live="polite">${this.#note(all.length)}</p>
        <ul role="listbox" id="finder-list" aria-label="Published threads" ?hidden=${!shown}>
          ${when(shown, () => html`${threads.map((thread, i) => this.#option(thread, i))}`)}
        </ul>
      </div>
    </div>`
  }
}

customElements.define('tw-finder', FinderPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-finder': FinderPart
  }
}
