import { type ChartLine, type ChartSheet, chartSheet } from '@trainwright/sheet'
import type { ThreadWanted } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { ask } from '../state/ask.js'
import { type ChartAnswer, type ChartQuestion, readChartQuestion } from '../state/chart.js'
import { gearDesk } from '../state/gear-desk.js'
import { gearKey, type Proposal } from '../state/proposals.js'
import { chartVerdict, teethOf } from '../words-making.js'
import { Part } from './base.js'
import { choice, unfold, when } from './fields.js'
import { searchLine } from './search-line.js'
import { seriesName, seriesOptions } from './series-options.js'

/** Past this nobody wants to know how close the closest comes. */
const NEAR_PPM = 20_000

const near = ({ error }: ChartLine): boolean => error !== null && Math.abs(error.value) < NEAR_PPM

/** The chart of the owner's own lathe and box, to be printed and hung by the headstock. */
export class ChartPart extends Part {
  #read!: ReturnType<typeof readChartQuestion>

  get #gears() {
    return gearDesk(this.desk)
  }

  protected override follows() {
    const { charts, added } = this.#gears
    return [this.desk.job.typed, charts, added]
  }

  protected override willUpdate(): void {
    super.willUpdate()
    const typed = this.desk.job.typed.value
    this.#read = readChartQuestion(typed, ask(typed))
    if (this.isConnected) this.#gears.charts.ask(this.#read.question, this.#read.problems)
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#gears.charts.leave()
  }

  protected override updated(): void {
    // So many rows have to share a page.
    const rows = this.querySelectorAll('tbody tr').length
    this.style.setProperty('--rows', String(Math.max(rows, 1)))
  }

  #asked(proposals: readonly Proposal[], added: Proposal | undefined): TemplateResult {
    const { of } = this.desk.job.typed.value.chart
    return html`<div class="asked chart-asked">
      <div class="cell">
        <label for="f-chart-of">Chart of</label>
        <select id="f-chart-of" @change=${(event: Event) => this.desk.job.put('chart.of', (event.target as HTMLSelectElement).value)}>
          <option value="" ?selected=${of === ''}>the wish list</option>
          ${seriesOptions(of)}
        </select>
      </div>
      ${choice({
        desk: this.desk,
        path: 'chart.sequence',
        label: 'In order',
        options: [
          ['as given', 'as given'],
          ['fewest changes', 'fewest changes'],
        ],
      })}
      ${choice({
        desk: this.desk,
        path: 'chart.order',
        label: 'Trains',
        value: this.desk.job.typed.value.order,
        options: [
          ['fewest gears', 'fewest gears'],
          ['closest', 'closest'],
        ],
        pick: (order) => this.desk.job.type({ order }),
      })}
      <div class="cell">
        <label for="f-chart-added">With a gear yet to be made</label>
        <select id="f-chart-added" ?disabled=${proposals.length === 0} @change=${(event: Event) => this.#gears.added.set((event.target as HTMLSelectElement).value)}>
          <option value="" ?selected=${!added}>none</option>
          ${proposals.map(
            (one) =>
              html`<option value=${gearKey(one.make)} ?selected=${one === added}>${teethOf(one.make)}: ${one.opens.length} more</option>`,
          )}
        </select>
      </div>
      <div class="tools">
        ${when(of === '', () => html`<button type="button" class="key wide" @click=${() => unfold('wishes')}>Wish list</button>`)}
        <button type="button" class="key wide" @click=${() => window.print()}>Print</button>
      </div>
    </div>`
  }

  #row(
    line: ChartLine,
    wanted: readonly ThreadWanted[],
    added: ChartLine | undefined,
    made: readonly number[],
  ): TemplateResult {
    const { pitch, name, hand, starts = 1 } = wanted[line.wanted]!
    const more = [starts > 1 && `${starts} starts`, hand === 'left' && 'LH'].filter(Boolean).join(', ')
    const cut = line.line ? line : added
    // Of a pair some threads need one gear only.
    const needed = made.filter((teeth) => cut?.line?.match(/\d+/g)?.includes(String(teeth)))
    return html`<tr ?data-added=${cut === added && added !== undefined}>
      <th scope="row">${pitch}${when(more, () => html` <b>${more}</b>`)}</th>
      <td>${name ?? ''}</td>
      ${
        cut
          ? html`<td>
                ${when(cut === added, () => html`<b class="chart-with">with ${needed.join(' and ')}</b> `)}<span class="chart-train">${cut.line}</span>
                ${when(cut.setting, () => html`<span class="minor">${cut.setting}</span>`)}
              </td>
              <td>${cut.error!.text}</td>`
          : html`<td class="chart-none" colspan="2">no train${when(near(line), () => html`; closest ${line.error!.text}`)}</td>`
      }
    </tr>`
  }

  #sheet({ rows, adds }: ChartSheet, { of, wanted, workshop }: ChartQuestion): TemplateResult {
    const { name, gears, lathe } = workshop
    const screw = `leadscrew ${lathe.leadscrew.pitch}${lathe.leadscrew.hand === 'left' ? ' left-hand' : ''}`
    const made = adds?.make.map(({ teeth }) => teeth) ?? []
    const box = gears.map(({ teeth, count = 1 }) => `${teeth}${count > 1 ? `×${count}` : ''}`).join(' ')
    return html`<table class="set-up chart">
        <caption>
          ${of === '' ? 'Wish list' : seriesName(of)} <span class="minor">${[name, screw].filter(Boolean).join(', ')}</span>
        </caption>
        <thead>
          <tr>
            <th scope="col">Pitch</th>
            <th scope="col">Thread</th>
            <th scope="col">Driver → driven, from the spindle</th>
            <th scope="col">Error</th>
          </tr>
        </thead>
        <tbody>
          ${rows.map((line) => {
            const added = adds?.rows.find((one) => one.wanted === line.wanted)
            return this.#row(line, wanted, added, made)
          })}
        </tbody>
      </table>
      ${when(adds, () => html`<p class="set-note"><b>with ${made.join(' or ')}</b>: once ${made.length > 1 ? 'those gears are' : 'that gear is'} made.</p>`)}
      <p class="set-note">Idlers stand in brackets. Box: ${box}.</p>`
  }

  #answer({ rows, proposals }: ChartAnswer, question: ChartQuestion, added: Proposal | undefined): TemplateResult {
    if (question.wanted.length === 0)
      return html`<p class="set-note">
        The wish list is empty. <button type="button" class="quiet" @click=${() => unfold('wishes')}>Fill it</button>, or choose a
        series above.
      </p>`
    const proposal = added && proposals.includes(added) ? { proposal: added } : {}
    return this.#sheet(chartSheet(rows, question.wanted, { lathe: question.workshop.lathe, ...proposal }), question)
  }

  protected override render(): TemplateResult {
    const { charts, added } = this.#gears
    const told = charts.value
    const proposals = told.answer?.proposals ?? []
    const key = added.value
    const chosen = key === '' ? undefined : (proposals.find(({ make }) => gearKey(make) === key) ?? proposals[0])
    const verdict = chartVerdict(told)
    return html`<div class="proposals">
        <h2>Chart</h2>
        ${searchLine(told, verdict, {
          stop: () => charts.stop(),
          again: () => charts.again(this.#read.question, this.#read.problems),
        })}
        ${this.#asked(proposals, chosen)}
      </div>
      ${when(told.answer && told.question, () => this.#answer(told.answer!, told.question!, chosen))}
      <p class="unseen" role="status">${told.progress === null ? verdict : ''}</p>`
  }
}

customElements.define('tw-chart', ChartPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-chart': ChartPart
  }
}
