import type { GearsToMount, Job, RealLead } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { when } from '../fields.js'
import { figures, type Pen, part, table, text } from './parts.js'

/** Settings and distances; which gear sits where stands beside the drawing. */
export function gearsPart(pen: Pen, { workshop }: Job, gears: GearsToMount): TemplateResult {
  const { meshes, shafts, swing, clearance, changes, backlash, drive, gearbox } = gears
  const measured = meshes.some(({ over }) => over)
  return part(
    'gears',
    'Gears',
    when(changes, () => html`<p>${changes!.text}</p>`),
    figures(
      ['Lathe', workshop],
      ['Train', gears.line],
      ['Drive', drive],
      ['Gearbox', gearbox],
      ['Banjo swung to', text(swing)],
      ...shafts.map(
        ({ letter, setting }) =>
          [`Stud ${letter}`, setting && `slot ${setting.slot}, ${pen.length(setting.along)} along`] as const,
      ),
      ['Least clearance', clearance && `${pen.length(clearance.gap)}, ${clearance.between}`],
    ),
    table(
      'Meshes to set',
      ['Mesh', 'Teeth', 'Centres', ...(measured ? ['Over both'] : [])],
      meshes.map(({ between, teeth, centreDistance, over }) => [
        between.join(' to '),
        teeth.join(' with '),
        pen.length(centreDistance),
        ...(measured ? [over ? pen.length(over.distance) : '–'] : []),
      ]),
    ),
    html`<p>${backlash.text} ${pen.source(backlash.source)}</p>`,
  )
}

/** What the train really cuts, and what its error does to the fit. */
export function leadPart(pen: Pen, job: Job, { lead, error, verdict, fit }: RealLead): TemplateResult {
  return part(
    'lead',
    'Lead and fit',
    html`<p>${pen.say(verdict)}</p>`,
    when(fit, () => html`<p class="fit" data-fit=${fit!.code}>${pen.say(fit!.verdict)}</p>`),
    figures(
      ['Wanted', `${job.lead.text}, ${job.lead.tpi}`],
      ['May be out by', job.tolerance.text],
      ['Lead', `${lead.text}, ${lead.tpi}`],
      ['Lead error', error.ppm.text],
      [`Over ${error.over ? pen.length(error.over.run) : ''}`, error.over && pen.length(error.over.error)],
      ...(fit
        ? ([
            [`Over the engagement, ${pen.length(fit.engagement)}`, pen.length(fit.axial)],
            ['Like on the effective diameter', fit.onEffective && pen.length(fit.onEffective)],
            ['Its tolerance', fit.tolerance && pen.length(fit.tolerance)],
            ['Share eaten', text(fit.share)],
            ['All of it eaten by', fit.stands && `${pen.length(fit.stands.error)} over ${pen.length(fit.stands.over)}`],
          ] as const)
        : []),
    ),
  )
}
