import type { Length } from '@trainwright/sheet'
import type { GearIndexing } from '@trainwright/sheet/gear'
import { html, type TemplateResult } from 'lit'
import type { GearWork } from '../state/gear-work.js'
import { mark, when } from './fields.js'

/** A length in mm, and in inches below it. */
export const both = ({ text, inch }: Length): TemplateResult => html`${text} <span class="minor">${inch}</span>`

/** What is measured, and what is worth knowing of the teeth. */
export function measures({ sheet, mates }: GearWork): TemplateResult {
  const { baseTangent, chordal, rootDiameter, pitchDiameter, bore } = sheet
  const line = (what: string, length: Length) => html`<tr><th scope="row">${what}</th><td>${both(length)}</td></tr>`
  return html`<table class="set-up measures">
      <caption>
        Measure
      </caption>
      <tbody>
        ${line(`Over ${baseTangent.teeth} teeth, between flat jaws`, baseTangent.length)}
        ${line('Tooth caliper: set down from the tip', chordal.height)}
        ${line('Tooth caliper: read across the tooth', chordal.thickness)} ${line('Pitch diameter', pitchDiameter)}
        ${line('Root diameter', rootDiameter)} ${when(bore, () => line('Bore', bore!.diameter))}
        ${when(bore?.keyway, () => html`${line('Keyway, width', bore!.keyway!.width)} ${line('Keyway, depth', bore!.keyway!.depth)}`)}
      </tbody>
    </table>
    ${when(bore, () => html`<p class="set-note">${bore!.enough ? bore!.text : mark(bore!.text)}</p>`)}
    <p class="set-note">${sheet.cutter.text}</p>
    <p class="set-note">${sheet.undercut.text}</p>
    ${when(
      mates.length,
      () =>
        html`<p class="set-note">
          Contact ratio ${mates.map(({ teeth, ratio }) => `${ratio.toFixed(2)} with ${teeth}`).join(', ')}: above 1 a pair
          of teeth is always in touch.
        </p>`,
    )}`
}

/** The moves from tooth to tooth, and how to make them; where no head is known, the degrees of a rotary table. */
export const moves = (plan: GearIndexing | null): TemplateResult =>
  plan
    ? html`<p>${plan.kind === 'impossible' ? mark(plan.text) : plan.text}</p>
        ${when(plan.others.length, () => html`<p class="set-note">The same move: ${plan.others.join('; ')}.</p>`)}
        ${plan.reminders.map(({ message }) => html`<p class="set-note">${message}</p>`)}
        ${when(plan.moves.length, () => html`<p class="set-note">Count spaces: the hole that the pin stands in is not counted.</p>`)}`
    : html`<p>No head is known. The table below is for the degree scale of a rotary table, to the nearest minute.</p>`

/** Every place of the work, counted from the start alone. Folded on the screen, but always on paper: it is worked from. */
export function places({ sheet, scale }: GearWork): TemplateResult {
  const rows =
    sheet.indexing?.table.map(({ at, out }) => ({ at: at.join(', '), out })) ??
    scale.map(({ degrees, minutes }) => ({ at: `${degrees}° ${minutes}′`, out: null }))
  return html`<details class="more" ?hidden=${rows.length === 0}>
      <summary>Every tooth, counted from zero${sheet.indexing ? ': turns + spaces/circle' : ''}</summary>
    </details>
    <ol class="places" data-moves=${sheet.indexing?.moves.length ?? 1}>
      ${rows.map(({ at, out }, i) => html`<li><b>${i}</b> ${at}${when(out, () => html` <span class="minor">out ${out!.text}</span>`)}</li>`)}
    </ol>`
}
