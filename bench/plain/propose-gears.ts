import type {
  FindOptions,
  Gear,
  GearProposals,
  GearStock,
  Lathe,
  ProposeOptions,
  ThreadWanted,
  Train,
  TrainSearch,
  Workshop,
} from '@trainwright/trains'
import { HAIR } from './clearances.js'
import { compareFractions, type Fraction, fraction, fromRational, magnitude } from './fraction.js'
import { compareRanks } from './ranks.js'
import { type Kind, readShop, resolve, type Shop } from './shop.js'

/** What answers a single question: findWithinPlain, or any other that answers alike. */
export type Find = (workshop: Workshop, wanted: ThreadWanted, options?: FindOptions) => Pick<TrainSearch, 'trains'>

type Blank = Pick<Gear, 'module' | 'dp' | 'pressureAngle'>

/** The entry with most gears, the smallest of those that tie. */
function commonest<T>(kinds: readonly Kind[], of: (kind: Kind) => T, order: (a: T, b: T) => number): T | undefined {
  const owned = (value: T): number =>
    kinds.filter((k) => order(of(k), value) === 0).reduce((sum, k) => sum + k.owned, 0)
  return kinds.map(of).sort((a, b) => owned(b) - owned(a) || order(a, b))[0]
}

/** Module and pressure angle of the gear to make: the box's commonest module, and the commonest angle in that module. */
export function blankOf({ kinds }: Shop, options: Pick<ProposeOptions, 'module' | 'pressureAngle'>): Blank {
  const named = kinds.filter((k) => k.gear.module === options.module)
  const usual = commonest(kinds, (k) => k.module, compareFractions)
  const alike =
    options.module === undefined ? kinds.filter((k) => usual && compareFractions(k.module, usual) === 0) : named
  const angle = commonest(
    alike.length > 0 ? alike : kinds,
    (k) => k.gear.pressureAngle,
    (a, b) => a - b,
  )
  const pressureAngle = options.pressureAngle ?? angle ?? 20
  if (alike.length === 0) return { module: options.module ?? 1, pressureAngle }
  const { module, dp } = alike[0].gear
  return dp === undefined ? { module, pressureAngle } : { module, dp, pressureAngle }
}

/** The counts that may be made: in range, among `makeable`, with wall enough over bore and keyway. */
export function permittedTeeth(blank: Blank, options: ProposeOptions): number[] {
  const [from, to] = options.teeth ?? [20, 127]
  const every = Array.from({ length: to - from + 1 }, (_, i) => from + i)
  return every.filter((teeth) => {
    if (options.makeable && !options.makeable.includes(teeth)) return false
    if (!options.blank) return true
    const { bore, keyway = 0, wall } = options.blank
    const root = (blank.module * (teeth - 2.5)) / 2 // 2.25 modules deep, the addendum one of them
    return root - bore / 2 - keyway >= wall - HAIR
  })
}

/**
 * The workshop with these gears added to its box. A fixed gear stays the one it was: named by module and pressure angle
 * too, for a new gear of as many teeth could otherwise change its meaning.
 */
function withMore(workshop: Workshop, make: readonly Gear[]): Workshop {
  const { kinds } = readShop(workshop)
  const larger = { ...workshop, gears: [...workshop.gears, ...make.map(stockOf)] }
  const fixedGears: Lathe['fixedGears'] = {}
  for (const shaft of ['input', 'output'] as const) {
    const ref = workshop.lathe.fixedGears?.[shaft]
    if (!ref) continue
    const { teeth, module, pressureAngle } = resolve(kinds, ref)!.gear
    fixedGears[shaft] = { teeth, module, pressureAngle }
  }
  return { ...larger, lathe: { ...workshop.lathe, fixedGears } }
}

const stockOf = ({ teeth, module, dp, pressureAngle }: Gear): GearStock =>
  dp === undefined ? { teeth, module, pressureAngle } : { teeth, dp, pressureAngle }

/** The threads of `open` (indices into `wanted`) that the box cuts with these gears added, by the closest train. */
export function openedBy(
  workshop: Workshop,
  wanted: readonly ThreadWanted[],
  open: readonly number[],
  make: readonly Gear[],
  find: Find,
): { wanted: number; train: Train }[] {
  const box = withMore(workshop, make)
  return open.flatMap((thread) => {
    const [train] = find(box, wanted[thread], { order: 'closest', limit: 1 }).trains
    return train ? [{ wanted: thread, train }] : []
  })
}

type Proposal = GearProposals['proposals'][number]

const worstOf = ({ opens }: Proposal): Fraction =>
  opens
    .map(({ train }) => magnitude(fromRational(train.error)))
    .reduce((worst, off) => (compareFractions(off, worst) > 0 ? off : worst), fraction(0))

/** Most threads opened, then the smallest worst error, then fewest teeth. */
const betterProposal = (a: Proposal, b: Proposal): number =>
  b.opens.length - a.opens.length ||
  compareFractions(worstOf(a), worstOf(b)) ||
  compareRanks(
    a.make.map((g) => g.teeth),
    b.make.map((g) => g.teeth),
  )

/**
 * Which gear, or pair of gears, to make: one question for every permitted count (or pair) and thread.
 * @param find answers each question
 */
export function proposeGearsPlain(
  workshop: Workshop,
  wanted: readonly ThreadWanted[],
  options: ProposeOptions,
  find: Find,
): GearProposals {
  const blank = blankOf(readShop(workshop), options)
  const gears = permittedTeeth(blank, options).map((teeth): Gear => ({ teeth, ...blank }))
  const already = openedBy(workshop, wanted, [...wanted.keys()], [], find)
  const open = [...wanted.keys()].filter((thread) => !already.some((a) => a.wanted === thread))
  const propose = (make: Gear[]): Proposal => {
    const opens = openedBy(workshop, wanted, open, make, find)
    return { make, opens, worstErrorPpm: Math.max(0, ...opens.map(({ train }) => Math.abs(train.errorPpm))) }
  }

  const singles = gears.map((gear) => propose([gear]))
  const pairs = options.make === 2 ? gears.flatMap((a, i) => gears.slice(i).map((b) => propose([a, b]))) : []
  const tried = options.make === 2 ? pairs : singles
  const aloneOpens = (gear: Gear): number => singles[gears.indexOf(gear)].opens.length
  return {
    already,
    proposals: tried
      .filter(({ opens }) => opens.length > 0)
      // What one gear of the pair opens by itself is no reason to make two.
      .filter(({ make, opens }) => make.length === 1 || make.every((gear) => aloneOpens(gear) < opens.length))
      .sort(betterProposal)
      .slice(0, options.limit ?? 10),
    never: open.filter((thread) => !tried.some(({ opens }) => opens.some((o) => o.wanted === thread))),
  }
}
