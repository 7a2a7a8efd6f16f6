import { html, type TemplateResult } from 'lit'
import { FLUTES } from '../state/typed-work.js'
import { Part } from './base.js'
import { choice, textField, tick, when } from './fields.js'

/** How the groove is cut where the usual does not do: tool, crest, passes; and what the mating part wants. */
export class ToolPart extends Part {
  protected override follows() {
    return [this.desk.job.typed, this.desk.shown]
  }

  #nose(): TemplateResult {
    const { desk } = this
    const { nose } = desk.job.thread.work
    return html`${choice({
      path: 'work.nose.shape',
      label: 'Nose of the tool',
      value: nose.shape,
      options: [
        ['form', 'As the form'],
        ['flat', 'Flat'],
        ['radius', 'Round'],
      ],
      span: 6,
      pick: (shape) => desk.job.typeWork({ nose: { ...nose, shape } }),
    })}
    ${when(nose.shape !== 'form', () =>
      textField({
        desk,
        path: 'work.nose',
        label: nose.shape === 'flat' ? 'Width of the flat' : 'Radius of the nose',
        value: nose.size,
        hint: 'mm; 0 for a point',
        span: 6,
        type: (size) => desk.job.typeWork({ nose: { ...nose, size } }),
      }),
    )}`
  }

  #passes(): TemplateResult {
    const { desk } = this
    const { passes } = desk.job.thread.work
    const set = (change: Partial<typeof passes>) => desk.job.typeWork({ passes: { ...passes, ...change } })
    return html`${choice({
      path: 'work.passes.by',
      label: 'Passes',
      value: passes.by,
      options: [
        ['pitch', 'By the pitch'],
        ['count', 'So many'],
        ['first cut', 'First cut'],
      ],
      span: 6,
      pick: (by) => set({ by }),
    })}
    ${when(passes.by === 'count', () =>
      textField({
        desk,
        path: 'work.passes',
        label: 'Passes to full depth',
        value: passes.count,
        keys: 'numeric',
        type: (count) => set({ count }),
      }),
    )}
    ${when(passes.by === 'first cut', () =>
      textField({
        desk,
        path: 'work.firstCut',
        label: 'First cut',
        value: passes.firstCut,
        hint: 'mm, straight in',
        type: (firstCut) => set({ firstCut }),
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
      type: (spring) => set({ spring }),
    })}`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { work } = desk.job.thread
    const mate = (change: Partial<typeof work.mate>) => desk.job.typeWork({ mate: { ...work.mate, ...change } })
    return html`<details class="more" data-fold="tool">
      <summary>Tool, passes and mating part</summary>
      <div class="cells">
        ${this.#nose()}
        ${textField({
          desk,
          path: 'work.tool',
          label: 'Width of the tool',
          value: work.tool,
          hint: 'along the work; a pitch if left blank',
          type: (tool) => desk.job.typeWork({ tool }),
        })}
        ${choice({
          path: 'work.crest',
          label: 'Crests of the screw',
          value: work.crest,
          options: [
            ['form', 'As the form'],
            ['sharp', 'Sharp'],
          ],
          pick: (crest) => desk.job.typeWork({ crest }),
        })}
        ${this.#passes()}
        <fieldset class="cell ticks span-6">
          <legend>On the sheet as well</legend>
          ${tick('The mating part', work.mate.part, (part) => mate({ part }))}
          ${tick('A tap to make for it', work.mate.tap, (tap) => mate({ tap }))}
        </fieldset>
        ${when(work.mate.tap, () =>
          choice({
            path: 'work.mate.flutes',
            label: 'Flutes of the tap',
            value: work.mate.flutes,
            options: FLUTES.map((flutes) => [flutes, flutes] as const),
            span: 6,
            pick: (flutes) => mate({ flutes }),
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
