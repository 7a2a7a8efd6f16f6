import { compareFractions, equal, type Fraction, fraction, magnitude, minus, over, times } from './fraction.js'
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

/** Every pair of drivers and driven that the box can supply, by count alone, with one to `stages` stages. */
function* pairs(shop: Shop, stages: number): Generator<[Kind[], Kind[]]> {
  const { kinds, fixed } = shop
  for (let size = 1; size <= stages; size++) {
    for (const drivers of multisets(kinds, size, (k) => k.owned)) {
      // A kind on both sides cancels to a shorter set; only a gear that cannot be taken off is an excuse.
      const mayStandOnBoth = (k: Kind): boolean => size === 1 || k === fixed.input || k === fixed.output
      const mayBeDriven = kinds.filter((k) => !drivers.includes(k) || mayStandOnBoth(k))
      const left = (k: Kind): number => k.owned - uses(drivers, k)
      for (const driven of multisets(mayBeDriven, size, left)) yield [drivers, driven]
    }
  }
}

/** Every gear set of one to `stages` stages whose error, in magnitude, is at most `tolerance` (null: any error). */
export function* gearSets(
  shop: Shop,
  wantedLead: Fraction,
  stages: number,
  tolerance: Fraction | null,
): Generator<GearSet> {
  const groups = byFixedRatio(shop.settings)
  for (const [drivers, driven] of pairs(shop, stages)) {
    const ratio = fraction(product(drivers), product(driven))
    for (const settings of groups) {
      const lead = times(times(shop.leadscrew, settings[0].ratio), ratio)
      const error = minus(over(lead, wantedLead), fraction(1))
      const off = magnitude(error)
      if (tolerance !== null && compareFractions(off, tolerance) > 0) continue
      yield { settings, drivers, driven, ratio, lead, error, off }
    }
  }
}
