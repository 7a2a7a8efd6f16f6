import { ANGLE, Checks, MODULE, TEETH } from './checks.js'

/** How the eight cutters of a set are numbered: 'dp' from the rack down, 'module' from 12 teeth up. */
export type CutterSet = 'dp' | 'module'

/** A cutter of a set of eight and the teeth that it cuts; `to` is Infinity where the range runs to the rack. */
export interface Cutter {
  number: number
  from: number
  to: number
}

const RACK = Number.POSITIVE_INFINITY

/** First tooth count of each, No. 1 of a DP set first (J. Rose, Modern Machine-Shop Practice, 1887-8). */
const FIRST = [135, 55, 35, 26, 21, 17, 14, 12]

function find(teeth: number, set: CutterSet): Cutter {
  const place = FIRST.findIndex((from) => teeth >= from)
  return {
    number: set === 'dp' ? place + 1 : FIRST.length - place,
    from: FIRST[place],
    to: place === 0 ? RACK : FIRST[place - 1] - 1,
  }
}

function check(checks: Checks, teeth: number): void {
  if (teeth === RACK) return
  if (checks.whole(teeth, 'teeth', 6, 100_000, 'a tooth count, or Infinity for a rack,') < 12)
    checks.add('teeth', 'no-cutter', teeth)
}

/**
 * The involute form cutter of a set of eight for a tooth count, Infinity for a rack. Sets by diametral pitch number
 * from 1 for 135 teeth to the rack down to 8 for 12 and 13 (J. Rose, Modern Machine-Shop Practice, 1887-8); module sets
 * commonly number the other way (common practice, no source). The range
 * stamped on the cutter rules.
 *
 * ```ts
 * cutter(40) // { number: 3, from: 35, to: 54 }
 * cutter(40, 'module') // { number: 6, from: 35, to: 54 }
 * ```
 * @throws InputError for fewer than 12 teeth, which no set of eight cuts, and for an unknown set.
 */
export function cutter(teeth: number, set: CutterSet = 'dp'): Cutter {
  const checks = new Checks()
  check(checks, teeth)
  checks.choice(set, 'set', ['dp', 'module'])
  checks.done()
  return find(teeth, set)
}

/**
 * A cutter in the owner's drawer, as it is stamped: a module, 0.01 to 100 mm, or a diametral pitch, 0.254 to 2540; the
 * range of teeth that it cuts, 6 to 1000, `to` absent meaning to the rack.
 */
export interface OwnedCutter {
  module?: number
  dp?: number
  /** Degrees, 10 to 30; default 20. */
  pressureAngle?: number
  from: number
  to?: number
}

const sizeText = ({ module, dp }: { module?: number; dp?: number }): string =>
  dp === undefined ? `module ${module}` : `${dp} dp`

const rangeText = (from: number, to = RACK): string => (to === RACK ? `${from} to rack` : `${from} to ${to}`)

/**
 * The owned cutter that cuts such a gear, and its place in `owned`. Size and pressure angle must be the same exactly;
 * of several that would do, the one with the narrowest range. Asked for by teeth, 6 to 1000, a module or a `dp` as in
 * OwnedCutter, and a pressure angle of 10 to 30 degrees, default 20.
 * @throws InputError when a value is missing or out of range, and when none is owned for that size ('not-owned') or
 * that tooth count ('wrong-range'): the message says which to get.
 */
export function chooseCutter(q: {
  teeth: number
  module?: number
  dp?: number
  pressureAngle?: number
  owned: OwnedCutter[]
}): { index: number; cutter: OwnedCutter } {
  const checks = new Checks()
  const { teeth, module, dp, pressureAngle = 20, owned } = checks.object(q)
  checks.whole(teeth, 'teeth', ...TEETH)
  checks.number(pressureAngle, 'pressureAngle', ...ANGLE)
  if (dp !== undefined) checks.number(dp, 'dp', 0.254, 2540, 'a diametral pitch')
  else if (module === undefined) checks.add('module', 'no-size')
  else checks.number(module, 'module', ...MODULE)
  if (!Array.isArray(owned)) checks.add('owned', 'missing', 'a list of cutters, which may be empty')
  for (const [i, one] of (Array.isArray(owned) ? owned : []).entries()) {
    if (one?.module === undefined && one?.dp === undefined) checks.add(`owned[${i}]`, 'no-size')
    const { from, to = RACK } = checks.object(one)
    const first = checks.whole(from, `owned[${i}].from`, ...TEETH)
    const last = to === RACK ? to : checks.whole(to, `owned[${i}].to`, ...TEETH)
    if (last < first) checks.add(`owned[${i}].to`, 'upside-down', first, last)
  }
  if (!checks.problems.length && teeth! < 12) checks.add('teeth', 'no-cutter', teeth!)
  checks.done()

  const size = sizeText(q)
  const fits = ({ to = RACK, from }: OwnedCutter): boolean => teeth! >= from && teeth! <= to
  const width = ({ from, to = RACK }: OwnedCutter): number => to / from
  const sameSize = owned!.filter((one) => sizeText(one) === size && (one.pressureAngle ?? 20) === pressureAngle)
  const best = sameSize.filter(fits).sort((a, b) => width(a) - width(b))[0]
  if (best) return { index: owned!.indexOf(best), cutter: best }
  const { from, to, number } = find(teeth!, dp === undefined ? 'module' : 'dp')
  const bought = `the ${size} cutter stamped ${rangeText(from, to)} (commonly No. ${number})`
  if (sameSize.length) {
    const ranges = sameSize.map((one) => rangeText(one.from, one.to))
    return checks.fail('owned', 'wrong-range', teeth!, size, ranges, bought)
  }
  const sizes = [...new Set(owned!.map((one) => `${sizeText(one)} at ${one.pressureAngle ?? 20}°`))]
  return checks.fail('owned', 'not-owned', size, pressureAngle, sizes, bought)
}
