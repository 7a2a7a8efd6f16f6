import type { Gear, GearStock, Lathe, Workshop } from '../contract.js'
import { makeArranger } from '../search/arranger.js'
import { type Bench, makeChain } from '../search/bench.js'
import { type Box, makeBox, resolve } from '../search/box.js'
import { Tables } from '../search/engine.js'
import { makeRules } from '../search/rules.js'
import type { Settler } from '../search/settler.js'

/** A gear as stock: by dp when it was given so. */
export const stockOf = ({ teeth, module, dp, pressureAngle }: Gear): GearStock =>
  dp === undefined ? { teeth, module, pressureAngle } : { teeth, dp, pressureAngle }

/** A fixed gear stays the one it was, whatever is added to the box. */
function pinned({ lathe, gears }: Workshop): Lathe {
  const { fixedGears } = lathe
  if (!fixedGears) return lathe
  const pin = (ref: typeof fixedGears.input) => {
    const found = ref && resolve(ref, gears)
    if (!ref || !found || typeof found === 'string') return ref
    const { module, dp, pressureAngle = 20 } = found[0]
    return { teeth: ref.teeth, module: dp === undefined ? (module ?? 1) : 25.4 / dp, pressureAngle }
  }
  const input = pin(fixedGears.input)
  const output = pin(fixedGears.output)
  return { ...lathe, fixedGears: { ...(input && { input }), ...(output && { output }) } }
}

/** The workshop with some gears made. */
export const withMade = (workshop: Workshop, make: readonly Gear[]): Workshop => ({
  ...workshop,
  lathe: pinned(workshop),
  gears: [...workshop.gears, ...make.map(stockOf)],
})

/**
 * The box with a place for every gear that might be made, of which none is there until it is lent. Its tables hold what
 * is owned. One settler serves all: which gears to make is a matter of lending.
 */
export class MadeBox {
  readonly bench: Bench
  readonly settler: Settler
  /** Kind index of each gear that might be made, in the order given. */
  readonly kindOf: number[]

  constructor(workshop: Workshop, candidates: readonly Gear[]) {
    const { lathe, gears } = withMade(workshop, candidates)
    const box: Box = makeBox(gears, lathe.fixedGears)
    this.kindOf = candidates.map((gear) =>
      box.kinds.findIndex(
        ({ gear: k }) => k.teeth === gear.teeth && k.module === gear.module && k.pressureAngle === gear.pressureAngle,
      ),
    )
    const rules = makeRules(lathe, box)
    for (const k of this.kindOf) {
      const kind = box.kinds[k]
      kind.count--
      kind.reach = kind.reach.map((n, s) => (s > 0 ? n - 1 : n))
    }
    this.bench = { lathe, box, tables: new Tables(box) }
    this.settler = makeArranger(box, rules, null, makeChain(lathe, box, rules))
  }
}
