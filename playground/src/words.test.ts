import { findTrains, type TrainSearch } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from './demo.js'
import type { Answer } from './state/answers.js'
import { ask } from './state/ask.js'
import { shownTrain, trainKey } from './state/picked.js'
import { spoken, stamp, verdict } from './words.js'

const answerTo = (thread: number): Answer & { search: TrainSearch } => {
  const { question } = ask({ ...demo(), thread })
  const search = findTrains(question.workshop, question.wanted, question.options)
  return { search, question, misfit: null, current: true, working: false, problems: [], failure: null }
}

describe('the demo', () => {
  it.each([
    [0, 'Exact', 'right', 'exact'],
    [1, 'Within tolerance', 'right', '+125 ppm'],
    [2, 'Exact', 'left', 'exact'],
    [3, 'Out of tolerance', 'right', '−481 ppm'],
  ])('thread %i is %s', (thread, word, hand, error) => {
    const answer = answerTo(thread)
    const train = shownTrain(answer, null)!
    expect(stamp(answer, train)).toBe(word)
    expect(train.hand).toBe(hand)
    expect(spoken(answer, train)).toContain(error)
    expect(spoken(answer, train)).toContain(thread === 3 ? 'No train within tolerance. Closest: ' : 'Train: ')
  })
})

describe('what is shown', () => {
  it('is the picked train while it is among the answers, else the best', () => {
    const answer = answerTo(2)
    const third = answer.search.trains[2]!
    expect(shownTrain(answer, trainKey(third))).toBe(third)
    const other = answerTo(0)
    expect(shownTrain(other, trainKey(third))).toBe(other.search.trains[0])
  })

  it('is said to be old once it no longer answers the question', () => {
    const answer = { ...answerTo(0), current: false }
    expect(stamp(answer, answer.search.trains[0]!)).toBe('Old')
    expect(verdict(answer)).toContain('Old answer')
  })
})
