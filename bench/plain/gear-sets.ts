import { equal, type Fraction, fraction, magnitude, minus, over, plus, times } from './fraction.js'
import type { Kind, Setting, Shop } from './shop.js'

/** A gear set: the settings of one fixed ratio, and which kinds drive and which are driven, in no order. */
export interface GearSet {
  settings: Setting[]
  drivers: Kind[]
  driven: Kind[]
  /** Output-shaft turns per input-shaft turn. */
  ratio: Fraction
  /** mm per spindle turn. */
  lead: Fraction
  /** lead / wanted - 1. */
  error: Fraction
  /** |error|. */
  off: Fraction
}

/** Settings by their fixed ratio, each ratio once. */
export function byFixedRatio(settings: readonly Setting[]): Setting[][] {
  const groups: Setting[][] = []
  for (const setting of settings) {
    const group = groups.find((g) => equal(g[0].ratio, setting.ratio))
    if (group) group.push(setting)
    else groups.push([setting])
  }
  return groups
}

/** Every multiset of `size` kinds, no kind more often than `left` allows. */
export function multisets(kinds: readonly Kind[], size: number, left: (kind: Kind) => number): Kind[][] {
  if (size === 0) return [[]]
  return kinds.flatMap((kind, i) =>
    left(kind) < 1
      ? []
      : multisets(kinds.slice(i), size - 1, (k) => left(k) - Number(k === kind)).map((rest) => [kind, ...rest]),
  )
}

const uses = (kinds: readonly Kind[], kind: Kind): number => kinds.filter((k) => k === kind).length
const product = (kinds: readonly Kind[]): number => kinds.reduce((p, k) => p * k.teeth, 1)

/** Whether drivers and driven gears make a set of this box: enough of each kind owned, and none on both sides idly. */
function goTogether({ fixed }: Shop, drivers: readonly Kind[], driven: readonly Kind[]): boolean {
  // A kind on both sides cancels to a shorter set; only a gear that cannot be taken off is an excuse.
  const mayStandOnBoth = (k: Kind): boolean => drivers.length === 1 || k === fixed.input || k === fixed.output
  return drivers.every((k) => {
    const drivenBy = uses(driven, k)
    return drivenBy === 0 || (mayStandOnBoth(k) && uses(drivers, k) + drivenBy <= k.owned)
  })
}

const ceiling = ({ n, d }: Fraction): number => Number((n + d - 1n) / d)
const floor = ({ n, d }: Fraction): number => Number(n / d)

/**
 * The driven products that keep |lead / wanted - 1| within the tolerance, `exact` being the one (whole or not) that
 * would leave no error: exact / (1 + tolerance) to exact / (1 - tolerance). Products are whole, so whole bounds lose
 * nothing.
 */
function drivenBounds(exact: Fraction, tolerance: Fraction | null): [number, number] {
  if (tolerance === null) return [0, Number.POSITIVE_INFINITY]
  const one = fraction(1)
  return [ceiling(over(exact, plus(one, tolerance))), floor(over(exact, minus(one, tolerance)))]
}

/**
 * Every gear set of one to `stages` stages whose error, in magnitude, is at most `tolerance` (below 1; null: any
 * error). All comparisons are exact.
 */
export function* gearSets(
  shop: Shop,
  wantedLead: Fraction,
  stages: number,
  tolerance: Fraction | null,
): Generator<GearSet> {
  const groups = byFixedRatio(shop.settings)
  for (let size = 1; size <= stages; size++) {
    const sides = multisets(shop.kinds, size, (k) => k.owned).map((kinds) => ({ kinds, product: product(kinds) }))
    for (const drivers of sides) {
      for (const settings of groups) {
        // mm that the drivers would cut over a driven product of 1.
        const cut = times(times(shop.leadscrew, settings[0].ratio), fraction(drivers.product))
        const [least, most] = drivenBounds(over(cut, wantedLead), tolerance)
        for (const driven of sides) {
          if (driven.product < least || driven.product > most) continue
          if (!goTogether(shop, drivers.kinds, driven.kinds)) continue
          const ratio = fraction(drivers.product, driven.product)
          const lead = over(cut, fraction(driven.product))
          const error = minus(over(lead, wantedLead), fraction(1))
          yield { settings, drivers: drivers.kinds, driven: driven.kinds, ratio, lead, error, off: magnitude(error) }
        }
      }
    }
  }
}
