import { findTrains, type TrainSearch } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from './demo.js'
import { type Answer, nothing } from './state/answers.js'
import { ask } from './state/ask.js'
import { shownTrain, trainKey } from './state/picked.js'
import { inWords, pitchHint, spoken, stamp, verdict } from './words.js'

const answerTo = (thread: number): Answer & { search: TrainSearch } => {
  const { question } = ask({ ...demo(), thread })
  const search = findTrains(question.workshop, question.wanted, question.options)
  return { ...nothing, search, question, current: true }
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

describe('what is said of a pitch', () => {
  it('is how a number without a unit is read, both ways', () => {
    expect(pitchHint('11.5', '26 tpi')).toBe('Read as 11.5 mm, ≈ 2.2087 tpi. For threads per inch write 11.5 tpi.')
    for (const pitch of ['11.5 tpi', '11.5 mm', '', '1/', 'M6']) expect(pitchHint(pitch, '26 tpi')).toBe('26 tpi')
  })

  it('is where a published thread is picked, to those who write its name', () => {
    const problem = { path: 'wanted.pitch', code: 'not-a-number', message: 'No pitch.' }
    expect(inWords(problem)).toBe('No pitch. Published threads such as M6 are picked above.')
    expect(inWords({ ...problem, path: 'lathe.leadscrew.pitch' })).toBe('No pitch.')
  })
})
