import { type ChartOptions, findTrains, makeChart, type ProposeOptions, proposeGears } from '@trainwright/trains'
import type { TrainWorker } from '@trainwright/trains/worker'
import { describe, expect, it, vi } from 'vitest'
import { demo } from '../demo.js'
import { ask, readKinds } from './ask.js'
import { putIn } from './box.js'
import { chartAsking, readChartQuestion } from './chart.js'
import { gearAsking, readGearQuestion, rowsOf } from './proposals.js'
import type { Typed } from './typed.js'

const TRIPOD = 3
/** The real search without its worker. */
const search: Pick<TrainWorker, 'proposeGears' | 'makeChart'> = {
  proposeGears: async (workshop, wanted, options) => proposeGears(workshop, wanted, options as ProposeOptions),
  makeChart: async (workshop, wanted, options) => makeChart(workshop, wanted, options as ChartOptions),
}
const settled = () => new Promise((resolve) => setTimeout(resolve))

const typed = (change: Partial<Typed> = {}): Typed => ({ ...demo(), thread: TRIPOD, ...change })
const making = (typed: Typed, change: Partial<Typed['workshop']['making']>): Typed => ({
  ...typed,
  workshop: { ...typed.workshop, making: { ...typed.workshop.making, ...change } },
})

async function gearsFor(typed: Typed) {
  const { question, problems } = readGearQuestion(typed, ask(typed))
  const asking = gearAsking(search)
  asking.ask(question, problems)
  await settled()
  return { question, told: asking.value, rows: rowsOf(asking.value.answer!) }
}

describe('which gear to make', () => {
  it('is answered for the thread in hand, and for the wish list with it', async () => {
    const { question, told, rows } = await gearsFor(typed())
    const { workshop, wanted, options } = question
    expect(wanted[0]).toMatchObject({ pitch: '11 tpi' })
    expect(told.answer!.one.proposals).toEqual(proposeGears(workshop, [wanted[0]!], options).proposals)
    expect(rows.all.map(({ make }) => make)).toEqual(
      proposeGears(workshop, wanted, options).proposals.map(({ make }) => make),
    )
    expect(rows.one[0]).toMatchObject({ make: [{ teeth: 44 }], train: { error: { n: '0', d: '1' } } })
  })

  it('says of each gear what else it opens', async () => {
    const { rows, question } = await gearsFor(typed())
    for (const { make, train, opens } of rows.one) {
      const { gears } = question.workshop
      const workshop = { ...question.workshop, gears: [...gears, ...make] }
      expect(train).toEqual(findTrains(workshop, question.wanted[0]!).closest)
      for (const { wanted } of opens) {
        expect(findTrains(question.workshop, question.wanted[wanted]!).trains).toEqual([])
        expect(findTrains(workshop, question.wanted[wanted]!).trains).not.toEqual([])
      }
    }
    expect(rows.one.some(({ opens }) => opens.length > 0)).toBe(true)
  })

  it('gives the promised train once the gear is in the box', async () => {
    const start = typed()
    const { rows } = await gearsFor(start)
    for (const { make, train } of rows.one.slice(0, 3)) {
      const kinds = make.reduce((kinds, gear) => putIn(kinds, readKinds(kinds, []), gear), start.workshop.kinds)
      const after = { ...start, workshop: { ...start.workshop, kinds } }
      const { question } = ask(after)
      expect(findTrains(question.workshop, question.wanted).trains[0]!.errorPpm).toBe(train!.errorPpm)
      expect((await gearsFor(after)).told.answer!.one).toMatchObject({ never: [], already: [{ wanted: 0 }] })
    }
  })

  it('does without a wish list, and does not wish for the thread in hand twice', async () => {
    const alone = await gearsFor(typed({ wishes: { list: '', ppm: '' } }))
    expect(alone.told.answer!.all).toBeNull()
    expect(alone.rows.all).toEqual([])
    const twice = readGearQuestion(typed({ wishes: { list: '11 tpi\n1 mm', ppm: '' } }), ask(typed()))
    expect(twice.question.wanted.map(({ pitch }) => pitch)).toEqual(['11 tpi', '1 mm'])
  })

  it('answers for the lines that it can read', () => {
    const { question, problems, own } = readGearQuestion(
      typed({ wishes: { list: 'soon\n1 mm', ppm: '' } }),
      ask(typed()),
    )
    expect(question.wanted).toHaveLength(2)
    expect(problems).toEqual([])
    expect(own.map(({ path }) => path)).toEqual(['wishes.list'])
  })

  it('makes pairs on request, and keeps to the limits', async () => {
    const { rows } = await gearsFor(
      making(typed({ wishes: { list: '0.9 mm\n0.81 mm\n0.73 mm', ppm: '' } }), { gears: '2', least: '30', most: '60' }),
    )
    const pairs = [...rows.one, ...rows.all].map(({ make }) => make.map(({ teeth }) => teeth))
    expect(pairs.length).toBeGreaterThan(0)
    expect(pairs.every((pair) => pair.length === 2 && pair.every((teeth) => teeth >= 30 && teeth <= 60))).toBe(true)
  })
})

describe('the chart', () => {
  async function chartOf(typed: Typed) {
    const { question, problems } = readChartQuestion(typed, ask(typed))
    const asking = chartAsking(search)
    asking.ask(question, problems)
    await settled()
    return { question, told: asking.value }
  }

  it('is that of the wish list, with what a gear more would add', async () => {
    const { question, told } = await chartOf(typed())
    const { rows, proposals } = told.answer!
    expect(rows).toEqual(makeChart(question.workshop, question.wanted))
    expect(proposals.length).toBeGreaterThan(0)
    for (const { make, opens } of proposals)
      for (const { wanted, train } of opens) {
        expect(rows.find((row) => row.wanted === wanted)!.train).toBeNull()
        const workshop = { ...question.workshop, gears: [...question.workshop.gears, ...make] }
        expect(findTrains(workshop, question.wanted[wanted]!).closest!.errorPpm).toBe(train.errorPpm)
      }
  })

  it('is that of a series, in the order that changes fewest gears', async () => {
    const { question, told } = await chartOf(typed({ chart: { of: 'BSF', sequence: 'fewest changes' } }))
    expect(question.wanted[0]).toMatchObject({ pitch: '32 tpi' })
    expect(told.answer!.rows).toEqual(
      makeChart(question.workshop, question.wanted, { sequence: 'fewest changes', order: 'fewest gears' }),
    )
  })

  it('does without gears to make while the limits are wrong', async () => {
    for (const wrong of [{ least: '90', most: '20' }, { module: '-1' }]) {
      const { told } = await chartOf(making(typed(), wrong))
      expect(told).toMatchObject({ current: true, answer: { proposals: [] } })
      expect(told.answer!.rows.length).toBeGreaterThan(0)
    }
  })

  it('tells how far it is: half when the trains are found', async () => {
    const asking = chartAsking({
      makeChart: async (workshop, wanted, options, call) => {
        call!.onProgress!(1, 2)
        await half
        return search.makeChart(workshop, wanted, options)
      },
      proposeGears: (_workshop, _wanted, _options, call) => {
        call!.onProgress!(1, 2)
        return new Promise(() => {})
      },
    })
    let goOn = () => {}
    const half = new Promise<void>((resolve) => {
      goOn = resolve
    })
    asking.ask(readChartQuestion(typed(), ask(typed())).question)
    await vi.waitFor(() => expect(asking.value.progress).toBe(0.25))
    goOn()
    await vi.waitFor(() => expect(asking.value.progress).toBe(0.75))
  })
})
