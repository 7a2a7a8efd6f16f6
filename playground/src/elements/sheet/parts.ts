import type { Amount, Length, Range } from '@trainwright/sheet'
import { html, nothing, type TemplateResult } from 'lit'
import type { Units } from '../../state/typed.js'
import { inUnit, sentenceInUnit } from '../../state/units.js'

/** How a sheet is written: lengths in the unit that the person reads. */
export interface Pen {
  length(length: Length): string
  range(range: Range): string
  /** A sentence with its lengths in that unit. */
  say(sentence: string): string
}

export const penIn = (units: Units): Pen => ({
  length: (length) => inUnit(length, units),
  range: ([least, greatest]) => `${inUnit(least, units)} to ${inUnit(greatest, units)}`,
  say: (sentence) => sentenceInUnit(sentence, units),
})

/** A part of the sheet, ruled off from the others. */
export const part = (name: string, title: string, ...content: unknown[]): TemplateResult =>
  html`<section class="part part-${name}">
    <h4>${title}</h4>
    ${content}
  </section>`

export type Figure = readonly [label: string, value: string | null | undefined]

/** Named figures, those that are known. */
export const figures = (...all: readonly Figure[]): TemplateResult =>
  html`<dl class="figures">
    ${all.map(([label, value]) => (value ? html`<div><dt>${label}</dt><dd>${value}</dd></div>` : nothing))}
  </dl>`

export const text = (amount: Amount | null): string | null => amount?.text ?? null

/** Where a sentence is known from; not for the bench, so it is not printed. */
export const source = (from: string): TemplateResult => html`<span class="source">${from}</span>`

export type Row = readonly (string | TemplateResult)[]

/** Figures that are compared down a column. The first cell of a row names it. */
export const table = (caption: string, heads: readonly string[], rows: readonly Row[]): TemplateResult =>
  html`<table class="figure-table">
    <caption class="unseen">
      ${caption}
    </caption>
    <thead>
      <tr>
        ${heads.map((head) => html`<th scope="col">${head}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ([name, ...cells]) => html`<tr>
          <th scope="row">${name}</th>
          ${cells.map((cell) => html`<td>${cell}</td>`)}
        </tr>`,
      )}
    </tbody>
  </table>`
