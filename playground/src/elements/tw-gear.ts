import { errorFigures, sizeOf, trainInLine } from '@trainwright/sheet'
import type { ThreadWanted } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { gearDesk } from '../state/gear-desk.js'
import { type GearAnswer, type GearQuestion, type Row, rowsOf } from '../state/proposals.js'
import { count } from '../words.js'
import { gearVerdict, limitsInWords, threadInFull, threadName, waysOut } from '../words-making.js'
import { Part } from './base.js'
import { choice, unfold, when } from './fields.js'
import { searchLine } from './search-line.js'
import './tw-gear-sheet.js'

const FEW = 4

/** Which gear to make: for the thread in hand and for the wish list; the one picked has its sheet below. */
export class GearPart extends Part {
  static override properties = { all: { state: true } }
  private all = false

  get #gears() {
    return gearDesk(this.desk)
  }

  protected override follows() {
    const { gears, picked } = this.#gears
    return [this.desk.job.typed, gears, picked]
  }

  protected override willUpdate(): void {
    super.willUpdate()
    if (this.isConnected) this.#gears.look()
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#gears.gears.leave()
  }

  #names(opens: Row['opens'], wanted: readonly ThreadWanted[]): string {
    return opens.map((one) => threadName(wanted[one.wanted]!)).join(', ')
  }

  #row(row: Row, group: string, picked: string, wanted: readonly ThreadWanted[]): TemplateResult {
    const { make, train, opens, worstErrorPpm } = row
    const key = `${group}${row.key}`
    const list = this.#names(opens, wanted)
    const worst = worstErrorPpm === 0 ? 'exact' : `within ${Math.ceil(worstErrorPpm)} ppm`
    const one = group === 'one'
    return html`<label class="gear-row">
      <input type="radio" name="gear" .checked=${key === picked} @change=${() => this.#gears.picked.set(key)} />
      <span class="gear-teeth">${make.map(({ teeth }) => teeth).join(' + ')}<span class="unseen"> teeth</span></span>
      <span class="gear-size">${sizeOf(make[0]!)}</span>
      <span class="gear-opens">
        ${when(one && train, () => html`<b>${trainInLine(train!)}</b>`)}
        ${when(!one && train, () => html`<b>${threadInFull(wanted[0]!)}</b>${list ? ', ' : ''}`)}
        ${when(one && list, () => html`<span class="minor">and of the wish list ${opens.length}: ${list}</span>`)}
        ${one ? '' : list}
      </span>
      <span class="gear-error">${one && train ? errorFigures(train).ppm : html`${count(opens.length + (train ? 1 : 0), 'thread')}<span class="minor">${worst}</span>`}</span>
    </label>`
  }

  #group(name: string, heading: string, rows: readonly Row[], picked: string, wanted: readonly ThreadWanted[]) {
    const shown = this.all ? rows : rows.slice(0, FEW)
    return html`<h3>${heading}</h3>
      ${shown.map((row) => this.#row(row, name, picked, wanted))}`
  }

  /** What needs no gear, and what none helps, in plain words. */
  #rest({ one, all }: GearAnswer, { wanted, options }: GearQuestion): TemplateResult {
    const { making } = this.#gears.read
    const already = all?.already.filter((thread) => thread.wanted > 0) ?? []
    const never = all?.never.filter((thread) => thread > 0).map((thread) => threadName(wanted[thread]!)) ?? []
    const make = options.make === 2 ? 'pair' : 'gear'
    return html`${when(
      one.never.length > 0,
      () =>
        html`<section class="why" aria-label="Why no gear">
          <h3>No ${make} opens ${threadInFull(wanted[0]!)}</h3>
          <p>Asked for: ${limitsInWords(making)}.</p>
          <ul>${waysOut(making).map((way) => html`<li>${way}</li>`)}</ul>
        </section>`,
    )}
    ${when(
      one.already.length > 0,
      () =>
        html`<p class="set-note">${threadInFull(wanted[0]!)} needs no new gear: ${trainInLine(one.already[0]!.train)}.</p>`,
    )}
    ${when(
      already.length > 0 || never.length > 0,
      () =>
        html`<dl class="rest">
          ${when(already.length > 0, () => html`<div><dt>The box cuts now</dt><dd>${this.#names(already, wanted)}</dd></div>`)}
          ${when(never.length > 0, () => html`<div><dt>No ${make} opens</dt><dd>${never.join(', ')}</dd></div>`)}
        </dl>`,
    )}`
  }

  #answer(answer: GearAnswer, question: GearQuestion): TemplateResult {
    const { wanted } = question
    const rows = rowsOf(answer)
    const listed = [
      ...rows.one.map((row) => ({ row, key: `one${row.key}` })),
      ...rows.all.map((row) => ({ row, key: `all${row.key}` })),
    ]
    const chosen = listed.find(({ key }) => key === this.#gears.picked.value) ?? listed[0]
    const picked = chosen?.key ?? ''
    const most = Math.max(rows.one.length, rows.all.length)
    return html`<div class="proposals">
        ${this.#rest(answer, question)}
        <fieldset class="gears">
          <legend class="unseen">Gear to make</legend>
          ${when(rows.one.length, () => this.#group('one', `For ${threadInFull(wanted[0]!)}`, rows.one, picked, wanted))}
          ${when(rows.all.length, () => this.#group('all', 'For the whole list', rows.all, picked, wanted))}
        </fieldset>
        ${when(
          most > FEW,
          () =>
            html`<p class="quiet-actions">
              <button type="button" class="quiet" aria-expanded=${this.all} @click=${() => {
                this.all = !this.all
              }}>
                ${this.all ? 'Show fewer' : 'Show more gears'}
              </button>
            </p>`,
        )}
      </div>
      ${when(chosen, () => html`<tw-gear-sheet .desk=${this.desk} .row=${chosen!.row} .wanted=${wanted}></tw-gear-sheet>`)}`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { gears, read } = this.#gears
    const told = gears.value
    const verdict = gearVerdict(told)
    const wishes = read.question.wanted.length - 1
    return html`<div class="proposals">
        <h2>Gear to make</h2>
        ${searchLine(told, verdict, {
          stop: () => gears.stop(),
          again: () => gears.again(read.question, read.problems),
        })}
        <div class="asked">
          ${choice({
            desk,
            path: 'making.gears',
            label: 'Make',
            options: [
              ['1', 'One gear'],
              ['2', 'A pair'],
            ],
          })}
          <p>
            <button type="button" class="quiet" @click=${() => unfold('making')}>Limits: ${limitsInWords(read.making)}</button>
          </p>
          <p>
            <button type="button" class="quiet" @click=${() => unfold('wishes')}>Wish list: ${count(wishes, 'thread')} more</button>
          </p>
        </div>
      </div>
      ${when(told.answer && told.question, () => this.#answer(told.answer!, told.question!))}
      <p class="unseen" role="status">${told.progress === null ? verdict : ''}</p>`
  }
}

customElements.define('tw-gear', GearPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-gear': GearPart
  }
}
