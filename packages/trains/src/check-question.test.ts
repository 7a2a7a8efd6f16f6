import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { unsound } from '../../../bench/plain/alike.js'
import { box, problemsOf, shop } from '../../../bench/plain/in-brief.js'
import type { FindOptions, ProposeOptions, ThreadWanted } from './contract.js'
import { findTrains, makeChart, proposeGears } from './index.js'

const workshop = shop(box(20, 30, 40, 50), { studs: 1 })
const thread = (given: unknown): string[] => problemsOf(() => findTrains(workshop, given as ThreadWanted))
const options = (given: unknown): string[] =>
  problemsOf(() => findTrains(workshop, { pitch: '1' }, given as FindOptions))
const proposing = (given: unknown): string[] =>
  problemsOf(() => proposeGears(workshop, [{ pitch: '1' }], given as ProposeOptions))

describe('threads that are refused', () => {
  it.each<[what: string, given: unknown, problems: string[]]>([
    ['nothing', undefined, ['wanted object']],
    ['text', '0.7 mm', ['wanted object']],
    ['a list', [{ pitch: '1' }], ['wanted object']],
    ['no pitch', {}, ['wanted.pitch missing']],
    ['an empty pitch', { pitch: '' }, ['wanted.pitch missing']],
    ['a pitch of 0', { pitch: 0 }, ['wanted.pitch zero']],
    ['a pitch below 0', { pitch: '-1 mm' }, ['wanted.pitch negative']],
    ['a pitch of NaN', { pitch: Number.NaN }, ['wanted.pitch not-a-number']],
    ['a pitch without end', { pitch: Number.POSITIVE_INFINITY }, ['wanted.pitch not-a-number']],
    ['a pitch beyond measure', { pitch: '2000 mm' }, ['wanted.pitch range']],
    ['a pitch by name', { pitch: 'M6' }, ['wanted.pitch unit']],
    ['no start', { pitch: '1', starts: 0 }, ['wanted.starts whole']],
    ['half a start', { pitch: '1', starts: 1.5 }, ['wanted.starts whole']],
    ['101 starts', { pitch: '1', starts: 101 }, ['wanted.starts whole']],
    ['both hands', { pitch: '1', hand: 'both' }, ['wanted.hand one-of']],
    ['a tolerance as a number', { pitch: '1', tolerance: 500 }, ['wanted.tolerance tolerance']],
    ['an empty tolerance', { pitch: '1', tolerance: {} }, ['wanted.tolerance tolerance']],
    ['a tolerance below 0', { pitch: '1', tolerance: { ppm: -1 } }, ['wanted.tolerance.ppm tolerance']],
    ['a tolerance of NaN', { pitch: '1', tolerance: { ppm: Number.NaN } }, ['wanted.tolerance.ppm tolerance']],
    ['a tolerance of all', { pitch: '1', tolerance: { ppm: 1_000_000 } }, ['wanted.tolerance.ppm tolerance']],
    ['a tolerance as text', { pitch: '1', tolerance: { ppm: '500' } }, ['wanted.tolerance.ppm tolerance']],
    ['two tolerances', { pitch: '1', tolerance: { ppm: 1, error: '1', over: '10' } }, ['wanted.tolerance tolerance']],
    ['an error over nothing', { pitch: '1', tolerance: { error: '1 mm' } }, ['wanted.tolerance.over missing']],
    ['over no length', { pitch: '1', tolerance: { over: '1 mm' } }, ['wanted.tolerance tolerance']],
    ['an error of 0', { pitch: '1', tolerance: { error: '0', over: '10' } }, ['wanted.tolerance.error zero']],
    ['an error over 0', { pitch: '1', tolerance: { error: '1', over: '0' } }, ['wanted.tolerance.over zero']],
    ['an error of all', { pitch: '1', tolerance: { error: '10 mm', over: '10' } }, ['wanted.tolerance tolerance']],
    [
      'all at once',
      { pitch: 'x', starts: -1, hand: 1, name: [] },
      ['wanted.name text', 'wanted.pitch not-a-number', 'wanted.starts whole', 'wanted.hand one-of'],
    ],
  ])('%s', (_, given, problems) => expect(thread(given)).toEqual(problems))

  it('in a list, each by its place', () => {
    const bad = [{ pitch: '1' }, { pitch: '' }, 5, { pitch: '1', hand: 'up' }] as ThreadWanted[]
    const problems = ['wanted[1].pitch missing', 'wanted[2] object', 'wanted[3].hand one-of']
    expect(problemsOf(() => makeChart(workshop, bad))).toEqual(problems)
    expect(problemsOf(() => proposeGears(workshop, bad))).toEqual(problems)
    const many = Array<ThreadWanted>(1001).fill({ pitch: '1' })
    expect(problemsOf(() => makeChart(workshop, many))).toEqual(['wanted too-long'])
    expect(problemsOf(() => makeChart(workshop, {} as ThreadWanted[]))).toEqual(['wanted list'])
    expect(makeChart(workshop, [])).toEqual([])
    expect(proposeGears(workshop, [])).toEqual({ already: [], proposals: [], never: [] })
  })
})

describe('options that are refused', () => {
  it.each<[what: string, given: unknown, problems: string[]]>([
    ['null', null, ['options object']],
    ['a limit below 0', { limit: -1 }, ['options.limit whole']],
    ['a limit of 1001', { limit: 1001 }, ['options.limit whole']],
    ['half a train', { limit: 0.5 }, ['options.limit whole']],
    ['a limit without end', { limit: Number.POSITIVE_INFINITY }, ['options.limit whole']],
    ['no stage', { stages: 0 }, ['options.stages whole']],
    ['five stages', { stages: 5 }, ['options.stages whole']],
    ['a listener that is none', { onProgress: 5 }, ['options.onProgress function']],
    ['an unknown order', { order: 'cheapest' }, ['options.order one-of']],
    ['mounted as a number', { mounted: 20 }, ['options.mounted list']],
    ['mounted by numbers', { mounted: [20] }, ['options.mounted[0] object']],
    ['mounted without teeth', { mounted: [{ module: 1 }] }, ['options.mounted[0].teeth whole']],
    ['mounted in module 0', { mounted: [{ teeth: 20, module: 0 }] }, ['options.mounted[0].module positive']],
    [
      'all at once',
      { limit: 'all', stages: -1, order: 5 },
      ['limit whole', 'stages whole', 'order one-of'].map((p) => `options.${p}`),
    ],
  ])('%s', (_, given, problems) => expect(options(given)).toEqual(problems))

  it.each<[what: string, given: unknown, problems: string[]]>([
    ['three gears to make', { make: 3 }, ['options.make whole']],
    ['none to make', { make: 0 }, ['options.make whole']],
    ['a range upside down', { teeth: [60, 20] }, ['options.teeth teeth-order']],
    ['a range of one', { teeth: [60] }, ['options.teeth too-few']],
    ['a range from 5', { teeth: [5, 60] }, ['options.teeth[0] whole']],
    ['makeable by halves', { makeable: [20, 20.5] }, ['options.makeable[1] whole']],
    ['a blank without bore', { blank: { wall: 3 } }, ['options.blank.bore number']],
    ['a blank of a wall below 0', { blank: { bore: 10, wall: -3 } }, ['options.blank.wall range']],
    ['module 0', { module: 0 }, ['options.module positive']],
    ['an angle of 90', { pressureAngle: 90 }, ['options.pressureAngle range']],
    ['a limit below 0', { limit: -1 }, ['options.limit whole']],
  ])('for proposals: %s', (_, given, problems) => expect(proposing(given)).toEqual(problems))
})

describe('the thinnest tolerances', () => {
  const ask = (tolerance: ThreadWanted['tolerance'], pitch = '1/2') => {
    const found = findTrains(workshop, { pitch, ...(tolerance && { tolerance }) })
    expect(unsound(found)).toEqual([])
    return found.counts.withinTolerance
  }

  it('hold what is exact, and nothing else', () => {
    for (const ppm of [0, 1e-9, 1e-300, Number.MIN_VALUE]) {
      // 20:40 and no other.
      expect(ask({ ppm })).toBe(1)
      expect(ask({ ppm }, '500000000001/1000000000000')).toBe(0)
    }
    // 20/40 against 500000001/1000000000: 1/500000001 off, just under 2e-9, which is 0.002 ppm.
    expect(ask({ ppm: 0.002 }, '500000001/1000000000')).toBe(1)
    expect(ask({ ppm: 0.0019 }, '500000001/1000000000')).toBe(0)
    expect(ask({ error: '0.000001', over: '100000' })).toBe(1)
  })

  it('tell borders that doubles cannot', () => {
    // 1/2 / (1/2 + 1e-20) - 1 is 2e-20 below 0: a double has it at 0.
    const pitch = '50000000000000000001/100000000000000000000'
    expect(ask({ ppm: 0 }, pitch)).toBe(0)
    expect(ask({ ppm: 2e-14 }, pitch)).toBe(1)
    expect(ask({ ppm: 1.9e-14 }, pitch)).toBe(0)
  })

  it('and the widest', () => {
    // Every set of a ratio under 1: six pairs, 20 30 : 40 50, 20 40 : 30 50 and 20 50 : 30 40.
    expect(ask({ ppm: 999_999.999 })).toBe(9)
    expect(ask({ error: '9.999', over: '10' })).toBe(9)
  })
})

describe('extreme questions', () => {
  it('never give NaN, Infinity or undefined', () => {
    const pitches = fc.constantFrom('0.001 mm', '1000 mm', '1 mm', '0.3 module', '25400 tpi', '999999999/1000000000')
    const ratios = fc.constantFrom<string | number>(1, '1/1000000', 1_000_000, '999999/1000000')
    const teeth = fc.constantFrom(6, 7, 2000, 1999, 30, 60)
    const property = fc.property(
      fc.record({
        screw: pitches,
        pitch: pitches,
        starts: fc.constantFrom(1, 100),
        ratio: ratios,
        gears: fc.array(teeth, { minLength: 1, maxLength: 5 }),
        studs: fc.constantFrom(0, 1, 2, 8),
        centreDistance: fc.constantFrom(undefined, 1e-6, 10_000),
        shaftClearance: fc.constantFrom(undefined, 0, 10_000),
        ppm: fc.constantFrom(0, 1e-9, 500, 999_999),
        module: fc.constantFrom(1e-6, 1, 100),
      }),
      ({ screw, pitch, starts, ratio, gears, studs, centreDistance, shaftClearance, ppm, module }) => {
        const lathe = {
          leadscrew: { pitch: screw },
          drives: [{ ratio }],
          studs,
          ...(centreDistance && { centreDistance }),
          ...(shaftClearance !== undefined && { shaftClearance }),
        }
        const asked = { lathe, gears: gears.map((t) => ({ teeth: t, module })) }
        const found = findTrains(asked, { pitch, starts, tolerance: { ppm } }, { stages: 2 })
        expect(unsound(found)).toEqual([])
        expect(found.obstacles.length > 0).toBe(found.trains.length === 0)
        expect(found).toEqual(structuredClone(JSON.parse(JSON.stringify(found))))
      },
    )
    fc.assert(property, { numRuns: Number(process.env.RUNS ?? 300) })
  })

  it('tell the closest train however far it is off', () => {
    // The only train cuts 500 mm x 1000; wanted is 0.001 mm: 5 x 10^8 times as much.
    const lathe = { leadscrew: { pitch: '1000 mm' }, drives: [{ ratio: 1000 }], studs: 0 }
    const { closest, obstacles } = findTrains(
      {
        lathe,
        gears: [
          { teeth: 20, shafts: ['input'] },
          { teeth: 40, shafts: ['output'] },
        ],
      },
      { pitch: '0.001 mm', hand: 'left' },
    )
    expect(closest?.errorPpm).toBe(499_999_999e6)
    expect(obstacles).toMatchObject([{ code: 'tolerance', closestPpm: 499_999_999e6 }])
  })
})
