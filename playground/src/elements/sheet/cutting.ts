import type { Cutting, Mate, Range } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { formNames } from '../../words-work.js'
import { when } from '../fields.js'
import { figures, type Pen, part, table } from './parts.js'

const formName = ({ name }: Cutting['form']): string =>
  Object.hasOwn(formNames, name) ? formNames[name as keyof typeof formNames].split(',')[0]! : name

/** What to turn or bore, and the thread's sizes with their limits. */
export function sizesPart(pen: Pen, cutting: Cutting): TemplateResult {
  const { cut, form, leadAngle, limits, drill, blank, compound } = cutting
  const within = (range: Range | null | undefined) => (range ? pen.range(range) : '–')
  const slanted = compound.angle.value !== 0
  return part(
    'sizes',
    cut === 'nut' ? 'Bore' : 'Blank',
    html`<p class="instruction">${blank.label} <b>${pen.length(blank)}</b></p>`,
    figures(pen.row(drill)),
    table(
      'Diameters of the thread',
      ['Diameter', 'Basic', ...(limits ? [`Limits, ${limits.name}`] : [])],
      (['major', 'effective', 'minor'] as const).map((which) => [
        which,
        pen.length(cutting[which]),
        ...(limits ? [within(limits[which])] : []),
      ]),
    ),
    figures(
      ['Form', `${formName(form)}, ${form.angle.text}, ${form.standard}`],
      ['Lead angle', leadAngle.text],
      ['Worked to', cutting.aim],
      pen.row(cutting.depth),
      pen.row(cutting.root),
      pen.row(cutting.effectiveAim),
      pen.row(cutting.crestRadius),
      slanted ? pen.row(compound) : null,
      slanted ? pen.row(cutting.infeed) : null,
    ),
  )
}

/** The passes, each by where the slide stands. */
export function passesPart(pen: Pen, { passes, compound }: Cutting): TemplateResult {
  const slanted = compound.angle.value !== 0
  return part(
    'passes',
    'Passes',
    table(
      'Passes, from touching the work',
      ['Pass', 'Straight in', ...(slanted ? ['Slide'] : []), 'Deeper by'],
      passes.map(({ number, kind, to, travel, deeper }) => [
        String(number),
        pen.length(to),
        ...(slanted ? [pen.length(travel)] : []),
        kind === 'spring' ? 'spring pass' : pen.length(deeper),
      ]),
    ),
  )
}

/** The other part, and a tap to make for it. */
export const matePart = (pen: Pen, { part: other, tap }: Mate): TemplateResult =>
  part(
    'mate',
    'The mating part',
    when(other, () => {
      const { major, effective, minor, drill } = other!
      return figures(...[major, effective, minor, drill].map((one) => pen.row(one)))
    }),
    when(tap, () => {
      const { major, effective, minor, hole, point, core, chamfers } = tap!
      return html`${figures(...[major, effective, minor, hole, point, core].map((one) => pen.row(one)))}
      ${table(
        'Chamfers of the taps',
        ['Tap', 'Threads', 'Chamfer', 'Angle'],
        chamfers.map(({ name, threads, length, angle }) => [
          name,
          threads.join(' to '),
          pen.range(length),
          `${angle[0].text} to ${angle[1].text}`,
        ]),
      )}`
    }),
  )
