import { html, type TemplateResult } from 'lit'
import { FLUTES } from '../state/typed-work.js'
import { Part } from './base.js'
import { choice, textField, tickAt, when } from './fields.js'

/** How the groove is cut where the usual does not do: tool, crest, passes; and what the mating part wants. */
export class ToolPart extends Part {
  protected override follows() {
    return [this.desk.job.typed, this.desk.shown]
  }

  #nose(): TemplateResult {
    const { desk } = this
    const { nose } = desk.job.thread.work
    return html`${choice({
      desk,
      path: 'work.nose.shape',
      label: 'Nose of the tool',
      options: [
        ['form', 'As the form'],
        ['flat', 'Flat'],
        ['radius', 'Round'],
      ],
      span: 6,
    })}
    ${when(nose.shape !== 'form', () =>
      textField({
        desk,
        path: 'work.nose',
        label: nose.shape === 'flat' ? 'Width of the flat' : 'Radius of the nose',
        value: nose.size,
        hint: 'mm; 0 for a point',
        span: 6,
        type: (size) => desk.job.put('work.nose.size', size),
      }),
    )}`
  }

  #passes(): TemplateResult {
    const { desk } = this
    const { passes } = desk.job.thread.work
    return html`${choice({
      desk,
      path: 'work.passes.by',
      label: 'Passes',
      options: [
        ['pitch', 'By the pitch'],
        ['count', 'So many'],
        ['first cut', 'First cut'],
      ],
      span: 6,
    })}
    ${when(passes.by === 'count', () =>
      textField({
        desk,
        path: 'work.passes',
        label: 'Passes to full depth',
        value: passes.count,
        keys: 'numeric',
        type: (count) => desk.job.put('work.passes.count', count),
      }),
    )}
    ${when(passes.by === 'first cut', () =>
      textField({
        desk,
        path: 'work.firstCut',
        label: 'First cut',
        value: passes.firstCut,
        hint: 'mm, straight in',
        type: (firstCut) => desk.job.put('work.passes.firstCut', firstCut),
      }),
    )}
    ${textField({
      desk,
      path: 'work.springPasses',
      label: 'Spring passes',
      value: passes.spring,
      hint: '2 if left blank',
      keys: 'numeric',
      span: passes.by === 'pitch' ? 6 : 3,
      type: (spring) => desk.job.put('work.passes.spring', spring),
    })}`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { work } = desk.job.thread
    return html`<details class="more" data-fold="tool">
      <summary>Tool, passes and mating part</summary>
      <div class="cells">
        ${this.#nose()}
        ${textField({
          desk,
          path: 'work.tool',
          label: 'Width of the tool',
          hint: 'along the work; a pitch if left blank',
        })}
        ${choice({
          desk,
          path: 'work.crest',
          label: 'Crests of the screw',
          options: [
            ['form', 'As the form'],
            ['sharp', 'Sharp'],
          ],
        })}
        ${this.#passes()}
        <fieldset class="cell ticks span-6">
          <legend>On the sheet as well</legend>
          ${tickAt(desk, 'work.mate.part', 'The mating part')}
          ${tickAt(desk, 'work.mate.tap', 'A tap to make for it')}
        </fieldset>
        ${when(work.mate.tap, () =>
          choice({
            desk,
            path: 'work.mate.flutes',
            label: 'Flutes of the tap',
            options: FLUTES.map((flutes) => [flutes, flutes] as const),
            span: 6,
          }),
        )}
      </div>
    </details>`
  }
}

customElements.define('tw-tool', ToolPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-tool': ToolPart
  }
}
