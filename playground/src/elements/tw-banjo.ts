import { banjoToSvg, dimensionMeanings, workedOut } from '@trainwright/sheet/banjo'
import type { Sense } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { banjoToDraw } from '../state/draw-banjo.js'
import { readBanjo } from '../state/read-banjo.js'
import {
  blankKeepOut,
  blankSlot,
  type TypedBanjo,
  type TypedKeepOut,
  type TypedSlot,
  type TypedStop,
} from '../state/typed-banjo.js'
import { banjoVerdict } from '../words-banjo.js'
import { Part } from './base.js'
import { choice, note, textField, when } from './fields.js'

const AT = 'lathe.banjo'

type Length = 'near' | 'far' | 'length' | 'fromFirst' | 'from' | 'to' | 'offset' | 'angle'

/** What fields are called, on the drawing too. */
const names: Record<Length, string> = {
  near: 'near',
  far: 'far',
  length: 'length',
  fromFirst: 'between',
  from: 'from',
  to: 'to',
  offset: 'offset',
  angle: 'angle',
}

/** The banjo: as measured with rule and calipers, or from a drawing of it, and drawn as it is typed. */
export class BanjoPart extends Part {
  get #banjo(): TypedBanjo {
    return this.desk.job.typed.value.workshop.lathe.banjo
  }

  /** Left and right as they are seen: a mirrored machine has them the other way. */
  #sides<V extends string>(left: V, right: V): [V, string][] {
    const { mirror } = this.desk.job.typed.value.view
    return mirror
      ? [
          [right, 'Left'],
          [left, 'Right'],
        ]
      : [
          [left, 'Left'],
          [right, 'Right'],
        ]
  }

  #slot(index: number, change: Partial<TypedSlot>): void {
    this.desk.job.typeBanjo({
      slots: this.#banjo.slots.map((slot, i) => (i === index ? { ...slot, ...change } : slot)),
    })
  }

  #stop(index: number, change: Partial<TypedStop>): void {
    this.desk.job.typeBanjo({
      stops: this.#banjo.stops.map((stop, i) => (i === index ? { ...stop, ...change } : stop)),
    })
  }

  #field(index: number, key: Length, more = ''): TemplateResult {
    return textField({
      desk: this.desk,
      path: `${AT}.slots[${index}].${key}`,
      label: `${names[key]} ${index + 1}`,
      value: this.#banjo.slots[index]![key],
      hint: dimensionMeanings[key] + more,
      type: (text) => this.#slot(index, { [key]: text }),
    })
  }

  #side(path: string, label: string, value: Sense, pick: (lies: Sense) => void): TemplateResult {
    return choice({ path, label, value, options: this.#sides<Sense>('anticlockwise', 'clockwise'), pick })
  }

  #measuredSlot({ passes, lies }: TypedSlot, i: number): TemplateResult {
    return html`${this.#field(i, 'near')} ${this.#field(i, 'far')} ${this.#field(i, 'length', '; blank if the slot points at the pivot')}
      ${choice({
        path: `${AT}.slots[${i}].passes`,
        label: 'Passes the pivot on the',
        value: passes,
        options: this.#sides('left', 'right'),
        span: 3,
        pick: (passes) => this.#slot(i, { passes }),
      })}
      ${when(
        i > 0,
        () => html`${this.#field(i, 'fromFirst')}
          ${this.#side(`${AT}.slots[${i}].lies`, 'Lies from slot 1 to the', lies, (lies) => this.#slot(i, { lies }))}`,
      )}`
  }

  #drawnSlot({ angle }: TypedSlot, i: number): TemplateResult {
    const { mirror } = this.desk.job.typed.value.view
    const way = mirror ? 'right' : 'left'
    return html`${this.#field(i, 'from')} ${this.#field(i, 'to')}
      ${this.#field(i, 'offset', `, more than 0 to the ${way}`)}
      ${when(i > 0 || angle, () => this.#field(i, 'angle', `, more than 0 to the ${way}`))}`
  }

  #slots(): TemplateResult {
    const { desk } = this
    const { slots, by } = this.#banjo
    return html`${slots.map(
      (slot, i) => html`<div role="group" aria-label="Slot ${i + 1}">
        <div class="banjo-head">
          <h3>Slot ${i + 1}</h3>
          ${when(
            slots.length > 1,
            () => html`<button
              type="button"
              class="quiet"
              @click=${() => desk.job.typeBanjo({ slots: slots.filter((_, k) => k !== i) })}
            >
              Remove<span class="unseen"> slot ${i + 1}</span>
            </button>`,
          )}
        </div>
        <div class="cells">${by === 'measured' ? this.#measuredSlot(slot, i) : this.#drawnSlot(slot, i)}</div>
      </div>`,
    )}
      <p class="quiet-actions">
        <button type="button" class="quiet" @click=${() => desk.job.typeBanjo({ slots: [...slots, blankSlot()] })}>
          + Add a slot
        </button>
      </p>`
  }

  #stops(): TemplateResult {
    const { desk } = this
    const { stops, by, pivot } = this.#banjo
    const other = pivot === 'output' ? 'input' : 'output'
    const way = desk.job.typed.value.view.mirror ? 'right' : 'left'
    return html`<div role="group" aria-label="Stops of the swing">
      <h3>Stops of the swing</h3>
      <div class="cells">
        ${stops.map(({ toStud, lies, swing }, i) =>
          by === 'measured'
            ? html`${textField({
                desk,
                path: `${AT}.stops[${i}].toStud`,
                label: `stop ${i + 1}`,
                value: toStud,
                hint: `far stud of slot 1 to the ${other} shaft`,
                type: (toStud) => this.#stop(i, { toStud }),
              })}
              ${this.#side(`${AT}.stops[${i}].lies`, `That stud lies to the`, lies, (lies) => this.#stop(i, { lies }))}`
            : textField({
                desk,
                path: `${AT}.swing[${i}]`,
                label: `swing ${i + 1}`,
                value: swing,
                hint: `${dimensionMeanings.swing}, more than 0 to the ${way}`,
                type: (swing) => this.#stop(i, { swing }),
              }),
        )}
      </div>
    </div>`
  }

  #collars(): TemplateResult {
    const { desk } = this
    const { collars, air } = this.#banjo
    return html`<h3>Nuts and washers on the shafts</h3>
      <div class="cells">
        ${textField({
          desk,
          path: `${AT}.collars`,
          label: 'Diameters',
          value: collars,
          hint: '24 28.5: the largest counts',
          type: (collars) => desk.job.typeBanjo({ collars }),
        })}
        ${textField({
          desk,
          path: `${AT}.air`,
          label: 'Air round them',
          value: air,
          hint: 'mm, 0.5 if left blank',
          type: (air) => desk.job.typeBanjo({ air }),
        })}
      </div>`
  }

  #keepOut(): TemplateResult {
    const { desk } = this
    const { keepOut } = this.#banjo
    const set = (keepOut: TypedKeepOut[]) => desk.job.typeBanjo({ keepOut })
    const hints: Record<keyof TypedKeepOut, string> = {
      x: 'mm from the output shaft towards the input shaft',
      y: `mm ${desk.job.typed.value.view.mirror ? 'right' : 'left'} of that line`,
      radius: 'mm',
    }
    return html`${keepOut.map(
      (place, i) => html`<div role="group" aria-label="Place to keep out of ${i + 1}">
        <div class="banjo-head">
          <h3>Keep out of ${i + 1}</h3>
          <button type="button" class="quiet" @click=${() => set(keepOut.filter((_, k) => k !== i))}>
            Remove<span class="unseen"> place ${i + 1}</span>
          </button>
        </div>
        <div class="cells">
          ${(['x', 'y', 'radius'] as const).map((key) =>
            textField({
              desk,
              path: `${AT}.keepOut[${i}].${key}`,
              label: `${key} ${i + 1}`,
              value: place[key],
              hint: hints[key],
              span: 2,
              type: (text) => set(keepOut.map((other, k) => (k === i ? { ...other, [key]: text } : other))),
            }),
          )}
        </div>
      </div>`,
    )}
      <p class="quiet-actions">
        <button type="button" class="quiet" @click=${() => set([...keepOut, blankKeepOut()])}>
          + Add a casting or bolt to keep out of
        </button>
      </p>`
  }

  #drawing(): TemplateResult {
    const { view, workshop } = this.desk.job.typed.value
    const drawing = banjoToDraw(workshop.lathe)
    const read = readBanjo(workshop.lathe)
    return html`${when(drawing, () => html`<figure class="drawing plan"><div .innerHTML=${banjoToSvg(drawing!, view)}></div></figure>`)}
      <p class="note">
        Distances go from centre to centre. Left and right are as seen from the gear
        end${view.mirror ? ', mirrored as drawn' : ''}, looking from the pivot outwards.
      </p>
      <div class="banjo-said">
        <p><strong>${banjoVerdict(read)}</strong></p>
        ${when(read.lathe.banjo && drawing, () => html`<ul>${workedOut(drawing!, view).map((line) => html`<li>${line}</li>`)}</ul>`)}
        ${when(
          read.lathe.shaftClearance,
          () =>
            html`<p>
              Shaft clearance ${read.lathe.shaftClearance}
              mm${when(workshop.lathe.shaftClearance.trim(), () => html`; what is typed in its own field, ${workshop.lathe.shaftClearance}, counts`)}.
            </p>`,
        )}
      </div>
      ${note(this.desk, AT)}`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { by, pivot } = this.#banjo
    return html`<div class="cells">
        ${choice({
          path: `${AT}.by`,
          label: 'The banjo is',
          value: by,
          options: [
            ['none', 'Not told'],
            ['measured', 'Measured'],
            ['drawn', 'From a drawing'],
          ],
          span: 6,
          pick: (by) => desk.job.typeBanjo({ by }),
        })}
        ${when(by !== 'none', () =>
          choice({
            path: `${AT}.pivot`,
            label: 'It swings about the',
            value: pivot,
            options: [
              ['output', 'Output shaft'],
              ['input', 'Input shaft'],
            ],
            span: 6,
            pick: (pivot) => desk.job.typeBanjo({ pivot }),
          }),
        )}
      </div>
      ${
        by === 'none'
          ? html`<p class="note">
              Without it a train is only checked against shaft clearance. With it, every train shown stands on it, and
              the drawing says where each stud goes.
            </p>`
          : html`${this.#drawing()} ${this.#slots()} ${this.#stops()} ${when(by === 'measured', () => this.#collars())}
            ${this.#keepOut()}`
      }`
  }
}

customElements.define('tw-banjo', BanjoPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-banjo': BanjoPart
  }
}
