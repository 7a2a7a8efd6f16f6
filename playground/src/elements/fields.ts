import { html, nothing, type TemplateResult } from 'lit'
import { inWords } from '../words.js'
import type { Desk } from './base.js'

export interface Field {
  desk: Desk
  /** Where problems of this field stand, and what its id is made of. */
  path: string
  label: string
  /** What stands there now and what becomes of it; where the path says that itself, they are left out. */
  value?: string
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
  type?: (value: string) => void
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
function cell(
  field: Field,
  entry: (id: string, wrong: boolean, value: string, typed: (event: Event) => void) => TemplateResult,
) {
  const { desk, path, label, hint, span = 3, beside } = field
  const { value = desk.job.at(path), type = (text) => desk.job.put(path, text) } = field
  const id = idOf(path)
  const wrong = problemsAt(desk, path) !== ''
  return html`<div
    class="cell span-${span}"
    ?data-wrong=${wrong}
    @focusin=${() => desk.shown.edit(path)}
    @focusout=${() => desk.shown.edit('')}
  >
    <label for=${id}>${label}</label>
    <div class="entry">${entry(id, wrong, value, (event) => type((event.target as Entry).value))}${beside}</div>
    ${note(desk, path, hint)}
  </div>`
}

/** A cell to write a line in. */
export const textField = (field: Field): TemplateResult =>
  cell(
    field,
    (id, wrong, value, typed) => html`<input
      id=${id}
      type="text"
      inputmode=${field.keys ?? 'text'}
      autocomplete="off"
      autocapitalize="off"
      spellcheck="false"
      .value=${value}
      aria-invalid=${wrong}
      aria-describedby="${id}-note"
      @input=${typed}
    />`,
  )

/** A cell of several lines, for boxes that do not fit in one. */
export const areaField = (field: Field): TemplateResult =>
  cell(
    field,
    (id, wrong, value, typed) => html`<textarea
      id=${id}
      rows=${field.rows ?? 2}
      autocomplete="off"
      spellcheck="false"
      .value=${value}
      aria-invalid=${wrong}
      aria-describedby="${id}-note"
      @input=${typed}
    ></textarea>`,
  )

export interface Choice<V extends string> {
  /** Where the path says itself what is chosen and what becomes of it, that is left out. */
  desk: Desk
  path: string
  label: string
  value?: V
  options: readonly (readonly [value: V, label: string])[]
  span?: 2 | 3 | 4 | 6
  pick?: (value: V) => void
}

const chosen = <V extends string>({ desk, path, value, pick }: Choice<V>) => ({
  value: value ?? desk.job.at(path),
  pick: pick ?? ((value: V) => desk.job.put(path, value)),
})

/** One of a few, as boxes to tick side by side. */
export function choice<V extends string>(field: Choice<V>): TemplateResult {
  const { path, label, options, span = 3 } = field
  const { value, pick } = chosen(field)
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
  const { desk, path, label } = field
  const step = (by: number) => desk.job.put(path, String(Math.max(0, (Number(desk.job.at(path)) || 0) + by)))
  const keys = html`<button type="button" class="key" aria-label="${label}: one fewer" @click=${() => step(-1)}>−</button>
    <button type="button" class="key" aria-label="${label}: one more" @click=${() => step(1)}>+</button>`
  return textField({ ...field, keys: 'numeric', beside: keys })
}

export interface Pick<V extends string> extends Choice<V> {
  hint?: string
}

/** One of more than stand side by side. */
export function selectField<V extends string>(field: Pick<V>): TemplateResult {
  const { desk, path, label, options, span = 3, hint } = field
  const { value, pick } = chosen(field)
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

/** A box to tick whose path says what becomes of it. */
export const tickAt = ({ job }: Desk, path: string, label: string): TemplateResult =>
  tick(label, Boolean(job.at(path)), (on) => job.put(path, on))

/** A box to tick. */
export const tick = (label: string, checked: boolean, set: (checked: boolean) => void): TemplateResult =>
  html`<label class="tick">
    <input type="checkbox" .checked=${checked} @change=${(e: Event) => set((e.target as HTMLInputElement).checked)} />
    <span>${label}</span>
  </label>`

/** A part of the card that folds away; `said` is what it holds, for as long as it is folded. */
export const fold = (name: string, heading: string, said: string, content: TemplateResult): TemplateResult =>
  html`<details class="fold" data-fold=${name}>
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
