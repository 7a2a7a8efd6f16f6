import type { Check, RunOut, SheetCaution, Starts } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { figures, type Pen, part, table } from './parts.js'

const times: Record<SheetCaution['when'], string> = {
  always: 'Always',
  gears: 'Gears',
  power: 'Power',
  cutting: 'Cutting',
  tap: 'Tap',
}

/** What to mind, by when it matters: safety stands first. */
export const cautionsPart = (pen: Pen, cautions: readonly SheetCaution[]): TemplateResult =>
  part(
    'cautions',
    'Safety, and what to mind',
    html`<dl class="minding">
      ${Object.entries(times).map(([time, name]) => {
        const now = cautions.filter(({ when }) => when === time)
        return now.length
          ? html`<div>
              <dt>${name}</dt>
              ${now.map(({ message, source: from }) => html`<dd>${pen.say(message)} ${pen.source(from)}</dd>`)}
            </div>`
          : ''
      })}
    </dl>`,
  )

/** The checks in the order in which they are made. */
export const checksPart = (pen: Pen, checks: readonly Check[]): TemplateResult =>
  part(
    'checks',
    'Checks, in this order',
    html`<ol class="checks">
      ${checks.map(
        ({ text, source: from }) =>
          html`<li><span class="box" aria-hidden="true"></span><span>${pen.say(text)} ${pen.source(from)}</span></li>`,
      )}
    </ol>`,
  )

const serving = (serves: boolean | null): string => (serves === null ? '–' : serves ? '✓ serves' : '✗ too fast')

/** Which way the carriage travels, and how fast it may run up to the groove. */
export function runOutPart(pen: Pen, runOut: RunOut): TemplateResult {
  const { groove, tool, limit, speeds } = runOut
  return part(
    'run-out',
    'Run-out',
    html`<p>${pen.say(runOut.text)}</p>`,
    figures(pen.row(groove), pen.row(tool), pen.row(limit)),
    speeds.length
      ? table(
          'Speeds of the lathe',
          ['Speed', 'Groove needed', 'Here'],
          speeds.map(({ speed, groove, serves }) => [speed.text, pen.length(groove), serving(serves)]),
        )
      : '',
  )
}

/** How the other starts are found. */
export const startsPart = (pen: Pen, { count, each }: Starts): TemplateResult =>
  part(
    'starts',
    `${count} starts`,
    html`<ul class="starts">
      ${each.map(({ label, text }) => html`<li>${label}: ${pen.say(text)}</li>`)}
    </ul>`,
  )

/** Where the sheet is known from. */
export const sourcesPart = (pen: Pen): TemplateResult =>
  part(
    'sources',
    'Sources',
    html`<ol class="sources">
      ${pen.sources.map((from) => html`<li>${from}</li>`)}
    </ol>`,
  )
