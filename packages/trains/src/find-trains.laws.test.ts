import { compare, multiply, parseLength, parseRatio, type Rational, rational, subtract } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { setName } from '../../../bench/plain/alike.js'
import { type Question, questions } from '../../../bench/plain/arbitrary.js'
import type { FixedDrive, GearStock, Hand, Lathe, Train, TrainSearch, Workshop } from './contract.js'
import { findTrains, leadOf } from './index.js'
import { WorkshopError } from './workshop-error.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 200)

/** The answer, or null for the few questions that are refused: two fixed gears of which the box holds one. */
function ask({ workshop, wanted, options }: Question): TrainSearch | null {
  try {
    return findTrains(workshop, wanted, options)
  } catch (error) {
    if (error instanceof WorkshopError) return null
    throw error
  }
}
const asked = questions.filter((question) => ask(question) !== null)
const all = (question: Question): TrainSearch =>
  findTrains(question.workshop, question.wanted, { ...question.options, limit: 1000 })

const withLathe = (question: Question, change: (lathe: Lathe) => Lathe): Question => ({
  ...question,
  workshop: { ...question.workshop, lathe: change(question.workshop.lathe) },
})
const withGears = (question: Question, gears: GearStock[]): Question => ({
  ...question,
  workshop: { ...question.workshop, gears },
})
const magnitude = ({ n, d }: Rational): Rational => ({ n: n.replace('-', ''), d })

/** Holds for questions of which at least a good share has trains: a law about nothing is no law. */
function law(name: string, holds: (question: Question, salt: number) => void): void {
  it(name, () => {
    let withTrains = 0
    const property = fc.property(asked, fc.nat(), (question, salt) => {
      if (all(question).trains.length > 0) withTrains++
      holds(question, salt)
    })
    fc.assert(property, { numRuns })
    // A few questions say little about shares.
    if (numRuns >= 100) expect(withTrains).toBeGreaterThan(0.4 * numRuns)
  })
}

describe('what changes nothing', () => {
  law('doubling the terms of every ratio', (question) => {
    const doubled = (drive: FixedDrive): FixedDrive => {
      const { n, d } = parseRatio(drive.ratio)
      return { ...drive, ratio: `${2n * BigInt(n)}/${2n * BigInt(d)}` }
    }
    const changed = withLathe(question, (lathe) => ({
      ...lathe,
      ...(lathe.drives && { drives: lathe.drives.map(doubled) }),
      ...(lathe.gearbox && { gearbox: lathe.gearbox.map(doubled) }),
    }))
    expect(ask(changed)).toEqual(ask(question))
  })

  law('swapping the hands of thread and leadscrew together, but for the hand told', (question) => {
    const other = (hand: Hand = 'right'): Hand => (hand === 'right' ? 'left' : 'right')
    const swapped = withLathe(question, (lathe) => ({
      ...lathe,
      leadscrew: { ...lathe.leadscrew, hand: other(lathe.leadscrew.hand) },
    }))
    const answer = ask({ ...swapped, wanted: { ...question.wanted, hand: other(question.wanted.hand) } })
    const told = (train: Train): Train => ({ ...train, hand: other(train.hand) })
    const plain = ask(question)!
    expect(answer).toEqual({
      ...plain,
      trains: plain.trains.map(told),
      closest: plain.closest && told(plain.closest),
      obstacles: plain.obstacles.map((o) => (o.code === 'hand' ? expect.objectContaining({ code: 'hand' }) : o)),
    })
  })

  law('the order of the box', (question, salt) => {
    const gears = question.workshop.gears
    const turned = gears.map((_, i) => gears[(i + salt) % gears.length])
    if (salt % 2) turned.reverse()
    expect(ask(withGears(question, turned))).toEqual(ask(question))
  })

  law('counts taken apart, or put together', (question) => {
    const { gears } = question.workshop
    const single = gears.flatMap((gear) => Array.from({ length: gear.count ?? 1 }, () => ({ ...gear, count: 1 })))
    const key = ({ count: _, ...gear }: GearStock) => JSON.stringify(gear)
    const together = [...new Set(single.map(key))].map((one) => ({
      ...(JSON.parse(one) as GearStock),
      count: single.filter((gear) => key(gear) === one).length,
    }))
    const plain = ask(question)
    expect(ask(withGears(question, single))).toEqual(plain)
    expect(ask(withGears(question, together))).toEqual(plain)
  })

  law('asking for fewer trains: they are the first of all', (question, salt) => {
    const every = all(question)
    const limit = salt % (every.trains.length + 2)
    const some = ask({ ...question, options: { ...question.options, limit } })
    expect(some).toEqual({ ...every, trains: every.trains.slice(0, limit) })
  })

  law('saying diametral pitch or the module that it is', (question) => {
    // 20 DP is 1.27 mm exactly.
    const named = (name: (gear: GearStock) => Partial<GearStock>) =>
      withGears(
        question,
        question.workshop.gears.map(({ dp, module, ...gear }) =>
          dp === 20 || module === 1.5 ? { ...gear, ...name(gear) } : { ...gear, ...(module && { module }) },
        ),
      )
    const inches = named(() => ({ dp: 20 }))
    const metric = named(() => ({ module: 1.27 }))
    const mixed = named(({ teeth }) => (teeth % 2 ? { dp: 20 } : { module: 1.27 }))
    const fixed = (q: Question) => withLathe(q, ({ fixedGears, ...lathe }) => lathe as Lathe)
    const bare = (q: Question) =>
      JSON.parse(JSON.stringify(ask(fixed(q))), (key, value) => (key === 'dp' ? undefined : value))
    expect(bare(metric)).toEqual(bare(inches))
    expect(bare(mixed)).toEqual(bare(inches))
  })
})

describe('a gear more', () => {
  const extra = fc.oneof(
    fc.record({ teeth: fc.integer({ min: 12, max: 100 }) }),
    fc.record({ teeth: fc.integer({ min: 12, max: 100 }), module: fc.constantFrom(1, 1.5) }),
    fc.nat(),
  )

  it('loses no gear set', () => {
    let grew = 0
    const property = fc.property(asked, extra, (question, more) => {
      const { gears } = question.workshop
      // A number: another copy of what is there. A new kind of gear could change which one a bare `teeth` means.
      const gear = typeof more === 'number' ? { ...gears[more % gears.length], count: 1 } : more
      fc.pre(typeof more === 'number' || gears.every((g) => g.teeth !== gear.teeth))
      const [before, after] = [all(question), all(withGears(question, [...gears, gear]))]
      expect(after.counts.withinTolerance).toBeGreaterThanOrEqual(before.counts.withinTolerance)
      expect(after.counts.mountable).toBeGreaterThanOrEqual(before.counts.mountable)
      expect(after.trains.map(setName)).toEqual(expect.arrayContaining(before.trains.map(setName)))
      if (after.counts.mountable > before.counts.mountable) grew++
    })
    fc.assert(property, { numRuns })
    if (numRuns >= 100) expect(grew).toBeGreaterThan(0.05 * numRuns)
  })
})

describe('the border of the tolerance', () => {
  const errorText = (error: Rational) => ({ error: `${error.n}/${error.d} mm`, over: '1 mm' })

  it('counts as inside, and a hair less does not', () => {
    let tried = 0
    const property = fc.property(asked, fc.nat(), (question, salt) => {
      const wide = all(question)
      const off = wide.trains.filter(({ error }) => error.n !== '0')
      if (off.length === 0) return
      const border = magnitude(off[salt % off.length].error)
      const less = subtract(border, rational(1, 1_000_000_000))
      // As long as the texts can be read.
      if (compare(less, rational(1, 1_000_000)) < 0 || `${less.n}${less.d}`.length > 50) return
      tried++
      const within = (tolerance: Rational): TrainSearch => {
        const given = errorText(tolerance)
        expect(multiply(parseLength(given.error).mm, rational(1))).toEqual(tolerance)
        return all({ ...question, wanted: { ...question.wanted, tolerance: given } })
      }
      const upTo = (tolerance: Rational) => wide.trains.filter(({ error }) => compare(magnitude(error), tolerance) <= 0)
      expect(within(border).trains).toEqual(upTo(border))
      expect(within(less).trains).toEqual(upTo(less))
      expect(upTo(less).length).toBeLessThan(upTo(border).length)
    })
    fc.assert(property, { numRuns: 2 * numRuns })
    if (numRuns >= 100) expect(tried).toBeGreaterThan(0.2 * numRuns)
  })
})

describe('what agrees', () => {
  law('leadOf with each train', (question) => {
    const { trains, closest } = all(question)
    for (const train of closest ? [...trains, closest] : trains) {
      const { lead, hand, approximate } = leadOf(question.workshop.lathe, train)
      expect({ lead, hand }).toEqual({ lead: train.lead, hand: train.hand })
      if (approximate) expect(train.approximate).toBe(true)
    }
  })

  law('the ratio, lead and error of each train, worked by hand', (question) => {
    for (const { stages, ratio, lead, error, errorPpm, drive, gearbox } of all(question).trains) {
      const [top, bottom] = (['driver', 'driven'] as const).map((side) =>
        stages.reduce((product, stage) => product * BigInt(stage[side].teeth), 1n),
      )
      expect(ratio).toEqual(rational(top, bottom))
      const { lathe } = question.workshop
      const fixed = [lathe.drives?.[drive], lathe.gearbox?.[gearbox]].map((d) => parseRatio(d?.ratio ?? 1))
      const cut = leadOf({ leadscrew: lathe.leadscrew }, { stages }).lead
      expect(lead).toEqual(fixed.reduce(multiply, cut))
      expect(Math.abs(Number(error.n) / Number(error.d) - errorPpm / 1e6)).toBeLessThan(1e-15)
    }
  })
})

describe('scaling everything but the half millimetre between tips', () => {
  const scaled = (question: Question, by: number, lathe: (lathe: Lathe) => Lathe): Question => {
    const larger = withLathe(question, ({ fixedGears: _, ...rest }) => {
      const { room, centreDistance, shaftClearance } = rest
      return lathe({
        ...rest,
        ...(room && { room: Object.fromEntries(Object.entries(room).map(([shaft, mm]) => [shaft, by * mm])) }),
        ...(centreDistance && { centreDistance: by * centreDistance }),
        ...(shaftClearance && { shaftClearance: by * shaftClearance }),
      })
    })
    return withGears(
      larger,
      question.workshop.gears.map(({ module = 1, dp, ...gear }) =>
        dp ? { ...gear, dp: dp / by } : { ...gear, module: by * module },
      ),
    )
  }
  const sizeless = (by: number) => (train: Train) =>
    setName(JSON.parse(JSON.stringify(train), (key, value) => (key === 'module' ? value / by : value)))

  law('changes no gear set where each stage has a plane of its own', (question) => {
    // Without a banjo only gears one stage apart could meet tip to tip, and then only in two planes.
    const own = (lathe: Lathe): Lathe => ({ ...lathe, planes: 4 })
    const [small, large] = [1, 4].map((by) => all(scaled(question, by, own)))
    expect(large.counts).toEqual(small.counts)
    expect(large.trains.map(sizeless(4)).sort()).toEqual(small.trains.map(sizeless(1)).sort())
  })

  law('loses none in any planes', (question) => {
    // Grown, the tips have the same half millimetre to keep from proportionally more room.
    const [small, large] = [1, 4].map((by) => all(scaled(question, by, (lathe) => lathe)))
    expect(large.counts.withinTolerance).toBe(small.counts.withinTolerance)
    expect(large.trains.map(sizeless(4))).toEqual(expect.arrayContaining(small.trains.map(sizeless(1))))
  })
})

describe('a workshop', () => {
  it('is left as it was', () => {
    const frozen = <T>(x: T): T => {
      if (typeof x === 'object' && x !== null) Object.values(Object.freeze(x)).forEach(frozen)
      return x
    }
    const property = fc.property(asked, (question) => {
      const copy: { workshop: Workshop } & Question = structuredClone(question)
      expect(ask(frozen(copy))).toEqual(ask(question))
    })
    fc.assert(property, { numRuns: 50 })
  })
})
