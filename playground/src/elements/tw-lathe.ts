import { html, type TemplateResult } from 'lit'
import { blankDrive, type TypedDrive } from '../state/typed.js'
import { pitchHint } from '../words.js'
import { banjoSaid } from '../words-banjo.js'
import { Part } from './base.js'
import { choice, countField, idOf, note, textField, tick, tickAt } from './fields.js'
import { late } from './late.js'
import './tw-lathe-work.js'

type Settings = 'drives' | 'gearbox'

const what: Record<Settings, { heading: string; add: string; hint: string }> = {
  drives: {
    heading: 'From spindle to input shaft',
    add: '+ Add a drive',
    hint: 'Straight through, 1 to 1. Add a tumbler reverse or a belt step if the lathe has one.',
  },
  gearbox: {
    heading: 'From output shaft to leadscrew',
    add: '+ Add a gearbox setting',
    hint: 'Straight through, 1 to 1. Add the settings of a gearbox if the lathe has one.',
  },
}

/** What there was before the first setting was added: it is still there beside it. */
const straight = { ...blankDrive(), name: 'straight' }

/** The lathe: what every owner knows first, the rest folded away. */
export class LathePart extends Part {
  protected override follows() {
    return [...super.follows(), this.desk.late]
  }

  #length(key: 'centreDistance' | 'shaftClearance', label: string, hint: string): TemplateResult {
    return textField({
      desk: this.desk,
      path: `lathe.${key}`,
      label,
      hint,
      keys: 'text',
    })
  }

  #count(key: 'studs' | 'planes', label: string): TemplateResult {
    return countField({
      desk: this.desk,
      path: `lathe.${key}`,
      label,
    })
  }

  #settings(kind: Settings): TemplateResult {
    const { desk } = this
    const list = desk.job.typed.value.workshop.lathe[kind]
    const { heading, add, hint } = what[kind]
    const set = (drives: TypedDrive[]) => desk.job.put(`lathe.${kind}`, drives)
    return html`<h3>${heading}</h3>
      ${list.length ? note(desk, `lathe.${kind}`) : note(desk, `lathe.${kind}`, hint)}
      ${list.map(
        (drive, i) => html`<div class="cells setting" role="group" aria-label="${heading}, setting ${i + 1}">
          ${textField({
            desk,
            path: `lathe.${kind}[${i}].name`,
            label: 'Name',
            span: 4,
          })}
          ${textField({
            desk,
            path: `lathe.${kind}[${i}].ratio`,
            label: 'Turns out for one in',
            hint: '1, 1/2, 0.5',
            span: 2,
          })}
          <div class="cell ticks span-6">
            ${tickAt(desk, `lathe.${kind}[${i}].reverses`, 'Reverses')}
            ${tick('Plain belt', drive.belt === 'plain', (plain) => desk.job.put(`lathe.${kind}[${i}].belt`, plain ? 'plain' : 'none'))}
            <button type="button" class="quiet" @click=${() => set(list.filter((_, k) => k !== i))}>
              Remove<span class="unseen"> setting ${i + 1}</span>
            </button>
          </div>
        </div>`,
      )}
      <p class="quiet-actions">
        <button type="button" class="quiet" @click=${() => set([...(list.length ? list : [straight]), blankDrive()])}>${add}</button>
      </p>`
  }

  /** Gears that stay on their shaft are picked from the box; one that has left the box stays to be seen. */
  #fixed(shaft: 'input' | 'output', label: string): TemplateResult {
    const { job } = this.desk
    const { fixed } = job.typed.value.workshop.lathe
    const path = `lathe.fixedGears.${shaft}`
    const names = [...new Set(['', ...job.gearNames(), fixed[shaft]])]
    return html`<div class="cell span-3">
      <label for=${idOf(path)}>${label}</label>
      <select
        id=${idOf(path)}
        aria-describedby="${idOf(path)}-note"
        @change=${(event: Event) => job.put(`lathe.fixed.${shaft}`, (event.target as HTMLSelectElement).value)}
      >
        ${names.map(
          (name) =>
            html`<option value=${name} ?selected=${name === fixed[shaft]}>${name ? name.replace(' ', ', module ') : 'none'}</option>`,
        )}
      </select>
      ${note(this.desk, path)}
    </div>`
  }

  #room(shaft: 'input' | 'output', label: string): TemplateResult {
    const { desk } = this
    return textField({
      desk,
      path: `lathe.room.${shaft}`,
      label,
      hint: 'mm, largest tip radius',
    })
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { lathe } = desk.job.typed.value.workshop
    return html`<div class="cells">
        ${textField({
          desk,
          path: 'lathe.leadscrew.pitch',
          label: 'Leadscrew pitch',
          hint: pitchHint(lathe.leadscrew.pitch, '8 tpi, 3 mm, 1/8 in'),
        })}
        ${choice({
          desk,
          path: 'lathe.leadscrew.hand',
          label: 'Leadscrew hand',
          options: [
            ['right', 'Right'],
            ['left', 'Left'],
          ],
        })}
        ${this.#count('studs', 'Studs')} ${this.#count('planes', 'Planes')}
        ${this.#length('centreDistance', 'Input to output shaft', 'mm between centres, if known')}
        ${this.#length('shaftClearance', 'Shaft clearance', 'mm, half the largest nut and air')}
      </div>
      <details class="more" data-fold="banjo">
        <summary>Banjo: ${banjoSaid(lathe)}</summary>
        ${late(desk, html`<tw-banjo .desk=${desk}></tw-banjo>`)}
      </details>
      <details class="more">
        <summary>Drives and gearbox</summary>
        ${this.#settings('drives')} ${this.#settings('gearbox')}
      </details>
      <details class="more">
        <summary>Fixed gears and room</summary>
        <div class="cells">
          ${this.#fixed('input', 'Stays on the input shaft')} ${this.#fixed('output', 'Stays on the output shaft')}
          ${this.#room('input', 'Room at the input shaft')} ${this.#room('output', 'Room at the output shaft')}
        </div>
      </details>
      <tw-lathe-work .desk=${desk}></tw-lathe-work>`
  }
}

customElements.define('tw-lathe', LathePart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-lathe': LathePart
  }
}
