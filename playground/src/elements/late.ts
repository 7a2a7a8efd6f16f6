import { html, type TemplateResult } from 'lit'
import type { Desk } from './base.js'

/** A part that comes when it is first looked at, or what stands in its place when it did not come. */
export const late = ({ late }: Desk, part = html``): TemplateResult =>
  late.failed
    ? html`<p class="wrong">This part of the page could not be loaded: try again when there is a network.</p>
        <p><button type="button" class="key wide" @click=${() => void late.load()}>Try again</button></p>`
    : part
