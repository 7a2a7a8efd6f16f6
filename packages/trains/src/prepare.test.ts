import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { banjoQuestions, type Question, questions } from '../../../bench/plain/arbitrary.js'
import { shop } from '../../../bench/plain/in-brief.js'
import type { ThreadWanted, Workshop } from './contract.js'
import { findTrains, makeChart, type Prepared, prepare, proposeGears } from './index.js'
import { WorkshopError } from './workshop-error.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 40)

const more: ThreadWanted[] = [
  { pitch: '0.7 mm' },
  { pitch: '1 mm', tolerance: { ppm: 100_000 } },
  { pitch: '26 tpi', hand: 'left', tolerance: { ppm: 20_000 } },
  { pitch: '1.5', tolerance: { ppm: 0 } },
]

/** A workshop made ready, or null where it is refused. */
function ready(workshop: Workshop): Prepared | null {
  try {
    return prepare(workshop)
  } catch (error) {
    if (error instanceof WorkshopError) return null
    throw error
  }
}

describe('a prepared workshop', () => {
  it('answers as the plain calls do, whatever was asked before', () => {
    let prepared = 0
    const property = fc.property(fc.oneof(questions, banjoQuestions), ({ workshop, wanted, options }: Question) => {
      const bench = ready(workshop)
      if (!bench) return
      prepared++
      const threads = [wanted, ...more]
      const first = bench.findTrains(wanted, options)
      expect(first).toEqual(findTrains(workshop, wanted, options))
      for (const thread of threads) expect(bench.findTrains(thread)).toEqual(findTrains(workshop, thread))
      const chart = { sequence: 'fewest changes' } as const
      expect(bench.makeChart(threads, chart)).toEqual(makeChart(workshop, threads, chart))
      const range = { teeth: [30, 36] as [number, number] }
      expect(bench.proposeGears(threads, range)).toEqual(proposeGears(workshop, threads, range))
      expect(bench.findTrains(wanted, options)).toEqual(first)
    })
    fc.assert(property, { numRuns })
    expect(prepared).toBeGreaterThan(0.9 * numRuns)
  })

  it('proposes gears of a size that the box has none of, of a banjo that only they reach', () => {
    const lathe = {
      leadscrew: { pitch: '1 mm' },
      studs: 1,
      centreDistance: 2300,
      banjo: { swing: [-90, 90] as [number, number], slots: [{ from: 10, to: 200 }] },
    }
    const workshop = { lathe, gears: [{ teeth: 20 }, { teeth: 40 }] }
    const large = { module: 30, teeth: [80, 90] as [number, number] }
    const wanted = [{ pitch: '0.9' }]
    expect(prepare(workshop).proposeGears(wanted, large)).toEqual(proposeGears(workshop, wanted, large))
  })

  it('proposes the gear that reaches, of a banjo that is refused for trains', () => {
    const lathe = {
      leadscrew: { pitch: '2 mm' },
      studs: 1,
      shaftClearance: 0,
      centreDistance: 120,
      banjo: { swing: [-90, 90] as [number, number], slots: [{ from: 20, to: 60 }] },
    }
    const workshop = { lathe, gears: [20, 40, 50].map((teeth) => ({ teeth })) }
    const bench = prepare(workshop)
    const wanted = [{ pitch: '5 mm' }]
    const range = { teeth: [90, 127] as [number, number] }
    const proposed = bench.proposeGears(wanted, range)
    expect(proposed.proposals[0].make[0].teeth).toBe(90)
    expect(proposed).toEqual(proposeGears(workshop, wanted, range))
    const outOfReach = expect.objectContaining({
      problems: [expect.objectContaining({ path: 'lathe.banjo.slots', code: 'out-of-reach' })],
    })
    expect(() => bench.findTrains(wanted[0])).toThrow(outOfReach)
    expect(() => bench.makeChart(wanted)).toThrow(outOfReach)
    // Up to 60 teeth nothing reaches; 300 reach further than the usual 127.
    expect(() => bench.proposeGears(wanted, { teeth: [20, 50] })).toThrow(outOfReach)
    const far = {
      ...workshop,
      lathe: { ...lathe, centreDistance: 250 },
      gears: [20, 40, 80].map((teeth) => ({ teeth })),
    }
    const long = proposeGears(far, [{ pitch: '15 mm' }], { teeth: [290, 310] })
    expect(long.proposals[0].make[0].teeth).toBe(300)
    // As do gears of a larger module.
    expect(proposeGears(far, wanted, { teeth: [90, 127], module: 2 }).never).toEqual([0])
  })

  it('keeps nothing of one question for the next', () => {
    const workshop = shop([{ teeth: 20, count: 2 }, { teeth: 30 }, { teeth: 40 }, { teeth: 45 }, { teeth: 60 }])
    const bench = prepare(workshop)
    for (const thread of [...more, ...more]) {
      expect(bench.findTrains(thread, { stages: 2 })).toEqual(findTrains(workshop, thread, { stages: 2 }))
      expect(bench.findTrains(thread)).toEqual(findTrains(workshop, thread))
    }
    const range = { teeth: [30, 36] as [number, number] }
    expect(bench.makeChart(more)).toEqual(makeChart(workshop, more))
    expect(bench.proposeGears(more, range)).toEqual(proposeGears(workshop, more, range))
    expect(bench.findTrains(more[1])).toEqual(findTrains(workshop, more[1]))
  })

  it('is not changed by what becomes of the workshop given', () => {
    const workshop = shop([{ teeth: 20 }, { teeth: 40 }, { teeth: 30, count: 2 }], { studs: 1 })
    const threads: ThreadWanted[] = [{ pitch: '0.5' }, { pitch: '0.4' }]
    const untouched = prepare(structuredClone(workshop))
    const bench = prepare(workshop)
    workshop.gears[0].teeth = 21
    workshop.gears.pop()
    workshop.lathe.leadscrew.pitch = '2 mm'
    workshop.lathe.studs = 0
    expect(bench.findTrains(threads[0])).toEqual(untouched.findTrains(threads[0]))
    expect(bench.makeChart(threads)).toEqual(untouched.makeChart(threads))
    expect(bench.proposeGears(threads)).toEqual(untouched.proposeGears(threads))
  })

  it('refuses bad questions as the plain calls do', () => {
    const bench = prepare(shop([{ teeth: 20 }, { teeth: 40 }]))
    expect(() => bench.findTrains({ pitch: 'soon' })).toThrow(WorkshopError)
    expect(() => bench.makeChart([{ pitch: '0' }])).toThrow('wanted[0].pitch')
    expect(() => bench.proposeGears([{ pitch: '1' }], { limit: -1 })).toThrow('options.limit')
  })
})
