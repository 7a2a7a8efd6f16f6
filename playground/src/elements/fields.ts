import { html, nothing, type TemplateResult } from 'lit'
import { inWords } from '../words.js'
import type { Desk } from './base.js'

export interface Field {
  desk: Desk
  /** Where problems of this field stand, and what its id is made of. */
  path: string
  label: string
  value: string
  /** Examples of what may be written; gives way to a problem. */
  hint?: string
  /** Which keys a telephone offers. */
  keys?: 'text' | 'decimal' | 'numeric'
  /** Lines of an area. */
  rows?: number
  /** Width in the ruled grid, sixths of a row. */
  span?: 1 | 2 | 3 | 4 | 6
  /** Keys that stand beside the entry. */
  beside?: TemplateResult
  type: (value: string) => void
}

export const idOf = (path: string): string => `f-${path.replace(/\W+/g, '-').replace(/-$/, '')}`

const isMissing = (desk: Desk, path: string): boolean =>
  (desk.shown.value.get(path) ?? []).some(({ code }) => code === 'missing')

export function problemsAt(desk: Desk, path: string): string {
  return (desk.shown.value.get(path) ?? []).map(inWords).join(' ')
}

/** A mark that does not rest on its colour. */
export const mark = (wrong: string): TemplateResult =>
  html`<strong class="wrong"><span aria-hidden="true">✗</span> ${wrong}</strong>`

/** The line under a field: what is wrong, else what may be written. */
export function note(desk: Desk, path: string, hint = ''): TemplateResult {
  const wrong = problemsAt(desk, path)
  return html`<p class="note" id="${idOf(path)}-note">
    ${wrong ? mark(wrong) : hint}${isMissing(desk, path) ? html` ${hint}` : ''}
  </p>`
}

type Entry = HTMLInputElement | HTMLTextAreaElement

/** A ruled cell: the label printed small, the entry large, and under it what may be written or what is wrong. */
function cell(field: Field, entry: (id: string, wrong: boolean, typed: (event: Event) => void) => TemplateResult) {
  const { desk, path, label, hint, span = 3, beside, type } = field
  const id = idOf(path)
  const wrong = problemsAt(desk, path) !== ''
  return html`<div
    class="cell span-${span}"
    ?data-wrong=${wrong}
    @focusin=${() => desk.shown.edit(path)}
    @focusout=${() => desk.shown.edit('')}
  >
    <label for=${id}>${label}</label>
    <div class="entry">${entry(id, wrong, (event) => type((event.target as Entry).value))}${beside}</div>
    ${note(desk, path, hint)}
  </div>`
}

/** A cell to write a line in. */
export const textField = (field: Field): TemplateResult =>
  cell(
    field,
    (id, wrong, typed) => html`<input
      id=${id}
      type="text"
      inputmode=${field.keys ?? 'text'}
      autocomplete="off"
      autocapitalize="off"
      spellcheck="false"
      .value=${field.value}
      aria-invalid=${wrong}
      aria-describedby="${id}-note"
      @input=${typed}
    />`,
  )

/** A cell of several lines, for boxes that do not fit in one. */
export const areaField = (field: Field): TemplateResult =>
  cell(
    field,
    (id, wrong, typed) => html`<textarea
      id=${id}
      rows=${field.rows ?? 2}
      autocomplete="off"
      spellcheck="false"
      .value=${field.value}
      aria-invalid=${wrong}
      aria-describedby="${id}-note"
      @input=${typed}
    ></textarea>`,
  )

export interface Choice<V extends string> {
  path: string
  label: string
  value: V
  options: readonly (readonly [value: V, label: string])[]
  span?: 2 | 3 | 4 | 6
  pick: (value: V) => void
}

/** One of a few, as boxes to tick side by side. */
export function choice<V extends string>({ path, label, value, options, span = 3, pick }: Choice<V>): TemplateResult {
  const id = idOf(path)
  return html`<fieldset class="cell choice span-${span}">
    <legend>${label}</legend>
    <div class="options">
      ${options.map(
        ([option, text]) => html`<label>
          <input
            type="radio"
            name=${id}
            value=${option}
            .checked=${option === value}
            @change=${() => pick(option)}
          /><span>${text}</span>
        </label>`,
      )}
    </div>
  </fieldset>`
}

/** A whole number with a thumb's width of − and + beside it. */
export function countField(field: Field): TemplateResult {
  const { label, value, type } = field
  const step = (by: number) => type(String(Math.max(0, (Number(value) || 0) + by)))
  const keys = html`<button type="button" class="key" aria-label="${label}: one fewer" @click=${() => step(-1)}>−</button>
    <button type="button" class="key" aria-label="${label}: one more" @click=${() => step(1)}>+</button>`
  return textField({ ...field, keys: 'numeric', beside: keys })
}

export interface Pick<V extends string> extends Choice<V> {
  desk: Desk
  hint?: string
}

/** One of more than stand side by side. */
export function selectField<V extends string>(field: Pick<V>): TemplateResult {
  const { desk, path, label, value, options, span = 3, hint, pick } = field
  const id = idOf(path)
  const wrong = problemsAt(desk, path) !== ''
  return html`<div class="cell span-${span}" ?data-wrong=${wrong}>
    <label for=${id}>${label}</label>
    <select
      id=${id}
      aria-invalid=${wrong}
      aria-describedby="${id}-note"
      @change=${(event: Event) => pick((event.target as HTMLSelectElement).value as V)}
    >
      ${options.map(([option, text]) => html`<option value=${option} ?selected=${option === value}>${text}</option>`)}
    </select>
    ${note(desk, path, hint)}
  </div>`
}

/** A box to tick. */
export const tick = (label: string, checked: boolean, set: (checked: boolean) => void): TemplateResult =>
  html`<label class="tick">
    <input type="checkbox" .checked=${checked} @change=${(e: Event) => set((e.target as HTMLInputElement).checked)} />
    <span>${label}</span>
  </label>`

/** A part of the card that folds away; `said` is what it holds, for as long as it is folded. */
export const fold = (
  name: string,
  heading: string,
  said: string,
  content: TemplateResult,
  opened: () => void = () => {},
): TemplateResult =>
  html`<details class="fold" data-fold=${name} @toggle=${(event: Event) => {
    if ((event.currentTarget as HTMLDetailsElement).open) opened()
  }}>
    <summary>
      <h2>${heading}</h2>
      <span class="fold-said">${said}</span>
    </summary>
    ${content}
  </details>`

/** Opens a part of the card from elsewhere and goes there. */
export function unfold(name: string): void {
  const part = document.querySelector<HTMLDetailsElement>(`[data-fold=${name}]`)!
  part.open = true
  part.querySelector('summary')!.focus()
  part.scrollIntoView({ block: 'start' })
}

/** Nothing, or what is worth showing. */
export const when = (condition: unknown, show: () => TemplateResult): TemplateResult | typeof nothing =>
  condition ? show() : nothing
