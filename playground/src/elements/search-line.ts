import { html, type TemplateResult } from 'lit'
import type { Told } from '../state/asking.js'
import { when } from './fields.js'

/** How a long search stands: the verdict, how far it is, and the key that stops it. Always the same height. */
export function searchLine(
  {
    answer,
    current,
    progress,
    stopped,
    failure,
  }: Pick<Told<unknown, unknown>, 'answer' | 'current' | 'progress' | 'stopped' | 'failure'>,
  verdict: string,
  { stop, again }: { stop: () => void; again: () => void },
): TemplateResult {
  const state = current ? 'current' : answer || failure !== null || stopped ? 'old' : 'none'
  return html`<div class="verdict search-line" data-state=${state}>
    <p>${verdict}</p>
    ${when(
      progress !== null,
      () =>
        html`<progress max="1" .value=${progress!} aria-label="Search"></progress>
          <button type="button" class="key wide" @click=${stop}>Stop</button>`,
    )}
    ${when(stopped || failure !== null, () => html`<button type="button" class="key wide" @click=${again}>Search again</button>`)}
  </div>`
}
