import type { ChartLine, ChartSheet } from './chart-contract.js'
import type { Cutting, Fit, GearsToMount, Mate, PassToTake, SetUpSheet } from './contract.js'
import { both, bothWays, type Length, span } from './figure.js'
import type { GearIndexing, GearSheet } from './gear-contract.js'

/** A part of a sheet as it is printed: its heading and its lines. */
export interface SheetPart {
  title: string
  lines: string[]
}
export type AnySheet = SetUpSheet | GearSheet | ChartSheet

type Line = string | false | null | undefined
const part = (title: string, ...lines: readonly Line[]): SheetPart => ({
  title,
  lines: lines.filter((line): line is string => Boolean(line)),
})
const figure = (label: string, length: Length | null): Line => length && `${label}: ${both(length)}`

const job = ({ job }: SetUpSheet): SheetPart =>
  part(
    'The job',
    job.name && `Thread: ${job.name}`,
    job.workshop && `Lathe: ${job.workshop}`,
    `Wanted: ${job.wanted}, ${job.hand} hand, ${job.starts === 1 ? '1 start' : `${job.starts} starts`}`,
    `Pitch: ${bothWays(job.pitch)}`,
    `Lead: ${bothWays(job.lead)}`,
    `Lead may be out by ${job.tolerance.text}`,
  )

const gears = (gears: GearsToMount): SheetPart =>
  part(
    'Gears',
    `Train: ${gears.line}`,
    gears.drive && `Drive: ${gears.drive}`,
    gears.gearbox && `Gearbox: ${gears.gearbox}`,
    gears.changes?.text,
    'Seen from the gear end, the spindle running forward:',
    ...gears.shafts.map(({ text }) => text),
    gears.idlers.length > 0 &&
      `Idlers: ${gears.idlers.map(({ letter, gear }) => `${gear.text} on ${letter}`).join(', ')}`,
    gears.swing && `Banjo swung to ${gears.swing.text}`,
    ...gears.meshes.map(({ text }) => text),
    gears.clearance && `Least clearance: ${both(gears.clearance.gap)}, ${gears.clearance.between}`,
    `${gears.backlash.text} (${gears.backlash.source})`,
  )

const fitLines = (fit: Fit): Line[] => [
  `Over ${both(fit.engagement)} of engagement: ${both(fit.axial)}`,
  figure('Acts on the effective diameter like', fit.onEffective),
  fit.tolerance && fit.share && `Eats ${fit.share.text} of the ${both(fit.tolerance)} of tolerance`,
  fit.stands && `All of it would be eaten by ${both(fit.stands.error)} over ${both(fit.stands.over)}`,
  fit.verdict,
]

const lead = ({ lead }: SetUpSheet): SheetPart =>
  part(
    'What the train really cuts',
    lead.verdict,
    `Lead error: ${lead.error.ppm.text}`,
    lead.error.over && `Over ${both(lead.error.over.run)}: ${both(lead.error.over.error)}`,
    ...(lead.fit ? fitLines(lead.fit) : []),
  )

const passLine = ({ number, kind, to, travel, deeper }: PassToTake, compound: boolean): string =>
  kind === 'spring'
    ? `Pass ${number}: spring pass at ${both(to)}${compound ? `, slide at ${both(travel)}` : ''}, nothing added`
    : `Pass ${number}: to ${both(to)}${compound ? `, slide to ${both(travel)}` : ''}, deeper by ${both(deeper)}`

const cutting = (cutting: Cutting): SheetPart => {
  const { limits, compound, infeed } = cutting
  const slanted = compound.angle.value !== 0
  return part(
    'Blank and passes',
    `${cutting.cut === 'nut' ? 'Nut' : 'Screw'}, form ${cutting.form.name} (${cutting.form.standard}), ${cutting.form.angle.text}; lead angle ${cutting.leadAngle.text}`,
    figure('Major diameter', cutting.major),
    figure('Effective diameter', cutting.effective),
    figure('Minor diameter', cutting.minor),
    limits?.major && `Limits of the major diameter (${limits.name}): ${span(limits.major)}`,
    limits && `Limits of the effective diameter (${limits.name}): ${span(limits.effective)}`,
    limits?.minor && `Limits of the minor diameter (${limits.name}): ${span(limits.minor)}`,
    `Worked to: ${cutting.aim}`,
    cutting.text,
    cutting.drill && `Or drill: ${both(cutting.drill.hole)}, ${cutting.drill.engagement.text} of the depth of thread`,
    figure(cutting.cut === 'nut' ? 'Bore' : 'Blank', cutting.blank),
    figure('Depth, straight in', cutting.depth),
    figure('Root diameter', cutting.root),
    figure('Effective diameter to reach', cutting.effectiveAim),
    figure('Crest radius, if crests are rounded', cutting.crestRadius),
    slanted &&
      `Compound slide at ${compound.angle.text} from the cross-slide's travel (${compound.fromAxis.text} from the axis): ${both(infeed.travel)} for ${both(infeed.radial)} straight in, ${both(infeed.sideways)} sideways`,
    ...cutting.passes.map((pass) => passLine(pass, slanted)),
  )
}

const runOut = ({ runOut }: SetUpSheet): SheetPart =>
  part(
    'Run-out',
    runOut.travelText,
    figure('Groove', runOut.groove),
    figure('Tool, along the work', runOut.tool),
    runOut.limit && `Spindle at most ${runOut.limit.text}`,
    runOut.text,
    ...runOut.speeds.map(
      ({ speed, groove, serves }) =>
        `${speed.text} needs a groove of ${both(groove)}${serves === null ? '' : serves ? ': serves' : ': too fast'}`,
    ),
  )

function mate({ part: other, tap }: Mate): SheetPart {
  const drill = other?.drill
  return part(
    'The mating part',
    other &&
      `The ${other.is}: major ${both(other.major)}, effective ${both(other.effective)}, minor ${both(other.minor)}`,
    drill && `Tapping drill: ${both(drill.hole)}, ${drill.engagement.text} of the depth of thread`,
    tap &&
      `Tap to make: major at least ${both(tap.major)}, effective ${span(tap.effective)}, minor at most ${both(tap.minor)}`,
    tap && `Hole for the tap: ${both(tap.hole)}; point of the tap ${both(tap.point)}`,
    tap && `${tap.flutes} flutes, leaving a core of ${both(tap.core)}`,
    ...(tap?.chamfers ?? []).map(
      ({ name, threads, length, angle }) =>
        `${name} tap: ${threads[0]} to ${threads[1]} threads chamfered, ${span(length)}, at ${angle[0].text} to ${angle[1].text}`,
    ),
  )
}

const sourced = ({ text, source }: { text: string; source: string }): string => `${text} [${source}]`
const cautions = (all: readonly { message: string; source: string }[]): SheetPart =>
  part('Mind', ...all.map(({ message: text, source }) => sourced({ text, source })))

const setUpParts = (sheet: SetUpSheet): SheetPart[] => [
  job(sheet),
  gears(sheet.gears),
  lead(sheet),
  ...(sheet.cutting ? [cutting(sheet.cutting)] : []),
  part('Checks, in this order', ...sheet.checks.map((check, i) => `${i + 1}. ${sourced(check)}`)),
  runOut(sheet),
  ...(sheet.starts ? [part(`${sheet.starts.count} starts`, ...sheet.starts.each.map(({ text }) => text))] : []),
  ...(sheet.mate ? [mate(sheet.mate)] : []),
  cautions(sheet.cautions),
]

const indexingPart = (plan: GearIndexing): SheetPart =>
  part(
    'Indexing',
    plan.text,
    plan.others.length > 0 && `The same: ${plan.others.join('; ')}`,
    ...plan.reminders.map(({ message }) => message),
    plan.table.length > 0 && 'Each place from the start, turns + spaces/circle:',
    ...plan.table.map(
      ({ division, at, error }) =>
        `${division}: ${at.join(', plate ')}${error === '0' ? '' : `, out by ${error} turns`}`,
    ),
  )

const gearParts = (sheet: GearSheet): SheetPart[] => [
  part(
    'Blank and cutter',
    `${sheet.gear.text}, pressure angle ${sheet.gear.pressureAngle.text}, shift ${sheet.gear.shift}`,
    sheet.blank.text,
    figure('Pitch diameter', sheet.pitchDiameter),
    figure('Root diameter', sheet.rootDiameter),
    figure('Depth', sheet.depth),
    figure('Bore', sheet.bore && sheet.bore.diameter),
    sheet.bore?.keyway && `Keyway: ${both(sheet.bore.keyway.width)} wide, ${both(sheet.bore.keyway.depth)} deep`,
    sheet.bore?.text,
    sheet.cutter.text,
    sheet.undercut.text,
  ),
  part('Measure', sheet.baseTangent.text, sheet.chordal.text),
  ...(sheet.indexing ? [indexingPart(sheet.indexing)] : []),
  cautions(sheet.cautions),
]

const chartLine = ({ thread, text }: ChartLine): string => `${thread}: ${text}`
const chartParts = ({ rows, adds }: ChartSheet): SheetPart[] => [
  part('Threads', ...rows.map(chartLine)),
  ...(adds ? [part(`With ${adds.make.map(({ text }) => text).join(' and ')} made`, ...adds.rows.map(chartLine))] : []),
]

/** A sheet as headings and lines, every figure in it; for print and for people who read no drawing. */
export function sheetParts(sheet: AnySheet): SheetPart[] {
  if (sheet.kind === 'set-up') return setUpParts(sheet)
  return sheet.kind === 'gear' ? gearParts(sheet) : chartParts(sheet)
}

/** The same as plain text, for the terminal. */
export const sheetLines = (sheet: AnySheet): string[] => [
  sheet.title,
  ...sheetParts(sheet).flatMap(({ title, lines }) => ['', title, ...lines.map((line) => `  ${line}`)]),
]
