import { ANGLE, Checks, TEETH } from './checks.js'
import { moduleOf } from './gear.js'

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
 * A cutter in the owner's drawer, as it is stamped: a module, 0.01 to 100 mm, or a diametral pitch, 0.254 to 2540, or
 * both where they agree; the range of teeth that it cuts, 6 to 1000, `to` absent meaning to the rack.
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

/** The module exactly, as numerator and denominator: a number is the decimal that it prints, an inch 25.4 mm. */
function exactModule({ module, dp }: { module?: number; dp?: number }): [bigint, bigint] {
  const [whole, part = ''] = String(dp ?? module).split('.')
  const [n, d] = [BigInt(whole + part), 10n ** BigInt(part.length)]
  return dp === undefined ? [n, d] : [254n * d, 10n * n]
}

function checkOwned(owned: Partial<OwnedCutter>, checks: Checks, at: string): void {
  const { pressureAngle = 20, to = RACK } = owned
  moduleOf(owned, checks, at)
  checks.number(pressureAngle, `${at}pressureAngle`, ...ANGLE)
  const first = checks.whole(owned.from, `${at}from`, ...TEETH)
  const last = to === RACK ? to : checks.whole(to, `${at}to`, ...TEETH)
  if (last < first) checks.add(`${at}to`, 'upside-down', first, last)
}

/**
 * The owned cutter that cuts such a gear, and its place in `owned`. Size and pressure angle must be the same exactly, a
 * diametral pitch being the module 25.4 / dp; of several that would do, the one with the narrowest range. Asked for by teeth, 6 to 1000, a module or a `dp` as in
 * OwnedCutter, and a pressure angle of 10 to 30 degrees, default 20.
 * @throws InputError when a value, of the gear or of a cutter, is missing or out of range, for fewer than 12 teeth
 * ('no-cutter'), and when none is owned for that size ('not-owned') or that tooth count ('wrong-range'): the message says
 * which to get.
 */
export function chooseCutter(q: {
  teeth: number
  module?: number
  dp?: number
  pressureAngle?: number
  owned: OwnedCutter[]
}): { index: number; cutter: OwnedCutter } {
  const checks = new Checks()
  const { pressureAngle = 20, owned: drawer, ...asked } = checks.object(q)
  const teeth = checks.whole(asked.teeth, 'teeth', ...TEETH)
  if (teeth < 12) checks.add('teeth', 'no-cutter', teeth)
  moduleOf(asked, checks)
  checks.number(pressureAngle, 'pressureAngle', ...ANGLE)
  const owned = Array.isArray(drawer) ? drawer : []
  if (owned !== drawer) checks.add('owned', 'missing', 'a list of cutters, which may be empty')
  for (const [i, one] of owned.entries()) checkOwned(checks.object(one), checks, `owned[${i}].`)
  checks.done()

  const size = sizeText(asked)
  const [n, d] = exactModule(asked)
  const isSize = (one: OwnedCutter): boolean => {
    const [m, e] = exactModule(one)
    return m * d === n * e && (one.pressureAngle ?? 20) === pressureAngle
  }
  const fits = ({ to = RACK, from }: OwnedCutter): boolean => teeth >= from && teeth <= to
  const width = ({ from, to = RACK }: OwnedCutter): number => to / from
  const sameSize = owned.filter(isSize)
  const best = sameSize.filter(fits).sort((a, b) => width(a) - width(b))[0]
  if (best) return { index: owned.indexOf(best), cutter: best }
  const { from, to, number } = find(teeth, asked.dp === undefined ? 'module' : 'dp')
  const bought = `the ${size} cutter stamped ${rangeText(from, to)} (commonly No. ${number})`
  if (sameSize.length) {
    const ranges = sameSize.map((one) => rangeText(one.from, one.to))
    return checks.fail('owned', 'wrong-range', teeth, size, ranges, bought)
  }
  const sizes = [...new Set(owned.map((one) => `${sizeText(one)} at ${one.pressureAngle ?? 20}°`))]
  return checks.fail('owned', 'not-owned', size, pressureAngle, sizes, bought)
}
