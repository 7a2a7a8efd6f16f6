import { parsePitch } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { bareAnswer, layoutsApart, unsound } from '../../../bench/plain/alike.js'
import { banjoQuestions, type Question, questions } from '../../../bench/plain/arbitrary.js'
import { findWithinPlain } from '../../../bench/plain/find-trains.js'
import { proposeGearsPlain } from '../../../bench/plain/propose-gears.js'
import type { GearProposals, ProposeOptions, ThreadWanted, Train, Workshop } from './contract.js'
import { proposeGears } from './index.js'
import { WorkshopError } from './workshop-error.js'

// Plain means slow, and a busy machine slower.
vi.setConfig({ testTimeout: 900_000 })
const share = Number(process.env.RUNS ?? 2000) / 2000

interface Wish {
  workshop: Workshop
  threads: ThreadWanted[]
  options: ProposeOptions
}

/** Threads that mostly some gear to be made would cut, alone or with another, in a small box. */
const wishes = (asked: fc.Arbitrary<Question>, make: 1 | 2): fc.Arbitrary<Wish> =>
  asked.chain(({ workshop, wanted }) => {
    const owned = workshop.gears.map((gear) => gear.teeth)
    const most = make === 2 ? 4 : 7
    const makeable = fc.uniqueArray(
      fc.oneof(fc.constantFrom(20, 24, 25, 30, 32, 35, 36, 40, 45, 48, 50, 60), fc.constantFrom(...owned)),
      { minLength: 2, maxLength: most },
    )
    const screw = parsePitch(workshop.lathe.leadscrew.pitch).mm
    return makeable.chain((counts) => {
      const gear = fc.constantFrom(...owned, ...counts)
      const made = fc.constantFrom(...counts)
      const thread = fc
        .record({
          pairs: fc.array(fc.tuple(gear, made, fc.boolean()), { minLength: 1, maxLength: make }),
          ppm: fc.constantFrom(0, 500, 20_000),
        })
        .map(({ pairs, ppm }): ThreadWanted[] => {
          let [n, d] = [BigInt(screw.n), BigInt(screw.d)]
          for (const [a, b, turned] of pairs) {
            n *= BigInt(turned ? b : a)
            d *= BigInt(turned ? a : b)
          }
          const mm = Number(n) / Number(d)
          const readable = mm >= 0.001 && mm <= 1000 && `${n}/${d}`.length < 58
          const thread = { pitch: readable ? `${n}/${d}` : '1 mm', tolerance: { ppm } }
          return [thread, { ...thread, hand: 'left' }]
        })
      return fc.record({
        workshop: fc.constant(workshop),
        threads: fc.array(thread, { minLength: 1, maxLength: 2 }).map((threads) => [wanted, ...threads.flat()]),
        options: fc
          .record({
            limit: fc.constantFrom(undefined, 1, 3, 100),
            blank: fc.constantFrom(undefined, undefined, { bore: 12, keyway: 1.5, wall: 4 }),
            module: fc.constantFrom(undefined, undefined, undefined, 1, 1.5),
            teeth: fc.constantFrom<[number, number] | undefined>(undefined, [18, 60]),
          })
          .map(
            (rest): ProposeOptions => ({
              make,
              makeable: counts,
              ...(JSON.parse(JSON.stringify(rest)) as Partial<ProposeOptions>),
            }),
          ),
      })
    })
  })

const trainsOf = ({ already, proposals }: GearProposals): Train[] => [
  ...already.map((a) => a.train),
  ...proposals.flatMap(({ opens }) => opens.map((o) => o.train)),
]
const bare = (found: GearProposals) => {
  const train = (one: Train) =>
    bareAnswer({ trains: [one], counts: { withinTolerance: 0, mountable: 0 }, closest: null })
  const told = (list: { wanted: number; train: Train }[]) => list.map((o) => ({ ...o, train: train(o.train) }))
  return {
    ...found,
    already: told(found.already),
    proposals: found.proposals.map((p) => ({ ...p, opens: told(p.opens) })),
  }
}

/** Compares with the plain version; at least this share of the wishes must bring a proposal. */
function agree(name: string, asked: fc.Arbitrary<Question>, make: 1 | 2, cases: number, least: number): void {
  it(name, () => {
    let [proposals, already, never] = [0, 0, 0]
    const property = fc.property(wishes(asked, make), ({ workshop, threads, options }) => {
      let found: GearProposals
      try {
        found = proposeGears(workshop, threads, options)
      } catch (error) {
        // Two fixed gears of which there is one, or a banjo that the box does not reach.
        if (error instanceof WorkshopError) return
        throw error
      }
      const plain = proposeGearsPlain(workshop, threads, options, findWithinPlain)
      expect(bare(found)).toEqual(bare(plain))
      const answer = (p: GearProposals) => ({ trains: trainsOf(p), closest: null })
      expect(layoutsApart(answer(found), answer(plain))).toBeLessThan(1e-5)
      expect(unsound(found)).toEqual([])
      proposals += Number(found.proposals.length > 0)
      already += Number(found.already.length > 0)
      never += Number(found.never.length > 0)
    })
    const numRuns = Math.max(5, Math.round(cases * share))
    fc.assert(property, { numRuns })
    // A few wishes say little about shares.
    if (share < 0.5) return
    expect(proposals).toBeGreaterThan(least * numRuns)
    expect(already).toBeGreaterThan(0.2 * numRuns)
    expect(never).toBeGreaterThan(0.2 * numRuns)
  })
}

describe('proposals are those of one question for every gear and thread', () => {
  // A third of the wishes bring a proposal without a banjo, a tenth with; a sixth and a fifteenth for pairs.
  agree('single gears', questions, 1, 400, 0.2)
  agree('single gears on a banjo', banjoQuestions, 1, 300, 0.05)
  agree('pairs', questions, 2, 300, 0.08)
  agree('pairs on a banjo', banjoQuestions, 2, 200, 0.03)
})
