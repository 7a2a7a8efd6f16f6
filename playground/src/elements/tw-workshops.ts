import { html, type TemplateResult } from 'lit'
import { shopName } from '../keeping-words.js'
import { type Held, pageOf, shopOf, shopsOf } from '../state/held.js'
import type { Shop } from '../state/kept.js'
import { linkOf } from '../state/link.js'
import { withUnit } from '../state/read-text.js'
import { LARGEST, type Opened, readFile } from '../state/workshop-file.js'
import { Part } from './base.js'
import { textField, when } from './fields.js'
import { saveWorkshop } from './save-workshop.js'

/** The workshops of the person: one is open, the others lie beside it. */
export class WorkshopsPart extends Part {
  static override properties = { link: { state: true } }
  /** A link that could not be put on the clipboard, to be copied by hand, and what it links to. */
  private link = ''
  #linked: Held | undefined

  protected override follows() {
    return [this.desk.keeper, this.desk.shown]
  }

  /** Another workshop is open after this: nothing picked for the last one holds. */
  #another(act: () => void): void {
    this.desk.picked.set(null)
    act()
  }

  #add(): void {
    this.#another(() => this.desk.keeper.add())
    void this.updateComplete.then(() => this.querySelector<HTMLInputElement>('#f-name')?.focus())
  }

  async #open(input: HTMLInputElement): Promise<void> {
    const { keeper } = this.desk
    const file = input.files?.[0]
    if (!file) return
    const unreadable: Opened = { refusal: { code: 'unreadable' } }
    const opened: Opened =
      file.size > LARGEST ? { refusal: { code: 'too-big' } } : await file.text().then(readFile, () => unreadable)
    // The same file again is another choice.
    input.value = ''
    if ('refusal' in opened) keeper.say({ code: 'refused', from: 'file', refusal: opened.refusal })
    else this.#another(() => keeper.takeIn(opened.shop, opened.page))
  }

  async #link(): Promise<void> {
    const { keeper } = this.desk
    const { held } = keeper.value
    keeper.say(null)
    const link = await linkOf(shopOf(held), pageOf(held))
    this.link = ''
    this.#linked = held
    if (link === null) return keeper.say({ code: 'no-link' })
    const whole = location.href.replace(/#.*$/, '') + link
    try {
      await navigator.clipboard.writeText(whole)
      keeper.say({ code: 'copied' })
    } catch {
      this.link = whole
      await this.updateComplete
      this.querySelector<HTMLInputElement>('#f-link')!.select()
    }
  }

  #ticket(key: string, { workshop }: Shop): TemplateResult {
    const { keeper } = this.desk
    const pitch = withUnit(workshop.lathe.leadscrew.pitch).trim()
    return html`<li>
      <button
        type="button"
        class="ticket"
        aria-pressed=${key === keeper.value.held.open}
        @click=${() => this.#another(() => keeper.choose(key))}
      >
        <span class="ticket-name">${shopName(workshop.name)}</span>
        <span class="ticket-pitch">${pitch ? `leadscrew ${pitch}` : 'no leadscrew yet'}</span>
      </button>
    </li>`
  }

  #own(): TemplateResult {
    const { keeper } = this.desk
    return html`<ul class="tickets">
        ${shopsOf(keeper.value.held).map(([key, shop]) => this.#ticket(key, shop))}
        <li><button type="button" class="ticket add" @click=${() => this.#add()}>+ New workshop</button></li>
      </ul>
      <p class="tools">
        <button type="button" class="key wide" @click=${() => this.#another(() => keeper.copy())}>Make a copy</button>
        <button type="button" class="key wide" @click=${() => this.#another(() => keeper.remove())}>Remove</button>
        <button type="button" class="key wide" @click=${() => this.querySelector<HTMLInputElement>('[type=file]')!.click()}>
          Open a file
        </button>
        <input
          type="file"
          hidden
          aria-label="Workshop file"
          accept=".json,application/json"
          @change=${(event: Event) => this.#open(event.target as HTMLInputElement)}
        />
      </p>`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { keeper } = desk
    const { held, visiting } = keeper.value
    return html`<div class="cells">
        ${textField({
          desk,
          path: 'name',
          label: 'Name of this workshop',
          span: 6,
        })}
      </div>
      ${when(!visiting, () => this.#own())}
      <p class="tools">
        <button type="button" class="key wide" @click=${() => saveWorkshop(keeper)}>Save as a file</button>
        <button type="button" class="key wide" @click=${() => this.#link()}>Copy a link</button>
      </p>
      ${when(
        this.link && held === this.#linked,
        () => html`<div class="cells">
          <div class="cell span-6">
            <label for="f-link">Link to this question, to be copied</label>
            <div class="entry"><input id="f-link" type="text" readonly .value=${this.link} /></div>
          </div>
        </div>`,
      )}
      <p class="note">
        Threads wanted stay when you open another workshop. Undo reaches back to when this page was opened. A browser
        may forget what it keeps: a file is the copy that lasts.
      </p>`
  }
}

customElements.define('tw-workshops', WorkshopsPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-workshops': WorkshopsPart
  }
}
