import { gather, type Problem, parseLength } from '@trainwright/measures'
import type { ThreadWork } from '@trainwright/sheet'
import type { Form, Measurements, Nose } from '@trainwright/threads'
import type { Lathe } from '@trainwright/trains'
import { given, lengthTexts, millimetres, number, numbers, zeroOr } from './read-text.js'
import type { Typed, TypedLathe } from './typed.js'
import type { Measure, TypedWork } from './typed-work.js'

/*
 * What the sheet wants to know and the search does not. A train is found without it, so what cannot be read here is left
 * out of the question and named beside its field: it hinders nothing.
 */

const formOf = ({ form, own }: TypedWork): Form =>
  form === 'own' || form === '' ? { angle: number(own.angle), crest: number(own.crest), root: number(own.root) } : form

function noseOf({ nose }: TypedWork, problems: Problem[]): { nose?: Nose } {
  const { shape, size } = nose
  if (shape === 'form') return {}
  const read = zeroOr(millimetres(problems, 'work.nose'))(size)
  if (read === undefined) return {}
  return { nose: shape === 'flat' ? { flat: read } : { radius: read } }
}

function passesOf({ passes: { by, count, firstCut, spring } }: TypedWork, problems: Problem[]): Partial<ThreadWork> {
  return {
    ...(by === 'count' ? { passes: number(count) } : {}),
    ...(by === 'first cut' ? given('firstCut', firstCut, millimetres(problems, 'work.firstCut')) : {}),
    ...given('springPasses', spring, number),
  }
}

const mateOf = ({ mate: { part, tap, flutes } }: TypedWork): NonNullable<ThreadWork['mate']> => ({
  part,
  tap: tap && { flutes: Number(flutes) as 2 | 3 | 4 },
})

/** The thread besides its pitch; null when its form is not given. Problems stand at the fields, as 'work.groove'. */
export function readWork(work: TypedWork, problems: Problem[]): ThreadWork | null {
  const { form, by, diameter, cut, engagement, limits, compound, groove, tool, crest, mate } = work
  if (form === '') return null
  const mm = (field: string) => millimetres(problems, `work.${field}`)
  return {
    form: formOf(work),
    ...given(by, diameter, mm('diameter')),
    cut,
    ...given('engagement', engagement, mm('engagement')),
    ...(limits === 'class' ? { class: work.class.trim() } : {}),
    ...(limits === 'allowance'
      ? { allowance: Number.NaN, ...given('allowance', work.allowance, mm('allowance')) }
      : {}),
    ...given('compound', compound, number),
    ...given('groove', groove, mm('groove')),
    ...given('tool', tool, mm('tool')),
    ...noseOf(work, problems),
    ...(crest === 'sharp' && cut === 'screw' ? { crest } : {}),
    ...passesOf(work, problems),
    ...(mate.part || mate.tap ? { mate: mateOf(work) } : {}),
  }
}

const isSpeed = (speed: number): boolean => speed > 0 && speed <= 100_000

/** What of the lathe the sheet alone wants to know. Problems stand at 'lathe.speeds' and the like. */
export function readLatheWork(lathe: TypedLathe, problems: Problem[]): Partial<Lathe> {
  const { halfNuts, dial, screwedNose, speeds } = lathe
  const say = (path: string, message: string) => void problems.push({ path: `lathe.${path}`, code: 'unread', message })
  const known: Partial<Lathe> = {
    ...(halfNuts === 'unknown' ? {} : { halfNuts: halfNuts === 'yes' }),
    ...(screwedNose === 'unknown' ? {} : { screwedNose: screwedNose === 'yes' }),
  }
  if (dial.travel.trim() || dial.lines.trim()) {
    const lines = number(dial.lines)
    const travel = gather(problems, () => parseLength(dial.travel, 'lathe.dial.travel'))
    const whole = Number.isInteger(lines) && lines > 0 && lines <= 1000
    if (!whole) say('dial.lines', 'Count the lines of the dial: a whole number from 1 to 1000.')
    if (travel && whole) known.dial = { travel: dial.travel, lines }
  }
  const all = numbers(speeds)
  if (!all.every(isSpeed) || all.length > 100) say('speeds', 'Write turns a minute: 45 80 150.')
  else if (all.length > 0) known.speeds = all
  return known
}

const MOST_WIRES = 100

/** The wires owned, mm. Problems stand at 'wires'. */
export function readWires(text: string, problems: Problem[]): number[] {
  const found: Problem[] = []
  const wires = lengthTexts(text).flatMap((wire) => millimetres(found, 'wires')(wire) ?? [])
  problems.push(...found.slice(0, 1))
  return wires.slice(0, MOST_WIRES)
}

/** All that is wrong with what the sheet alone wants to know. */
export function workProblems({ threads, thread, workshop }: Typed): Problem[] {
  const problems: Problem[] = []
  readWork(threads[thread]!.work, problems)
  readLatheWork(workshop.lathe, problems)
  readWires(workshop.wires, problems)
  return problems
}

/** What was measured, each with its doubt; null when nothing was. Problems stand at 'measured.pitch' and the like. */
export function readMeasured({ measured }: TypedWork, problems: Problem[]): Measurements | null {
  const found: Measurements = {}
  const doubt = (what: Measure) =>
    given('doubt', measured[what].doubt, zeroOr(millimetres(problems, `measured.${what}.doubt`))).doubt ?? 0
  for (const what of ['major', 'effective'] as const) {
    const { value } = given('value', measured[what].value, millimetres(problems, `measured.${what}.value`))
    if (value !== undefined) found[what] = { value, doubt: doubt(what) }
  }
  const { pitch, angle } = measured
  if (pitch.value.trim()) found.pitch = { value: pitch.value, doubt: doubt('pitch') }
  if (angle.value.trim()) found.angle = { value: number(angle.value), doubt: number(angle.doubt.trim() || '0') }
  return Object.keys(found).length > 0 ? found : null
}
