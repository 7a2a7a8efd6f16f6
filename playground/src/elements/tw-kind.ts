import type { GearStock, ShaftName } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { boxLine, changeCount, moveGear, removeKind } from '../state/box.js'
import { SHAFTS, type TypedKind } from '../state/typed.js'
import { Part } from './base.js'
import { areaField, choice, mark, problemsAt, textField, tick, when } from './fields.js'

const shaftNames: Record<ShaftName, string> = { input: 'input shaft', stud: 'studs', output: 'output shaft' }

/** 'module 1', '20 DP, 14.5°, studs only': what sets a kind apart. */
export function kindName({ by, size, angle, shafts }: TypedKind): string {
  const only =
    shafts.length === SHAFTS.length ? [] : [`${shafts.map((s) => shaftNames[s]).join(' and ') || 'no shaft'} only`]
  const size_ = by === 'module' ? `module ${size}` : `${size} DP`
  return [size_, ...(angle.trim() === '20' ? [] : [`${angle}°`]), ...only].join(', ')
}

/** Gears alike but for their teeth: the line as typed, the same gears as tallies on a board, and what they share. */
export class KindPart extends Part {
  static override properties = { index: { type: Number }, chosen: { state: true } }
  index = 0
  /** Teeth of the tally that is taken down to be changed. */
  private chosen: number | null = null

  /** The gears of the last line that could be read: they stay up, out of reach, while a new one is typed. */
  #hung: GearStock[] = []

  get #kinds(): TypedKind[] {
    return this.desk.job.typed.value.workshop.kinds
  }

  get #gears(): GearStock[] | null {
    return this.desk.job.read[this.index] ?? null
  }

  #count(teeth: number, by: number): void {
    this.desk.job.put(`kinds[${this.index}].line`, boxLine(changeCount(this.#gears ?? [], teeth, by)))
  }

  #move(teeth: number, to: number): void {
    const { job } = this.desk
    job.put(
      'kinds',
      moveGear(
        this.#kinds,
        job.read.map((gears) => gears ?? []),
        this.index,
        teeth,
        to,
      ),
    )
  }

  #tally({ teeth, count = 1 }: GearStock, old: boolean): TemplateResult {
    return html`<li>
      <button
        type="button"
        class="tally"
        data-teeth=${teeth}
        ?disabled=${old}
        aria-pressed=${this.chosen === teeth}
        @click=${() => {
          this.chosen = this.chosen === teeth ? null : teeth
        }}
      >
        ${teeth}<span class="unseen"> teeth</span>${when(count > 1, () => html`<span class="tally-count">×${count}</span>`)}
      </button>
    </li>`
  }

  #mover(teeth: number): TemplateResult {
    return html`<label class="move">
        <span>One to</span>
        <select
          @change=${(event: Event) => {
            const select = event.target as HTMLSelectElement
            const to = Number(select.value)
            select.value = ''
            this.#move(teeth, to)
          }}
        >
          <option value="" selected>another kind</option>
          ${this.#kinds.map((kind, i) => (i === this.index ? '' : html`<option value=${i}>${kindName(kind)}</option>`))}
        </select>
      </label>`
  }

  /** Always there, so that taking a tally down moves nothing. */
  #bench(gear: GearStock | undefined): TemplateResult {
    if (!gear)
      return html`<div class="tally-bench" ?data-movable=${this.#kinds.length > 1}><p class="note">${this.#gears ? 'Tap a gear to change it.' : 'As it was before the line above.'}</p></div>`
    const { teeth, count = 1 } = gear
    return html`<div class="tally-bench" ?data-movable=${this.#kinds.length > 1} role="group" aria-label="Gear of ${teeth} teeth">
      <button type="button" class="key" aria-label="One ${teeth} fewer" @click=${() => this.#count(teeth, -1)}>−</button>
      <p class="tally-said"><b>${count}</b> of ${teeth} teeth</p>
      <button type="button" class="key" aria-label="One ${teeth} more" @click=${() => this.#count(teeth, 1)}>+</button>
      <button type="button" class="key wide" @click=${() => this.#count(teeth, -count)}>
        Remove<span class="unseen"> ${teeth}</span>
      </button>
      ${when(this.#kinds.length > 1, () => this.#mover(teeth))}
    </div>`
  }

  #shared(kind: TypedKind): TemplateResult {
    const { desk, index } = this
    const path = `kinds[${index}]`
    const wrong = ['size', 'angle', 'shafts'].some((part) => problemsAt(desk, `${path}.${part}`))
    const shaftless = problemsAt(desk, `${path}.shafts`)
    const shaft = (name: ShaftName, on: boolean) =>
      desk.job.put(
        `${path}.shafts`,
        SHAFTS.filter((s) => (s === name ? on : kind.shafts.includes(s))),
      )
    return html`<details class="more" ?open=${wrong}>
      <summary>All of these: ${kindName(kind)}</summary>
      <div class="cells">
        ${choice({
          desk,
          path: `${path}.by`,
          label: 'Tooth size by',
          options: [
            ['module', 'Module'],
            ['dp', 'DP'],
          ],
        })}
        ${textField({
          desk,
          path: `${path}.size`,
          label: kind.by === 'module' ? 'Module, mm' : 'Teeth per inch of diameter',
          keys: 'decimal',
        })}
        ${textField({
          desk,
          path: `${path}.angle`,
          label: 'Pressure angle, degrees',
          hint: '20, or 14.5 on older sets',
          keys: 'decimal',
        })}
        <fieldset class="cell ticks span-3">
          <legend>Can sit on</legend>
          ${SHAFTS.map((name) => tick(shaftNames[name], kind.shafts.includes(name), (on) => shaft(name, on)))}
          <p class="note">${when(shaftless, () => mark(shaftless))}</p>
        </fieldset>
      </div>
      ${when(
        this.#kinds.length > 1,
        () =>
          html`<p class="quiet-actions">
            <button type="button" class="quiet" @click=${() => desk.job.put('kinds', removeKind(this.#kinds, index))}>
              Remove this kind and its gears
            </button>
          </p>`,
      )}
    </details>`
  }

  protected override render(): TemplateResult {
    const { desk, index } = this
    const kind = this.#kinds[index]
    if (!kind) return html``
    const gears = this.#gears
    if (gears) this.#hung = gears
    const many = this.#kinds.length > 1
    return html`<div class="cells">
        ${areaField({
          desk,
          path: `kinds[${index}].line`,
          label: many ? `Tooth counts, ${kindName(kind)}` : 'Tooth counts',
          hint: 'Two of a kind: 20x2',
          span: 6,
        })}
      </div>
      <ul class="rack" aria-label="Gears, ${kindName(kind)}">
        ${[...this.#hung].sort((a, b) => a.teeth - b.teeth).map((gear) => this.#tally(gear, gears === null))}
      </ul>
      ${this.#bench(gears?.find((gear) => gear.teeth === this.chosen))} ${this.#shared(kind)}`
  }
}

customElements.define('tw-kind', KindPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-kind': KindPart
  }
}
