import type { Labelled, Length, PitchFigure, Range } from '@trainwright/sheet'
import { html, nothing, type TemplateResult } from 'lit'
import type { Units } from '../../state/typed.js'
import { inUnit, sentenceInUnit } from '../../state/units.js'

/** Writes a sheet: lengths in the unit that the person reads, sources once each, at the foot. */
export class Pen {
  /** Where what was written is known from, in the order of its marks. */
  readonly sources: string[] = []

  constructor(private readonly units: Units) {}

  length(length: Length): string {
    return inUnit(length, this.units)
  }

  range([least, greatest]: Range): string {
    return `${this.length(least)} to ${this.length(greatest)}`
  }

  /** A sentence of the sheet, its lengths in one unit. */
  say(sentence: string): string {
    return sentenceInUnit(sentence, this.units)
  }

  lead({ text, tpi }: PitchFigure): string {
    return this.units === 'inch' ? `${tpi}, ${text}` : `${text}, ${tpi}`
  }

  /** A labelled figure as a row; null for one that is not known. */
  row(figure: Labelled | null): Figure {
    if (!figure) return null
    const { label = '', text } = figure
    return [label, 'inch' in figure ? this.length(figure as Length) : this.say(text)]
  }

  /** The mark that leads to where a sentence is known from. */
  source(from: string): TemplateResult {
    if (!this.sources.includes(from)) this.sources.push(from)
    const mark = this.sources.indexOf(from) + 1
    return html`<sup class="source"><span class="unseen">source </span>${mark}</sup>`
  }
}

/** A part of the sheet, ruled off from the others. */
export const part = (name: string, title: string, ...content: unknown[]): TemplateResult =>
  html`<section class="part part-${name}">
    <h4>${title}</h4>
    ${content}
  </section>`

export type Figure = readonly [label: string, value: string] | null

/** Named figures, those that are known. */
export const figures = (...all: readonly Figure[]): TemplateResult =>
  html`<dl class="figures">
    ${all.map((figure) => (figure ? html`<div><dt>${figure[0]}</dt><dd>${figure[1]}</dd></div>` : nothing))}
  </dl>`

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
