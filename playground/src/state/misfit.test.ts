import { findTrains, type Lathe, layOut } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { stamp } from '../words.js'
import { nothing } from './answers.js'
import { ask, type Question } from './ask.js'
import { inTurn } from './in-turn.js'
import { findMisfit } from './misfit.js'
import { shownTrain, trainKey } from './picked.js'

const worker = {
  findTrains: async (...args: Parameters<typeof findTrains>) => findTrains(...args),
  layOut: async (...args: Parameters<typeof layOut>) => layOut(...args),
}

async function answerTo(thread: number, change: Partial<Lathe>) {
  const { question } = ask({ ...demo(), thread })
  const { workshop } = question
  const asked: Question = { ...question, workshop: { ...workshop, lathe: { ...workshop.lathe, ...change } } }
  const search = findTrains(asked.workshop, asked.wanted, asked.options)
  const misfit = await findMisfit(worker, asked, search)
  return { ...nothing, search, question: asked, misfit, current: true }
}

describe('findMisfit', () => {
  it('finds the train that would cut the thread, and what keeps it off the banjo', async () => {
    const answer = await answerTo(0, { banjo: { swing: [100, 110], slots: [{ from: 30, to: 50 }] } })
    expect(answer.search.counts.mountable).toBe(0)
    expect(answer.misfit).toMatchObject({ train: { errorPpm: 0 }, obstacle: { code: 'reach' } })
    const shown = shownTrain(answer, trainKey(answer.misfit!.train))!
    expect(shown).toBe(answer.misfit!.train)
    expect(stamp(answer, shown)).toBe('Does not fit')
  })

  it('finds one that only nuts and distance keep off', async () => {
    const answer = await answerTo(0, { shaftClearance: 60 })
    expect(answer.misfit).toMatchObject({ train: { errorPpm: 0 }, obstacle: null })
  })

  it('finds none where one goes on, nor where no ratio is right', async () => {
    expect((await answerTo(0, {})).misfit).toBeNull()
    expect((await answerTo(3, {})).misfit).toBeNull()
  })

  it('is shown first only where the closest is no thread at all', async () => {
    const answer = await answerTo(0, { banjo: { swing: [100, 110], slots: [{ from: 30, to: 50 }] } })
    const closest = { ...answer.misfit!.train, stages: [] }
    const withClosest = (errorPpm: number) => ({
      ...answer,
      search: { ...answer.search, closest: { ...closest, errorPpm } },
    })
    expect(shownTrain(withClosest(-900), null)!.errorPpm).toBe(-900)
    expect(shownTrain(withClosest(250_000), null)).toBe(answer.misfit!.train)
  })
})

describe('inTurn', () => {
  it('asks one thing at a time, whatever becomes of the one before', async () => {
    const log: string[] = []
    const ask = inTurn(async (what: string) => {
      log.push(`${what} asked`)
      await new Promise((resolve) => setTimeout(resolve))
      log.push(`${what} answered`)
      if (what === 'a') throw new Error(what)
      return what
    })
    const [a, b] = await Promise.allSettled([ask('a'), ask('b')])
    expect([a.status, b.status]).toEqual(['rejected', 'fulfilled'])
    expect(log).toEqual(['a asked', 'a answered', 'b asked', 'b answered'])
  })
})
