import { html, type TemplateResult } from 'lit'
import { blankKind } from '../state/typed.js'
import { Part } from './base.js'
import './tw-kind.js'

/** The box of change gears, kind by kind. Most have one. */
export class BoxPart extends Part {
  protected override render(): TemplateResult {
    const { desk } = this
    const { kinds } = desk.job.typed.value.workshop
    return html`${kinds.map((_, i) => html`<tw-kind .desk=${desk} .index=${i}></tw-kind>`)}
      <p class="quiet-actions">
        <button type="button" class="quiet" @click=${() => desk.job.put('kinds', [...kinds, blankKind()])}>
          + Add gears of another module, angle or place
        </button>
      </p>`
  }
}

customElements.define('tw-box', BoxPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-box': BoxPart
  }
}
