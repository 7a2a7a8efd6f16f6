import { exactly, multiply, parseLength, parsePitch, rational, toNumber } from '@trainwright/measures'
import type { Caution, CautionCode, FindOptions, ThreadWanted, Train, TrainSearch, Workshop } from '@trainwright/trains'
import { compareFractions, type Fraction, fraction, fromRational, over, times, toRational } from './fraction.js'
import { type GearSet, gearSets } from './gear-sets.js'
import { compareRanks } from './ranks.js'
import { type Mounting, settle } from './settle.js'
import { readShop, resolve, type Shop } from './shop.js'

/** The tolerance asked for, as a fraction of the lead. */
export function toleranceOf({ tolerance = { ppm: 500 } }: ThreadWanted): Fraction {
  return 'ppm' in tolerance
    ? over(fromRational(exactly(tolerance.ppm)), fraction(1_000_000))
    : over(fromRational(parseLength(tolerance.error).mm), fromRational(parseLength(tolerance.over).mm))
}

/** Least error first, then the rest as with fewest gears. */
const closestFirst = (a: Mounting, b: Mounting): number =>
  compareFractions(a.set.off, b.set.off) || compareRanks(a.rank, b.rank)

/** Fewest gears first, then least error, then as between arrangements. */
const fewestFirst = (a: Mounting, b: Mounting): number => a.rank[0] - b.rank[0] || closestFirst(a, b)

/** Runs of sets of one |error|, least first. */
function* levels(sets: GearSet[]): Generator<GearSet[]> {
  const sorted = [...sets].sort((a, b) => compareFractions(a.off, b.off))
  let from = 0
  for (let i = 1; i <= sorted.length; i++) {
    if (i < sorted.length && compareFractions(sorted[from].off, sorted[i].off) === 0) continue
    yield sorted.slice(from, i)
    from = i
  }
}

function cautionsOf(shop: Shop, { set, setting, stages }: Mounting): Caution[] {
  const leadscrewTurns = times(setting.ratio, set.ratio)
  const codes: CautionCode[] = []
  if (setting.plainBelt) codes.push('plain-belt')
  if (compareFractions(leadscrewTurns, fraction(3)) > 0) codes.push('fast-leadscrew')
  if (stages.some(({ driver, driven }) => driver.teeth > 3 * driven.teeth)) codes.push('steep-step-up')
  const { banjo, shaftClearance } = shop.workshop.lathe
  const idlers = stages.flatMap((stage) => stage.idlers).length
  const looked = stages.length > 1 || (banjo !== undefined && idlers > 0)
  if (looked && shaftClearance === undefined) codes.push('clearance-assumed')
  return codes.map((code) => ({ code, message: '' }))
}

function trainOf(shop: Shop, mounting: Mounting, wanted: ThreadWanted, approximate: boolean): Train {
  const { set, setting, stages, shafts, layout } = mounting
  const error = toRational(set.error)
  return {
    drive: setting.drive,
    gearbox: setting.gearbox,
    shafts,
    stages: stages.map(({ driver, driven, idlers }) => ({
      driver: driver.gear,
      driven: driven.gear,
      idlers: idlers.map((k) => k.gear),
    })),
    ratio: toRational(set.ratio),
    lead: toRational(set.lead),
    error,
    errorPpm: toNumber(multiply(error, rational(1_000_000))),
    approximate,
    hand: wanted.hand ?? 'right',
    cautions: cautionsOf(shop, mounting),
    layout,
  }
}

/** A question read once, and what trying everything within its tolerance gives. */
function search(workshop: Workshop, wanted: ThreadWanted, options: FindOptions) {
  const shop = readShop(workshop)
  const pitch = parsePitch(wanted.pitch)
  const wantedLead = times(fromRational(pitch.mm), fraction(wanted.starts ?? 1))
  const stages = options.stages ?? Math.min(shop.studs + 1, 4)
  const mounted = (options.mounted ?? []).map((ref) => resolve(shop.kinds, ref)).filter((kind) => kind !== null)
  const sets = (tolerance: Fraction | null): GearSet[] => [...gearSets(shop, wantedLead, stages, tolerance)]
  const mountable = (among: readonly GearSet[]): Mounting[] =>
    among.map((set) => settle(shop, set, wanted.hand ?? 'right', mounted)).filter((mounting) => mounting !== null)
  const train = (mounting: Mounting): Train => trainOf(shop, mounting, wanted, pitch.approximate || shop.approximate)

  const within = sets(toleranceOf(wanted))
  const found = mountable(within).sort(closestFirst)
  /** Within tolerance if there is any; else the first at any error, going outwards. */
  const closest = (): Train | null => {
    if (found.length > 0) return train(found[0])
    for (const level of levels(sets(null))) {
      const [best] = mountable(level).sort(closestFirst)
      if (best) return train(best)
    }
    return null
  }
  const trains = (): Train[] =>
    [...found]
      .sort(options.order === 'closest' ? closestFirst : fewestFirst)
      .slice(0, options.limit ?? 50)
      .map(train)
  return { trains, counts: { withinTolerance: within.length, mountable: found.length }, closest }
}

/**
 * Every train by trying everything: each gear set by its exact ratio, each arrangement of it, each idler in each mesh,
 * and on a banjo each slot and each circle's two solutions. Slow, and meant to be plainly right.
 * Cautions carry their codes without a sentence; obstacles are not sought. The input must be sound.
 */
export function findTrainsPlain(workshop: Workshop, wanted: ThreadWanted, options: FindOptions = {}): TrainSearch {
  const { trains, counts, closest } = search(workshop, wanted, options)
  return { trains: trains(), counts, closest: closest(), obstacles: [] }
}

/** The same without the closest train, whose search beyond the tolerance takes most of the time when there is none. */
export function findWithinPlain(
  workshop: Workshop,
  wanted: ThreadWanted,
  options: FindOptions = {},
): Pick<TrainSearch, 'trains' | 'counts'> {
  const { trains, counts } = search(workshop, wanted, options)
  return { trains: trains(), counts }
}
