import { html, type TemplateResult } from 'lit'
import { gearDesk } from '../state/gear-desk.js'
import { LEAST, MOST, type TypedMaking } from '../state/typed-making.js'
import { Part } from './base.js'
import { areaField, type Field, textField, tickAt } from './fields.js'

type TextOf = { [K in keyof TypedMaking]: TypedMaking[K] extends string ? K : never }[keyof TypedMaking]

/** What gears can be made here: how many teeth, on which head, from which blanks, with which cutters. */
export class MakingPart extends Part {
  #text(key: Exclude<TextOf, 'gears'>, label: string, more: Partial<Field> = {}): Field {
    const { desk } = this
    return {
      desk,
      path: `making.${key}`,
      label,
      ...more,
    }
  }

  #head(): TemplateResult {
    const { desk } = this
    const { worm, plates } = desk.job.typed.value.workshop.making
    const none = worm.trim() === '' && plates.trim() === ''
    const divided = gearDesk(desk).read.making.options.makeable?.length
    return html`<h3>Dividing head</h3>
      <div class="cells">
        ${textField(
          this.#text('worm', 'Worm', { keys: 'numeric', span: 2, hint: 'turns of the crank for one of the work: 40' }),
        )}
        ${areaField(this.#text('plates', 'Plates, each on its line', { span: 4, hint: '15 16 17 18 19 20' }))}
        <div class="cell ticks span-6">
          ${tickAt(desk, 'making.exactly', 'Only counts that it divides exactly')}
          <p class="note">
            ${
              none
                ? 'No head? A change gear on the mandrel will do: 1 for the worm, and its teeth for the plate.'
                : divided === undefined
                  ? ''
                  : `It divides ${divided} of the counts asked for.`
            }
          </p>
        </div>
      </div>`
  }

  protected override render(): TemplateResult {
    const millimetres = { hint: 'mm' }
    return html`<div class="cells">
        ${textField(this.#text('least', 'Fewest teeth', { keys: 'numeric', span: 2, hint: `${LEAST} if blank` }))}
        ${textField(this.#text('most', 'Most teeth', { keys: 'numeric', span: 2, hint: `${MOST} if blank` }))}
        ${textField(this.#text('module', 'Module, mm', { keys: 'decimal', span: 2, hint: 'as most of the box' }))}
      </div>
      ${this.#head()}
      <h3>Blanks and cutters</h3>
      <div class="cells">
        ${textField(this.#text('bore', 'Bore', millimetres))}
        ${textField(this.#text('wall', 'Least wall over it', millimetres))}
        ${textField(this.#text('keywayWidth', 'Keyway, width', millimetres))}
        ${textField(this.#text('keywayDepth', 'Keyway, depth', { hint: 'mm from the edge of the bore' }))}
        ${areaField(
          this.#text('cutters', 'Cutters owned, if you cut with them', {
            hint: 'module 1: 26-34 35-54, the ranges stamped on them; each size on its line',
            span: 6,
          }),
        )}
      </div>`
  }
}

customElements.define('tw-making', MakingPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-making': MakingPart
  }
}
