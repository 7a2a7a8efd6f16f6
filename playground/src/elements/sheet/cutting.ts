import type { Cutting, Mate, Range } from '@trainwright/sheet'
import { html, type TemplateResult } from 'lit'
import { formNames } from '../../words-work.js'
import { when } from '../fields.js'
import { figures, type Pen, part, table, text } from './parts.js'

const formName = ({ name }: Cutting['form']): string =>
  Object.hasOwn(formNames, name) ? formNames[name as keyof typeof formNames].split(',')[0]! : name

/** What to turn or bore, and the thread's sizes with their limits. */
export function sizesPart(pen: Pen, cutting: Cutting): TemplateResult {
  const { cut, form, leadAngle, limits, drill, compound, infeed, crestRadius } = cutting
  const within = (range: Range | null | undefined) => (range ? pen.range(range) : '–')
  const slanted = compound.angle.value !== 0
  return part(
    'sizes',
    cut === 'nut' ? 'Bore' : 'Blank',
    html`<p class="instruction">${pen.say(cutting.text)}</p>`,
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
      ['Lead angle', text(leadAngle)],
      ['Worked to', cutting.aim],
      [cut === 'nut' ? 'Bore' : 'Blank', pen.length(cutting.blank)],
      ['Or drill', drill && `${pen.length(drill.hole)}, ${drill.engagement.text} of the depth`],
      ['Root', pen.length(cutting.root)],
      ['Effective, to reach', pen.length(cutting.effectiveAim)],
      ['Crests, if rounded', crestRadius && `radius ${pen.length(crestRadius)}`],
      ['Depth, straight in', pen.length(infeed.radial)],
      ['Compound slide', slanted ? `${compound.angle.text}, ${compound.fromAxis.text} from the axis` : null],
      ['Along the slide', slanted ? `${pen.length(infeed.travel)}, ${pen.length(infeed.sideways)} sideways` : null],
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
    when(other, () =>
      figures(
        [`Major of the ${other!.is}`, pen.length(other!.major)],
        ['Effective', pen.length(other!.effective)],
        ['Minor', pen.length(other!.minor)],
        [
          'Tapping drill',
          other!.drill && `${pen.length(other!.drill.hole)}, ${other!.drill.engagement.text} of the depth`,
        ],
      ),
    ),
    when(tap, () => {
      const { major, effective, minor, hole, point, core, flutes, chamfers } = tap!
      return html`<h5>Tap to make</h5>
        ${figures(
          ['Major, at least', pen.length(major)],
          ['Effective', pen.range(effective)],
          ['Minor, at most', pen.length(minor)],
          ['Hole for the tap', pen.length(hole)],
          ['Point of the tap', pen.length(point)],
          [`${flutes} flutes leave a core of`, pen.length(core)],
        )}
        ${table(
          'Chamfers of the taps',
          ['Tap', 'Threads', 'Length', 'Angle'],
          chamfers.map(({ name, threads, length, angle }) => [
            name,
            threads.join(' to '),
            pen.range(length),
            `${angle[0].text} to ${angle[1].text}`,
          ]),
        )}`
    }),
  )
