import { BanjoChain } from '../banjo/banjo-chain.js'
import { BOUNDS } from '../bounds.js'
import type { FindOptions, Lathe, Workshop } from '../contract.js'
import { makeArranger } from './arranger.js'
import { type Box, makeBox, resolve } from './box.js'
import { type Chain, freeChain } from './chain.js'
import { Tables } from './engine.js'
import { DEFAULT_PLANES, type Lifted, makeRules, type Rules, studsOf } from './rules.js'
import type { Settler } from './settler.js'
import { makeSpanChain } from './span-chain.js'

/** A lathe and its box made ready: what depends on the workshop alone is worked out once. */
export interface Bench {
  lathe: Lathe
  box: Box
  tables: Tables
}

export function makeBench({ lathe, gears }: Workshop): Bench {
  const box = makeBox(gears, lathe.fixedGears)
  return { lathe, box, tables: new Tables(box) }
}

/** What the meshes must do between the fixed shafts of this lathe. */
export function makeChain(lathe: Lathe, box: Box, rules: Rules): Chain {
  const { centreDistance } = rules
  if (centreDistance === null) return freeChain
  if (!lathe.banjo) return makeSpanChain(rules, centreDistance)
  return new BanjoChain(box, rules, lathe.banjo, centreDistance, lathe.planes ?? DEFAULT_PLANES)
}

/** What settles the gear sets of this lathe, with some limits lifted when an obstacle is measured. */
export function makeSettler({ lathe, box }: Bench, mounted: Int32Array | null = null, lifted: Lifted = {}): Settler {
  const rules = makeRules(lathe, box, lifted)
  return makeArranger(box, rules, mounted, makeChain(lathe, box, rules))
}

/** How many gears of each kind are on the lathe now; null when nothing is told. */
export function countMounted({ kinds }: Box, mounted: FindOptions['mounted']): Int32Array | null {
  if (!mounted?.length) return null
  const counts = new Int32Array(kinds.length)
  const stock = kinds.map((kind, k) => ({ ...kind.gear, k }))
  for (const ref of mounted) {
    const found = resolve(ref, stock)
    if (typeof found !== 'string') counts[found[0].k]++
  }
  return counts
}

/** Most stages to search: as asked, or as many as the studs carry. */
export const stagesOf = (lathe: Lathe, asked: number | undefined): number =>
  asked ?? Math.min(studsOf(lathe) + 1, BOUNDS.stages)
