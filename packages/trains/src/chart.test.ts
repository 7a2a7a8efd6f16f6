import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { type Question, questions } from '../../../bench/plain/arbitrary.js'
import { box, shop, spell } from '../../../bench/plain/in-brief.js'
import type { ChartRow, ThreadWanted, Train } from './contract.js'
import { findTrains, makeChart } from './index.js'
import { WorkshopError } from './workshop-error.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 100)

const bench = shop(box(20, 24, 28, 30, 32, 35, 36, 40, 45, 50, 55, 60, 63, 65, 70, 75, 80))
const pitches = [
  '0.4',
  '0.5',
  '0.6',
  '0.7',
  '0.75',
  '0.8',
  '1',
  '1.25',
  '1.5',
  '1.75',
  '20 tpi',
  '26 tpi',
  '32 tpi',
  '40 tpi',
]
const lists = fc.array(fc.record({ pitch: fc.constantFrom(...pitches) }), { minLength: 2, maxLength: 8 })

/** Gears to put on to come from one train to the other. */
function changes(from: Train | null, to: Train): number {
  const gears = ({ stages }: Train) =>
    stages.flatMap((s) => [s.driver, ...s.idlers, s.driven]).map((g) => `${g.teeth} ${g.module} ${g.pressureAngle}`)
  const there = from ? gears(from) : []
  return gears(to).filter((gear) => {
    const at = there.indexOf(gear)
    if (at >= 0) there.splice(at, 1)
    return at < 0
  }).length
}
const changesInAll = (rows: ChartRow[]): number =>
  rows.reduce((sum, { train }, i) => sum + (train ? changes(rows[i - 1]?.train ?? null, train) : 0), 0)

describe('a chart in the order given', () => {
  it('has for each thread what findTrains finds first, and the closest', () => {
    const more: ThreadWanted[] = [
      { pitch: '0.7', tolerance: { ppm: 50_000 } },
      { pitch: '1', hand: 'left' },
    ]
    let rowsWithTrain = 0
    const property = fc.property(questions, ({ workshop, wanted, options }: Question) => {
      const threads = [wanted, ...more]
      let rows: ChartRow[]
      try {
        rows = makeChart(workshop, threads, options)
      } catch (error) {
        if (error instanceof WorkshopError) return
        throw error
      }
      expect(rows.map((row) => row.wanted)).toEqual([0, 1, 2])
      rows.forEach(({ train, closest }, i) => {
        const found = findTrains(workshop, threads[i], options)
        expect(train).toEqual(found.trains[0] ?? null)
        expect(closest).toEqual(found.closest)
        if (train) rowsWithTrain++
      })
    })
    fc.assert(property, { numRuns })
    if (numRuns >= 50) expect(rowsWithTrain).toBeGreaterThan(0.5 * numRuns)
  })

  it('leaves a thread that cannot be cut its place', () => {
    const rows = makeChart(shop(box(20, 40, 30), { studs: 1 }), [{ pitch: '0.31' }, { pitch: '0.5' }])
    expect(rows.map(({ train }) => train && spell(train))).toEqual([null, '20-30-40'])
    expect(rows[0].closest).not.toBeNull()
  })
})

describe('a chart in fewest changes', () => {
  const few = (threads: ThreadWanted[]) => makeChart(bench, threads, { sequence: 'fewest changes' })
  /** Trains among which the chart may choose: the first twenty. */
  const choice = (thread: ThreadWanted) => findTrains(bench, thread, { limit: 20 }).trains

  it('holds the same threads, each with one of its first trains', () => {
    fc.assert(
      fc.property(lists, (threads) => {
        const rows = few(threads)
        expect(rows.map((row) => row.wanted).sort()).toEqual(threads.map((_, i) => i))
        for (const { wanted, train, closest } of rows) {
          const trains = choice(threads[wanted])
          if (trains.length === 0) expect(train).toBeNull()
          else expect(trains).toContainEqual(train)
          expect(closest).toEqual(findTrains(bench, threads[wanted]).closest)
        }
      }),
      { numRuns: Math.min(numRuns, 40) },
    )
  })

  // The order is found step by step, which need not be the best of all; this much is sure.
  it('never changes more gears in all than the order given', () => {
    let fewer = 0
    const property = fc.property(lists, (threads) => {
      const [ordered, given] = [few(threads), makeChart(bench, threads)].map(changesInAll)
      expect(ordered).toBeLessThanOrEqual(given)
      if (ordered < given) fewer++
    })
    fc.assert(property, { numRuns })
    if (numRuns >= 50) expect(fewer).toBeGreaterThan(0.5 * numRuns)
  })

  it('not even where taking the nearest each time goes astray', () => {
    for (const list of ['40 tpi,0.7,32 tpi,26 tpi', '26 tpi,40 tpi,0.6', '1,0.6,40 tpi,32 tpi']) {
      const threads = list.split(',').map((pitch) => ({ pitch }))
      expect(changesInAll(few(threads))).toBeLessThanOrEqual(changesInAll(makeChart(bench, threads)))
    }
  })

  it('puts side by side what shares gears', () => {
    // 0.5 by 20:40 and 2 by 40:20 share all; 0.75 by 30:40 shares two with either and its idler.
    const rows = makeChart(
      shop(box(20, 30, 40), { studs: 1 }),
      [{ pitch: '0.5' }, { pitch: '0.75' }, { pitch: '2' }, { pitch: '0.123' }],
      { sequence: 'fewest changes' },
    )
    expect(rows.map((row) => row.wanted)).toEqual([0, 1, 2, 3])
    expect(changesInAll(rows)).toBe(3)
    expect(rows[3].train).toBeNull()
  })

  it('goes from row to row by fewest gears to put on, the earlier thread and the better train of equals', () => {
    const threads = ['20/40', '57/59', '40/20', '59/57'].map((pitch) => ({ pitch, tolerance: { ppm: 0 } }))
    const workshop = shop(box(20, 40, 30, 57, 59), { studs: 1 })
    const told = (rows: ChartRow[]) => rows.map(({ wanted, train }) => `${wanted}: ${spell(train!)}`)
    // 3 + 0 + 2 + 0 gears to put on; 57:59 over 20, 30 or 40 is 2 from 40-30-20.
    expect(told(makeChart(workshop, threads, { sequence: 'fewest changes' }))).toEqual([
      '0: 20-30-40',
      '2: 40-30-20',
      '1: 57-20-59',
      '3: 59-20-57',
    ])
    expect(told(makeChart(workshop, threads))).toEqual(['0: 20-30-40', '1: 57-20-59', '2: 40-30-20', '3: 59-20-57'])
  })

  it('puts threads without a train last, in the order given', () => {
    const threads = ['0.31', '1', '0.33', '0.5'].map((pitch) => ({ pitch, tolerance: { ppm: 0 } }))
    const rows = makeChart(shop(box(20, 40, 30), { studs: 1 }), threads, { sequence: 'fewest changes' })
    expect(rows.map((row) => row.wanted)).toEqual([3, 0, 1, 2])
  })
})
