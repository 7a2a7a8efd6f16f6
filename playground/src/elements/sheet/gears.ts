import type { GearsToMount, Job, RealLead } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { when } from '../fields.js'
import { type Figure, figures, type Pen, part, table } from './parts.js'

/** Settings and distances; which gear sits where stands beside the drawing. */
export function gearsPart(pen: Pen, { workshop }: Job, gears: GearsToMount): TemplateResult {
  const { line, meshes, shafts, swing, clearance, changes, backlash, drive, gearbox } = gears
  const measured = meshes.some(({ over }) => over)
  const named = (label: string, name: string | null): Figure => (name === null ? null : [label, name])
  return part(
    'gears',
    'Gears',
    when(changes, () => html`<p>${changes!.text}</p>`),
    figures(
      named('Lathe', workshop),
      ['Train', line],
      named('Drive', drive),
      named('Gearbox', gearbox),
      pen.row(swing),
      ...shafts.map(
        ({ letter, setting }): Figure =>
          setting && [`Stud ${letter}`, `slot ${setting.slot}, ${pen.length(setting.along)} along`],
      ),
      pen.row(clearance),
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
    html`<p>${backlash.text}\u00a0${pen.source(backlash.source)}</p>`,
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
      ['Lead wanted', pen.lead(job.lead)],
      pen.row(job.tolerance),
      ['Lead cut', pen.lead(lead)],
      ['In proportion', error.ppm.text],
      ...(fit
        ? [fit.engagement, fit.axial, fit.onEffective, fit.tolerance, fit.share, fit.stands].map((one) => pen.row(one))
        : []),
    ),
  )
}
