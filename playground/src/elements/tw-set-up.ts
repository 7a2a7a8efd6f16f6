import {
  type DrawnShaft,
  distance,
  drawTrain,
  isMixed,
  type Place,
  type PlacedGear,
  placesOf,
  sizeOf,
  type Turning,
  turningSeen,
} from '@trainwright/sheet'
import type { Lathe, Train } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { SAFETY } from '../words.js'
import { Part } from './base.js'
import { when } from './fields.js'

const arrows: Record<Turning, string> = { clockwise: '↻', anticlockwise: '↺' }

/** The train shaft by shaft, as a person puts it on: gears, planes, which way each turns, distances, cautions. */
export class SetUpPart extends Part {
  static override properties = { train: { attribute: false }, lathe: { attribute: false } }
  train!: Train
  lathe!: Lathe

  protected override follows() {
    return [this.desk.job.typed]
  }

  #gear({ gear, plane, role }: PlacedGear, mixed: boolean): TemplateResult {
    return html`<td class="set-gear">
        <b>${gear.teeth}</b>${when(mixed, () => html` <span class="minor">${sizeOf(gear)}</span>`)}
        ${when(role === 'idler', () => html`<span class="minor">idler</span>`)}
      </td>
      <td><span class="plane" data-plane=${plane}>${plane}</span></td>`
  }

  #place(place: Place, { setting }: DrawnShaft, mixed: boolean, turning: Turning): TemplateResult {
    const [first, ...others] = place.gears
    const rows = place.gears.length
    return html`<tr>
        <th scope="rowgroup" rowspan=${rows}><span class="letter">${place.letter}</span> ${place.name.replace(' shaft', '')}
          ${when(setting, () => html`<span class="set-along">slot ${setting!.slot} at ${distance(setting!.along, this.desk.job.typed.value.view.units)}</span>`)}</th>
        ${this.#gear(first!, mixed)}
        <td rowspan=${rows} class="set-turn"><span class="arrow" aria-hidden="true">${arrows[turning]}</span> ${turning}</td>
      </tr>
      ${others.map((gear) => html`<tr>${this.#gear(gear, mixed)}</tr>`)}`
  }

  protected override render(): TemplateResult {
    const { train, lathe } = this
    const { view } = this.desk.job.typed.value
    const mixed = isMixed(train)
    const { shafts } = drawTrain(lathe, train)
    return html`<table class="set-up">
        <caption>
          Set up
        </caption>
        <thead>
          <tr>
            <th scope="col">Shaft</th>
            <th scope="col">Teeth</th>
            <th scope="col">Plane</th>
            <th scope="col">Turns</th>
          </tr>
        </thead>
        ${placesOf(lathe, train).map(
          (place, i) => html`<tbody>${this.#place(place, shafts[i]!, mixed, turningSeen(place.turning, view))}</tbody>`,
        )}
      </table>
      <p class="set-note">
        Plane 1 is next to the headstock. Two gears on one stud are keyed together. Turning is for a spindle running
        forward${view.mirror ? ', seen mirrored.' : ', seen from the gear end.'}
      </p>
      ${when(
        train.cautions.length,
        () =>
          html`<ul class="cautions" aria-label="Cautions">${train.cautions.map(({ message }) => html`<li>${message}</li>`)}</ul>`,
      )}
      <p class="set-note safety"><strong>Safety.</strong> ${SAFETY}</p>`
  }
}

customElements.define('tw-set-up', SetUpPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-set-up': SetUpPart
  }
}
