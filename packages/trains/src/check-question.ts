import { compare, type Problem, parseLength, parsePitch, rational } from '@trainwright/measures'
import { BOUNDS } from './bounds.js'
import { gearModule, gearRef, hand, pressureAngle, teeth } from './check-fields.js'
import { checkForMaking, type Made } from './check-workshop.js'
import type { ChartOptions, FindOptions, ProgressListener, ProposeOptions, ThreadWanted, Workshop } from './contract.js'
import { MOST_TEETH } from './propose/permitted.js'
import {
  checked,
  isObject,
  list,
  listener,
  number,
  object,
  oneOf,
  optional,
  own,
  parsed,
  type Read,
  Reader,
  sound,
  text,
  two,
  whole,
} from './reader.js'
import { toleranceOf } from './search/question.js'
import { WorkshopError } from './workshop-error.js'

const one = rational(1)
const length = parsed<string>(parseLength)
const asError = checked(
  object<{ error: string; over: string }>({ error: length, over: length }),
  (tolerance) => compare(toleranceOf({ pitch: '', tolerance }), one) >= 0 && ['tolerance'],
)

const tolerance: Read<NonNullable<ThreadWanted['tolerance']>> = (r, x, path) => {
  if (!isObject(x)) return r.refuse(path, 'tolerance')
  const ppm = own(x, 'ppm')
  if ((ppm === undefined) === (own(x, 'error') === undefined)) return r.refuse(path, 'tolerance')
  if (ppm === undefined) return asError(r, x, path)
  const inRange = typeof ppm === 'number' && ppm >= 0 && ppm < 1_000_000
  return inRange ? { ppm } : r.refuse(`${path}.ppm`, 'tolerance')
}

const thread = object<ThreadWanted>({
  name: optional(text(BOUNDS.nameLength)),
  pitch: parsed(parsePitch),
  starts: optional(whole(1, 100)),
  hand,
  tolerance: optional(tolerance),
})
const threads = list(thread, 0, BOUNDS.wanted)

/** Options, and who is told how far the search is. */
interface Listening {
  onProgress?: ProgressListener
}

const limit = optional(whole(0, BOUNDS.limit))
const onProgress = optional(listener as Read<ProgressListener>)

const findOptions = object<ChartOptions & Listening>({
  onProgress,
  sequence: optional(oneOf('as given', 'fewest changes')),
  limit,
  stages: optional(whole(1, BOUNDS.stages)),
  order: optional(oneOf('fewest gears', 'closest')),
  mounted: optional(list(gearRef, 0, 100)),
})

const mm = number(0, 1000)
const proposeOptions = object<ProposeOptions & Listening>({
  onProgress,
  make: optional(whole(1, 2) as Read<1 | 2>),
  teeth: optional(checked(two(teeth), ([fewest, most]) => fewest > most && ['teeth-order'])),
  makeable: optional(list(whole(1, 100_000), 0, 10_000)),
  blank: optional(object<NonNullable<ProposeOptions['blank']>>({ bore: mm, keyway: optional(mm), wall: mm })),
  module: gearModule,
  pressureAngle,
  limit,
})

/** Runs checks and throws one WorkshopError with the problems of all of them. */
function allOrThrow<T>(read: (r: Reader) => T): T {
  const r = new Reader()
  const result = read(r)
  if (r.problems.length > 0) throw new WorkshopError(r.problems)
  return result
}

const readWorkshop = (problems: Problem[], x: unknown, made?: Made): Workshop => {
  const found = checkForMaking(x, made)
  if (found.ok) return found.workshop
  problems.push(...found.problems)
  // Never used: the problems are thrown.
  return undefined as never
}

/** @throws WorkshopError with every problem of the workshop, but for a banjo out of reach: some gear may yet be made. */
export const checkedWorkshop = (x: unknown): Workshop =>
  allOrThrow((r) => readWorkshop(r.problems, x, { teeth: BOUNDS.mostTeeth, module: BOUNDS.module }))

export interface Asked<W, O> {
  workshop: Workshop
  wanted: W
  options: O
}

/** Checks a question as it is asked: all problems of workshop, threads and options at once. */
const asking =
  <W, O>(wanted: Read<W>, options: Read<O>, made: (options: O | undefined) => Made | undefined = () => undefined) =>
  (workshop: unknown, w: unknown, o: unknown = {}): Asked<W, O> =>
    allOrThrow((r) => ({
      workshop: readWorkshop(r.problems, workshop, made(sound(options, o))),
      wanted: wanted(r, w, 'wanted') as W,
      options: options(r, o, 'options') as O,
    }))

/** @throws WorkshopError with every problem of workshop, thread (`wanted.…`) and options (`options.…`). */
export const checkFind = asking<ThreadWanted, FindOptions & Listening>(thread, findOptions)

/** @throws WorkshopError as checkFind; threads stand at `wanted[3].…`. */
export const checkChart = asking(threads, findOptions)

/** @throws WorkshopError as checkChart. The largest gear that may be made may reach where those of the box do not. */
export const checkPropose = asking(threads, proposeOptions, (options) => ({
  teeth: options?.teeth?.[1] ?? MOST_TEETH,
  module: options?.module,
}))
