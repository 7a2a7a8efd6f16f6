import { compare, type Problem, parseLength, parsePitch, rational } from '@trainwright/measures'
import { BOUNDS } from './bounds.js'
import { checkForMaking, readRef } from './check-workshop.js'
import type { ChartOptions, FindOptions, ProposeOptions, ThreadWanted, Workshop } from './contract.js'
import { optional, own, Reader } from './reader.js'
import { toleranceOf } from './search/question.js'
import { WorkshopError } from './workshop-error.js'

const one = rational(1)

function readTolerance(r: Reader, x: unknown, path: string): ThreadWanted['tolerance'] {
  if (typeof x !== 'object' || x === null) return r.refuse(path, 'tolerance')
  const ppm = own(x, 'ppm')
  if ((ppm === undefined) === (own(x, 'error') === undefined)) return r.refuse(path, 'tolerance')
  if (ppm !== undefined) {
    const inRange = typeof ppm === 'number' && ppm >= 0 && ppm < 1_000_000
    return inRange ? { ppm } : r.refuse(`${path}.ppm`, 'tolerance')
  }
  const length = (y: unknown, q: string) => r.parsed<string>(y, q, parseLength)
  const tolerance = r.object<{ error: string; over: string }>(x, path, { error: length, over: length })
  if (!tolerance) return undefined
  return compare(toleranceOf({ pitch: '', tolerance }), one) < 0 ? tolerance : r.refuse(path, 'tolerance')
}

const hands = ['right', 'left'] as const

function readWanted(r: Reader, x: unknown, path: string): ThreadWanted | undefined {
  return r.object<ThreadWanted>(x, path, {
    name: optional((y, q) => r.text(y, q, BOUNDS.nameLength)),
    pitch: (y, q) => r.parsed<string>(y, q, parsePitch),
    starts: optional((y, q) => r.whole(y, q, 1, 100)),
    hand: optional((y, q) => r.oneOf(y, q, hands)),
    tolerance: optional((y, q) => readTolerance(r, y, q)),
  })
}

function readFindOptions(r: Reader, x: unknown, path: string): ChartOptions | undefined {
  return r.object<ChartOptions>(x, path, {
    sequence: optional((y, q) => r.oneOf(y, q, ['as given', 'fewest changes'] as const)),
    limit: optional((y, q) => r.whole(y, q, 0, BOUNDS.limit)),
    stages: optional((y, q) => r.whole(y, q, 1, BOUNDS.stages)),
    order: optional((y, q) => r.oneOf(y, q, ['fewest gears', 'closest'] as const)),
    mounted: optional((y, q) => r.list(y, q, [0, 100], (z, s) => readRef(r, z, s))),
  })
}

function readProposeOptions(r: Reader, x: unknown, path: string): ProposeOptions | undefined {
  const teeth = (y: unknown, q: string) => r.whole(y, q, BOUNDS.leastTeeth, BOUNDS.mostTeeth)
  return r.object<ProposeOptions>(x, path, {
    make: optional((y, q) => r.whole(y, q, 1, 2) as 1 | 2 | undefined),
    teeth: optional((y, q) => {
      const range = r.list(y, q, [2, 2], teeth) as [number, number] | undefined
      return range && range[0] > range[1] ? r.refuse(q, 'teeth-order') : range
    }),
    makeable: optional((y, q) => r.list(y, q, [0, 10_000], (z, s) => r.whole(z, s, 1, 100_000))),
    blank: optional((y, q) =>
      r.object<NonNullable<ProposeOptions['blank']>>(y, q, {
        bore: (z, s) => r.number(z, s, 0, 1000),
        keyway: optional((z, s) => r.number(z, s, 0, 1000)),
        wall: (z, s) => r.number(z, s, 0, 1000),
      }),
    ),
    module: optional((y, q) => r.positive(y, q, 100)),
    pressureAngle: optional((y, q) => r.number(y, q, 5, 45)),
    limit: optional((y, q) => r.whole(y, q, 0, BOUNDS.limit)),
  })
}

/** Runs checks and throws one WorkshopError with the problems of all of them. */
function allOrThrow<T>(read: (r: Reader) => T): T {
  const r = new Reader()
  const result = read(r)
  if (r.problems.length > 0) throw new WorkshopError(r.problems)
  return result
}

const readWorkshop = (problems: Problem[], x: unknown, made = 0): Workshop => {
  const checked = checkForMaking(x, made)
  if (checked.ok) return checked.workshop
  problems.push(...checked.problems)
  // Never used: the problems are thrown.
  return undefined as never
}

/** @throws WorkshopError with every problem of the workshop. */
export const checkedWorkshop = (x: unknown): Workshop => allOrThrow((r) => readWorkshop(r.problems, x))

export interface Asked<W, O> {
  workshop: Workshop
  wanted: W
  options: O
}

const asked = <W, O>(
  workshop: unknown,
  wanted: (r: Reader) => W | undefined,
  options: (r: Reader) => O | undefined,
  made = 0,
): Asked<W, O> =>
  allOrThrow((r) => ({
    workshop: readWorkshop(r.problems, workshop, made),
    wanted: wanted(r) as W,
    options: options(r) as O,
  }))

const readList = (r: Reader, x: unknown): ThreadWanted[] | undefined =>
  r.list(x, 'wanted', [0, BOUNDS.wanted], (y, q) => readWanted(r, y, q))

/** @throws WorkshopError with every problem of workshop, thread (`wanted.…`) and options (`options.…`). */
export const checkFind = (
  workshop: unknown,
  wanted: unknown,
  options: unknown = {},
): Asked<ThreadWanted, FindOptions> =>
  asked(
    workshop,
    (r) => readWanted(r, wanted, 'wanted'),
    (r) => readFindOptions(r, options, 'options'),
  )

/** @throws WorkshopError as checkFind; threads stand at `wanted[3].…`. */
export const checkChart = (
  workshop: unknown,
  wanted: unknown,
  options: unknown = {},
): Asked<ThreadWanted[], ChartOptions> =>
  asked(
    workshop,
    (r) => readList(r, wanted),
    (r) => readFindOptions(r, options, 'options'),
  )

/** Teeth of the largest gear that is likely to be made: it may reach where those of the box do not. */
const LARGEST_MADE = 127

/** @throws WorkshopError as checkChart. */
export const checkPropose = (
  workshop: unknown,
  wanted: unknown,
  options: unknown = {},
): Asked<ThreadWanted[], ProposeOptions> =>
  asked(
    workshop,
    (r) => readList(r, wanted),
    (r) => readProposeOptions(r, options, 'options'),
    LARGEST_MADE,
  )
