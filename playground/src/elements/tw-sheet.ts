import type { Problem } from '@trainwright/measures'
import type { SetUpSheet } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { placeProblems } from '../state/problems.js'
import type { Typed } from '../state/typed.js'
import { Part } from './base.js'
import { choice, idOf, when } from './fields.js'
import { late } from './late.js'
import { matePart, passesPart, sizesPart } from './sheet/cutting.js'
import { gearsPart, leadPart } from './sheet/gears.js'
import { Pen } from './sheet/parts.js'
import { cautionsPart, checksPart, runOutPart, sourcesPart, startsPart } from './sheet/running.js'
import { turn } from './turns.js'

/** The label of the first field that is marked. */
function whatIsWrong(problems: readonly Problem[], typed: Typed): string {
  const [path = ''] = placeProblems(problems, typed).keys()
  const label = document.querySelector(`label[for=${idOf(path)}]`)
  return label ? `“${label.textContent}”` : 'what is marked'
}

/** The set-up sheet: the job from the gears to the last measurement, to be read at the lathe or printed. */
export class SheetPart extends Part {
  protected override follows() {
    return [this.desk.sheets, this.desk.job.typed]
  }

  /** To make it and to draw it takes long enough for two pieces of work. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.hasUpdated) await turn()
    return super.scheduleUpdate()
  }

  #parts(pen: Pen, sheet: SetUpSheet): TemplateResult {
    const { job, cutting, starts, mate } = sheet
    return html`${cautionsPart(pen, sheet.cautions)} ${gearsPart(pen, job, sheet.gears)} ${leadPart(pen, job, sheet.lead)}
    ${when(cutting, () => html`${sizesPart(pen, cutting!)} ${passesPart(pen, cutting!)}`)}
    ${checksPart(pen, sheet.checks)} ${runOutPart(pen, sheet.runOut)}
    ${when(starts, () => startsPart(pen, starts!))} ${when(mate, () => matePart(pen, mate!))} ${sourcesPart(pen)}`
  }

  /** What the sheet lacks, and why. */
  #state(sheet: SetUpSheet | null, current: boolean): TemplateResult {
    const none = sheet && !sheet.cutting
    if (sheet && !current) {
      const { job, sheets } = this.desk
      // The train is that of the question; what cannot be read is the thread itself.
      const lacks = none && job.answers.value.current && job.thread.work.form
      return html`<p class="wrong sheet-state">
        ${lacks ? `No blank and passes until ${whatIsWrong(sheets.value.problems, job.typed.value)} is corrected.` : 'Old sheet: it stands until what is marked is corrected.'}
      </p>`
    }
    return html`<p class="sheet-state">
      ${none ? 'Give form and diameter under “The thread itself” for blank, passes and wires.' : ''}
    </p>`
  }

  protected override render(): TemplateResult {
    const { job, sheets } = this.desk
    const { sheet, current } = sheets.value
    const { view } = job.typed.value
    return html`<div class="trains-head">
        <h3>Set-up sheet</h3>
        ${choice({
          desk: this.desk,
          path: 'view.units',
          label: 'Lengths in',
          options: [
            ['mm', 'mm'],
            ['inch', 'inch'],
          ],
        })}
      </div>
      ${late(this.desk)}
      ${this.#state(sheet, current)}
      ${when(sheet, () => html`<div class="parts">${this.#parts(new Pen(view.units), sheet!)}</div>`)}`
  }
}

customElements.define('tw-sheet', SheetPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-sheet': SheetPart
  }
}
