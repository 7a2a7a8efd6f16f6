import type { Hand, Lathe, Layout, TrainSearch } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { banjoQuestions, type Question, questions, wishes } from './arbitrary.js'
import { checkLayout } from './check-layout.js'
import { findTrainsPlain, findWithinPlain, toleranceOf } from './find-trains.js'
import { equal, fromRational, magnitude } from './fraction.js'
import { layOutPlain } from './lay-out.js'
import { proposeGearsPlain } from './propose-gears.js'

// Plain means slow: more than five seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 })

const runs = { numRuns: 200 }
const ask = ({ workshop, wanted, options }: Question): TrainSearch => findTrainsPlain(workshop, wanted, options)

describe('questions', () => {
  const answered = fc.sample(questions, runs.numRuns).map((question) => ({ question, answer: ask(question) }))
  const share = (holds: (one: (typeof answered)[0]) => boolean): number =>
    answered.filter(holds).length / answered.length

  it('mostly have trains, of every sort', () => {
    expect(share(({ answer }) => answer.trains.length > 0)).toBeGreaterThan(0.45)
    expect(share(({ answer }) => answer.trains.length > 1)).toBeGreaterThan(0.06)
    expect(share(({ answer }) => answer.trains.length === 0 && answer.closest !== null)).toBeGreaterThan(0.1)
    expect(share(({ answer }) => answer.counts.mountable < answer.counts.withinTolerance)).toBeGreaterThan(0.1)
    expect(share(({ answer }) => answer.trains.some((t) => t.stages.length > 1))).toBeGreaterThan(0.08)
    expect(share(({ answer }) => answer.trains.some((t) => t.hand === 'left'))).toBeGreaterThan(0.1)
  })

  it('often stand exactly at the border', () => {
    const atBorder = ({ question, answer }: (typeof answered)[0]): boolean =>
      answer.trains.some(
        ({ error }) => error.n !== '0' && equal(magnitude(fromRational(error)), toleranceOf(question.wanted)),
      )
    expect(share(atBorder)).toBeGreaterThan(0.08)
  })
})

describe('laws of findTrainsPlain', () => {
  it('does not mind the order of the box', () => {
    fc.assert(
      fc.property(questions, ({ workshop, wanted, options }) => {
        const turned = { ...workshop, gears: [...workshop.gears].reverse() }
        expect(findTrainsPlain(turned, wanted, options)).toEqual(findTrainsPlain(workshop, wanted, options))
      }),
      runs,
    )
  })

  it('does not mind both hands being swapped', () => {
    const other = (hand: Hand = 'right'): Hand => (hand === 'right' ? 'left' : 'right')
    fc.assert(
      fc.property(questions, (question) => {
        const { workshop, wanted } = question
        const { lathe } = workshop
        const leadscrew = { ...lathe.leadscrew, hand: other(lathe.leadscrew.hand) }
        const swapped = {
          ...question,
          workshop: { ...workshop, lathe: { ...lathe, leadscrew } },
          wanted: { ...wanted, hand: other(wanted.hand) },
        }
        const trains = ask(question).trains.map((train) => ({ ...train, hand: other(train.hand) }))
        expect(ask(swapped).trains).toEqual(trains)
      }),
      runs,
    )
  })

  it('loses no set by a gear more', () => {
    fc.assert(
      fc.property(questions, fc.integer({ min: 12, max: 90 }), ({ workshop, wanted }, teeth) => {
        // Another gear of the same teeth could change which one a fixed gear is.
        fc.pre(workshop.gears.every((g) => g.teeth !== teeth))
        const more = { ...workshop, gears: [...workshop.gears, { teeth }] }
        const [before, after] = [workshop, more].map((w) => findWithinPlain(w, wanted).counts)
        expect(after.withinTolerance).toBeGreaterThanOrEqual(before.withinTolerance)
        expect(after.mountable).toBeGreaterThanOrEqual(before.mountable)
      }),
      runs,
    )
  })
})

describe('questions on a banjo', () => {
  it('have trains that stand, a good share of them', () => {
    const sample = fc.sample(banjoQuestions, runs.numRuns)
    const found = sample.map(({ workshop, wanted, options }) => findWithinPlain(workshop, wanted, options).trains)
    expect(found.filter((trains) => trains.length > 0).length / sample.length).toBeGreaterThan(0.25)
    for (const [i, trains] of found.entries()) {
      for (const train of trains) expect(checkLayout(sample[i].workshop.lathe, train)).toEqual([])
    }
  })

  /** The machine seen in a mirror along the line of the fixed shafts. */
  const mirrored = (lathe: Lathe): Lathe => {
    const { swing, slots, keepOut = [], ...rest } = lathe.banjo!
    const banjo = {
      ...rest,
      swing: [0 - swing[1], 0 - swing[0]] as [number, number],
      slots: slots.map((s) => ({ ...s, angle: 0 - (s.angle ?? 0), offset: 0 - (s.offset ?? 0) })),
      keepOut: keepOut.map((k) => ({ ...k, y: 0 - k.y })),
    }
    return { ...lathe, banjo }
  }
  const scaled = (lathe: Lathe, by: number): Lathe => {
    const { slots, keepOut = [], ...rest } = lathe.banjo!
    const banjo = {
      ...rest,
      slots: slots.map((s) => ({ ...s, offset: by * (s.offset ?? 0), from: by * s.from, to: by * s.to })),
      keepOut: keepOut.map(({ x, y, radius }) => ({ x: by * x, y: by * y, radius: by * radius })),
    }
    const { shaftClearance: round } = lathe
    const centreDistance = by * lathe.centreDistance!
    return { ...lathe, banjo, centreDistance, ...(round === undefined ? {} : { shaftClearance: by * round }) }
  }
  /** Whether each layout of `some` is among `others`, after `map`, to 1e-5 mm. */
  const among = (some: Layout[], others: Layout[], map: (x: number, y: number) => [number, number]): boolean =>
    some.every((a) =>
      others.some((b) =>
        a.shafts.every(({ x, y }, i) => {
          const [u, v] = map(b.shafts[i].x, b.shafts[i].y)
          return Math.hypot(x - u, y - v) < 1e-5
        }),
      ),
    )

  it('mirror and scale', () => {
    fc.assert(
      fc.property(banjoQuestions, ({ workshop, wanted, options }) => {
        const { lathe } = workshop
        for (const { shafts } of findWithinPlain(workshop, wanted, { ...options, limit: 3 }).trains) {
          const layouts = layOutPlain(lathe, shafts)
          expect(layouts.length).toBeGreaterThan(0)
          const back = layOutPlain(mirrored(lathe), shafts)
          expect(back.length).toBe(layouts.length)
          expect(among(layouts, back, (x, y) => [x, 0 - y])).toBe(true)

          // Only the half millimetre between tips does not grow, so what stands in small stands in large.
          const large = shafts.map((shaft) => ({
            ...shaft,
            gears: shaft.gears.map(({ gear, plane }) => ({ plane, gear: { ...gear, module: 4 * gear.module } })),
          }))
          const grown = layOutPlain(scaled(lathe, 4), large)
          expect(among(layouts, grown, (x, y) => [x / 4, y / 4])).toBe(true)
        }
      }),
      runs,
    )
  })
})

describe('wishes', () => {
  it('are often met by a gear or a pair', () => {
    const met = (make: 1 | 2, runs: number): number => {
      const sample = fc.sample(wishes(questions, make), runs)
      const proposals = sample.map(({ workshop, wanted, options }) =>
        proposeGearsPlain(workshop, wanted, options, findWithinPlain),
      )
      return proposals.filter((p) => p.proposals.length > 0).length / runs
    }
    expect(met(1, 80)).toBeGreaterThan(0.15)
    expect(met(2, 80)).toBeGreaterThan(0.04)
  })
})
