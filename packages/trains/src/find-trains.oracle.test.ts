import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { bareAnswer, layoutsApart, unsound } from '../../../bench/plain/alike.js'
import { banjoQuestions, type Question, questions } from '../../../bench/plain/arbitrary.js'
import { checkLayout } from '../../../bench/plain/check-layout.js'
import { findTrainsPlain } from '../../../bench/plain/find-trains.js'
import type { Train, TrainSearch } from './contract.js'
import { findTrains } from './find-trains.js'
import { WorkshopError } from './workshop-error.js'

// The plain version is slow, and a busy machine slower.
vi.setConfig({ testTimeout: 900_000 })
const numRuns = Number(process.env.RUNS ?? 2000)

/** Counts how often each thing was seen, so that a test of nothing cannot pass. */
function tally() {
  const seen: Record<string, number> = {}
  const note = (what: string, holds: boolean): void => {
    seen[what] = (seen[what] ?? 0) + Number(holds)
  }
  return {
    note,
    noteSome: (what: string, trains: readonly Train[], holds: (train: Train) => boolean) =>
      note(what, trains.some(holds)),
    expectShares(least: Record<string, number>): void {
      // Few cases say little about shares.
      if (numRuns < 500) return
      for (const [what, share] of Object.entries(least)) {
        expect(seen[what] / numRuns, `share of questions: ${what}`).toBeGreaterThan(share)
      }
    },
  }
}

/**
 * Where a chain or a circle is stretched to the last, the rounding of a double grows to its root: two ways of reckoning
 * then part by 1e-8 of a radian. That each layout holds is checked to 1e-6 mm.
 */
const SAME_PLACE = 1e-5

/** The answer beside that of trying everything; null when it was refused, which is right only for what holds no train. */
function answers({ workshop, wanted, options }: Question): { found: TrainSearch; plain: TrainSearch } | null {
  const plain = findTrainsPlain(workshop, wanted, options)
  try {
    return { found: findTrains(workshop, wanted, options), plain }
  } catch (error) {
    if (!(error instanceof WorkshopError)) throw error
    expect(plain.closest).toBeNull()
    expect(['fixed-twice', 'out-of-reach']).toEqual(expect.arrayContaining(error.problems.map(({ code }) => code)))
    return null
  }
}

function expectSound(found: TrainSearch): void {
  expect(found.obstacles.length > 0).toBe(found.trains.length === 0)
  expect(unsound(found)).toEqual([])
}

describe('findTrains answers as one that tries everything', () => {
  it('without a banjo', () => {
    const { note, noteSome, expectShares } = tally()
    const property = fc.property(questions, (question) => {
      const both = answers(question)
      note('refused', both === null)
      if (!both) return
      const { found, plain } = both
      expect(bareAnswer(found)).toEqual(bareAnswer(plain))
      expectSound(found)
      note('a train', found.trains.length > 0)
      note('several trains', found.trains.length > 1)
      note('only a closest', found.trains.length === 0 && found.closest !== null)
      noteSome('compound', found.trains, (t) => t.stages.length > 1)
      noteSome('left-handed', found.trains, (t) => t.hand === 'left')
      note('not all mountable', found.counts.mountable < found.counts.withinTolerance)
    })
    fc.assert(property, { numRuns })
    // Of 2000 questions 58 % have a train, 12 % several, 31 % only a closest one; 18 % a compound one.
    expectShares({
      'a train': 0.5,
      'several trains': 0.06,
      'only a closest': 0.2,
      compound: 0.1,
      'left-handed': 0.1,
      'not all mountable': 0.2,
    })
  })

  it('with a banjo, every layout checked by itself', () => {
    const { note, noteSome, expectShares } = tally()
    const property = fc.property(banjoQuestions, (question) => {
      const both = answers(question)
      note('refused', both === null)
      if (!both) return
      const { found, plain } = both
      expect(bareAnswer(found)).toEqual(bareAnswer(plain))
      expect(layoutsApart(found, plain)).toBeLessThan(SAME_PLACE)
      const all = [...found.trains, ...(found.closest ? [found.closest] : [])]
      expect(all.flatMap((train) => checkLayout(question.workshop.lathe, train))).toEqual([])
      expectSound(found)
      note('a train', found.trains.length > 0)
      note('only a closest', found.trains.length === 0 && found.closest !== null)
      noteSome('compound', found.trains, (t) => t.stages.length > 1)
      noteSome('several studs', found.trains, (t) => t.shafts.length > 3)
      note('not all mountable', found.counts.mountable < found.counts.withinTolerance)
    })
    fc.assert(property, { numRuns })
    // Of 2000 questions 33 % have a train, 27 % only a closest one; 7 % a compound one, 4 % one of several studs.
    expectShares({
      refused: 0.005,
      'a train': 0.25,
      'only a closest': 0.15,
      compound: 0.04,
      'several studs': 0.02,
      'not all mountable': 0.4,
    })
  })
})
