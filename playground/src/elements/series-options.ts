import { seriesNames } from '@trainwright/threads'
import { html, type TemplateResult } from 'lit'

/** Series by the names that an owner knows; the rest are their own. */
const known: Readonly<Record<string, string>> = {
  M: 'ISO metric, coarse',
  'M fine': 'ISO metric, fine',
  BSW: 'Whitworth (BSW)',
  BSF: 'British Standard Fine (BSF)',
  BSP: 'British Standard Pipe (BSP)',
  BSB: 'British Standard Brass',
  ME: 'Model Engineer (ME)',
  Tr: 'Metric trapezoidal (Tr)',
}

export const seriesName = (series: string): string => known[series] ?? series

/** The published series, to be chosen from. */
export const seriesOptions = (chosen: string): TemplateResult[] =>
  seriesNames().map((name) => html`<option value=${name} ?selected=${name === chosen}>${seriesName(name)}</option>`)
