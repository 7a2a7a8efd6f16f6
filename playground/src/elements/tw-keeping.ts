import { html, type TemplateResult } from 'lit'
import { standing } from '../keeping-words.js'
import { Part } from './base.js'
import { mark, when } from './fields.js'
import { saveWorkshop } from './save-workshop.js'

/** Undo and redo, and a line that says how what is typed is kept. */
export class KeepingPart extends Part {
  protected override follows() {
    return [this.desk.keeper, this.desk.updates]
  }

  /** Pressed or not, it stays where it is: a key that vanishes takes the focus with it. */
  #key(sign: string, name: string, steps: number, move: () => void): TemplateResult {
    return html`<button type="button" class="key wide" aria-disabled=${steps === 0} @click=${move}>
      <span aria-hidden="true">${sign}</span> <span class="key-word">${name}</span>
    </button>`
  }

  #action(name: string, act: () => void): TemplateResult {
    return html`<button type="button" class="key wide" @click=${act}>${name}</button>`
  }

  /** Keeps the question from the link, or goes back; either way the address is the page's own again. */
  #end(way: 'stay' | 'leave'): void {
    this.desk.picked.set(null)
    this.desk.keeper[way]()
    history.replaceState(null, '', location.pathname + location.search)
  }

  protected override render(): TemplateResult {
    const { keeper, updates } = this.desk
    const { visiting, kept, notice } = keeper.value
    const { back, forth } = keeper.steps
    const said = standing(keeper.value, updates.value)
    const code = notice?.code
    const wrong = code ? ['refused', 'not-kept', 'no-link'].includes(code) : !kept
    const passing = code === undefined || ['undone', 'redone', 'not-kept'].includes(code)
    const offered = updates.value && kept && !visiting && !notice
    return html`<div class="strip" role="group" aria-label="Keeping" data-news=${notice ? 'news' : 'none'} ?data-visit=${visiting}>
      ${this.#key('↶', 'Undo', back, () => keeper.undo())} ${this.#key('↷', 'Redo', forth, () => keeper.redo())}
      <output class="strip-said">${wrong ? mark(said) : said}</output>
      ${when(visiting, () => html`${this.#action('Keep it', () => this.#end('stay'))} ${this.#action('Back to mine', () => this.#end('leave'))}`)}
      ${when(!kept, () => this.#action('Save as a file', () => saveWorkshop(keeper)))}
      ${when(offered, () => this.#action('Take it', () => updates.take()))}
      ${when(!passing, () => this.#action('OK', () => keeper.say(null)))}
    </div>`
  }
}

customElements.define('tw-keeping', KeepingPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-keeping': KeepingPart
  }
}
