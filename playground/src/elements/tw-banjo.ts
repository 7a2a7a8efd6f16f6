import { banjoToSvg, dimensionMeanings, workedOut } from '@trainwright/sheet/banjo'
import type { Sense } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { banjoToDraw } from '../state/draw-banjo.js'
import { readBanjo } from '../state/read-banjo.js'
import { blankKeepOut, blankSlot, type TypedBanjo, type TypedKeepOut, type TypedSlot } from '../state/typed-banjo.js'
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

  #field(index: number, key: Length, more = ''): TemplateResult {
    return textField({
      desk: this.desk,
      path: `${AT}.slots[${index}].${key}`,
      label: `${names[key]} ${index + 1}`,
      hint: dimensionMeanings[key] + more,
    })
  }

  #side(path: string, label: string): TemplateResult {
    return choice({ desk: this.desk, path, label, options: this.#sides<Sense>('anticlockwise', 'clockwise') })
  }

  #measuredSlot(i: number): TemplateResult {
    return html`${this.#field(i, 'near')} ${this.#field(i, 'far')} ${this.#field(i, 'length', '; blank if the slot points at the pivot')}
      ${choice({
        desk: this.desk,
        path: `${AT}.slots[${i}].passes`,
        label: 'Passes the pivot on the',
        options: this.#sides('left', 'right'),
        span: 3,
      })}
      ${when(
        i > 0,
        () => html`${this.#field(i, 'fromFirst')}
          ${this.#side(`${AT}.slots[${i}].lies`, 'Lies from slot 1 to the')}`,
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
              @click=${() =>
                desk.job.put(
                  `${AT}.slots`,
                  slots.filter((_, k) => k !== i),
                )}
            >
              Remove<span class="unseen"> slot ${i + 1}</span>
            </button>`,
          )}
        </div>
        <div class="cells">${by === 'measured' ? this.#measuredSlot(i) : this.#drawnSlot(slot, i)}</div>
      </div>`,
    )}
      <p class="quiet-actions">
        <button type="button" class="quiet" @click=${() => desk.job.put(`${AT}.slots`, [...slots, blankSlot()])}>
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
        ${stops.map(({ swing }, i) =>
          by === 'measured'
            ? html`${textField({
                desk,
                path: `${AT}.stops[${i}].toStud`,
                label: `stop ${i + 1}`,
                hint: `far stud of slot 1 to the ${other} shaft`,
              })}
              ${this.#side(`${AT}.stops[${i}].lies`, 'That stud lies to the')}`
            : textField({
                desk,
                path: `${AT}.swing[${i}]`,
                label: `swing ${i + 1}`,
                value: swing,
                hint: `${dimensionMeanings.swing}, more than 0 to the ${way}`,
                type: (swing) => desk.job.put(`${AT}.stops[${i}].swing`, swing),
              }),
        )}
      </div>
    </div>`
  }

  #collars(): TemplateResult {
    const { desk } = this
    return html`<h3>Nuts and washers on the shafts</h3>
      <div class="cells">
        ${textField({
          desk,
          path: `${AT}.collars`,
          label: 'Diameters',
          hint: '24 28.5: the largest counts',
        })}
        ${textField({
          desk,
          path: `${AT}.air`,
          label: 'Air round them',
          hint: 'mm, 0.5 if left blank',
        })}
      </div>`
  }

  #keepOut(): TemplateResult {
    const { desk } = this
    const { keepOut } = this.#banjo
    const set = (keepOut: TypedKeepOut[]) => desk.job.put(`${AT}.keepOut`, keepOut)
    const hints: Record<keyof TypedKeepOut, string> = {
      x: 'mm from the output shaft towards the input shaft',
      y: `mm ${desk.job.typed.value.view.mirror ? 'right' : 'left'} of that line`,
      radius: 'mm',
    }
    return html`${keepOut.map(
      (_, i) => html`<div role="group" aria-label="Place to keep out of ${i + 1}">
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
              hint: hints[key],
              span: 2,
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
    const { by } = this.#banjo
    return html`<div class="cells">
        ${choice({
          desk,
          path: `${AT}.by`,
          label: 'The banjo is',
          options: [
            ['none', 'Not told'],
            ['measured', 'Measured'],
            ['drawn', 'From a drawing'],
          ],
          span: 6,
        })}
        ${when(by !== 'none', () =>
          choice({
            desk,
            path: `${AT}.pivot`,
            label: 'It swings about the',
            options: [
              ['output', 'Output shaft'],
              ['input', 'Input shaft'],
            ],
            span: 6,
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
