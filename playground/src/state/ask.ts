import { gather, type Problem } from '@trainwright/measures'
import type { ThreadWork } from '@trainwright/sheet'
import {
  type FindOptions,
  type FixedDrive,
  type GearRef,
  type GearStock,
  type Lathe,
  parseBox,
  type ThreadWanted,
  type Workshop,
} from '@trainwright/trains'
import { readLatheWork, readWires, readWork } from './ask-work.js'
import { readBanjo } from './read-banjo.js'
import { mountedGears, readSetUp } from './read-set-up.js'
import { given, millimetres, number, withUnit, zeroOr } from './read-text.js'
import { SHAFTS, type Typed, type TypedDrive, type TypedKind, type TypedLathe, type TypedThread } from './typed.js'
import { headOf } from './typed-making.js'

/** What is asked of the worker. Texts go as they are; what is no number goes as NaN, so that the answer says where. */
export interface Question {
  workshop: Workshop
  wanted: ThreadWanted
  options: FindOptions
  /** The thread besides its pitch, as far as it can be read: the sheet wants it, the search does not. */
  work: ThreadWork | null
}

export interface Asked {
  question: Question
  /** What could not even be asked: lines of the box and lengths that cannot be read. */
  problems: Problem[]
}

/** Problems of one line that are told: whoever pastes a letter into it need not read of every word. */
const ENOUGH = 5

/** Starts of which a sheet can be made. */
const MOST_STARTS = 60

/** The gears of one kind, or null while its line cannot be read. */
export type ReadKind = GearStock[] | null

const drive = ({ name, ratio, reverses, belt }: TypedDrive): FixedDrive => ({
  ...given('name', name, String),
  ratio,
  ...(reverses ? { reverses } : {}),
  ...(belt === 'none' ? {} : { belt }),
})

function gearRef(text: string): GearRef {
  const [teeth = '', module = ''] = text.trim().split(/\s+/)
  return { teeth: number(teeth), ...given('module', module, number) }
}

function lathe(typed: TypedLathe, problems: Problem[]): Lathe {
  const mm = (path: string) => millimetres(problems, `lathe.${path}`)
  const { leadscrew, studs, planes, centreDistance, shaftClearance, room, fixed, drives, gearbox } = typed
  const rooms = { ...given('input', room.input, mm('room.input')), ...given('output', room.output, mm('room.output')) }
  const fixedGears = { ...given('input', fixed.input, gearRef), ...given('output', fixed.output, gearRef) }
  const banjo = readBanjo(typed)
  problems.push(...banjo.problems)
  return {
    ...banjo.lathe,
    leadscrew: { ...leadscrew, pitch: withUnit(leadscrew.pitch) },
    ...given('studs', studs, number),
    ...given('planes', planes, number),
    ...given('centreDistance', centreDistance, mm('centreDistance')),
    ...given('shaftClearance', shaftClearance, zeroOr(mm('shaftClearance'))),
    ...(Object.keys(rooms).length ? { room: rooms } : {}),
    ...(Object.keys(fixedGears).length ? { fixedGears } : {}),
    ...(drives.length ? { drives: drives.map(drive) } : {}),
    ...(gearbox.length ? { gearbox: gearbox.map(drive) } : {}),
    ...readLatheWork(typed, []),
  }
}

/** The gears of each kind. Problems of a line stand at `kinds[i].line`. */
export function readKinds(kinds: readonly TypedKind[], problems: Problem[]): ReadKind[] {
  return kinds.map((kind, i) => {
    const found: Problem[] = []
    const gears = gather(found, () => parseBox(kind.line))
    problems.push(...found.slice(0, ENOUGH).map((problem) => inLine(problem, kind.line, i)))
    return gears ? gears.map((gear) => ({ ...gear, ...sizeOf(kind) })) : null
  })
}

/** A problem of a line names the word that it stands in; other words may be as bad. */
function inLine({ path, code, message }: Problem, line: string, kind: number): Problem {
  const [, at = '', part = ''] = /^gears\[(\d+)\]\.(\w+)/.exec(path) ?? []
  const word = part && boxWords(line)[Number(at)]
  const whose = part === 'teeth' ? 'the teeth' : 'the number of them'
  return { path: `kinds[${kind}].line`, code, message: word ? message.replace('This', `“${word}”: ${whose}`) : message }
}

/** The words of a line as parseBox counts them. */
const boxWords = (line: string): string[] =>
  line
    .replace(/\s*([x×*])\s*/gi, '$1')
    .split(/[\s,;]+/)
    .filter(Boolean)

function sizeOf({ by, size, angle, shafts }: TypedKind): Omit<GearStock, 'teeth' | 'count'> {
  return {
    [by]: number(size),
    pressureAngle: number(angle),
    ...(shafts.length === SHAFTS.length ? {} : { shafts: [...shafts] }),
  }
}

function wanted({ name, pitch, starts, hand, tolerance }: TypedThread): ThreadWanted {
  const { by, ppm, error, over } = tolerance
  return {
    ...given('name', name, String),
    pitch: withUnit(pitch),
    ...given('starts', starts, number),
    hand,
    ...(by === 'length' ? { tolerance: { error, over } } : ppm.trim() ? { tolerance: { ppm: number(ppm) } } : {}),
  }
}

/** Turns what was typed into the question for the worker. */
export function ask(typed: Typed): Asked {
  const problems: Problem[] = []
  const { workshop, threads, thread, order } = typed
  const kinds = readKinds(workshop.kinds, problems)
  const mounted = mountedGears(readSetUp(workshop.mounted, kinds, []))
  const head = headOf(workshop.making)
  // The search would take more; the sheet has to be made of them, too.
  if (number(threads[thread]!.starts) > MOST_STARTS)
    problems.push({
      path: 'wanted.starts',
      code: 'whole',
      message: `This must be a whole number, 1 to ${MOST_STARTS}.`,
    })
  const question = {
    workshop: {
      ...workshop.also,
      ...given('name', workshop.name, String),
      lathe: lathe(workshop.lathe, problems),
      gears: kinds.flatMap((kind) => kind ?? []),
      ...given('wires', workshop.wires, (text) => readWires(text, [])),
      ...(head && { head }),
    },
    wanted: wanted(threads[thread]!),
    options: { order, ...(mounted.length ? { mounted } : {}) },
    work: readWork(threads[thread]!.work, []),
  }
  return { question, problems }
}
