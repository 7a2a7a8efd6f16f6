import type { GearProposals, ThreadWanted } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import type { Told } from './state/asking.js'
import { readMaking } from './state/making.js'
import type { GearAnswer, GearQuestion } from './state/proposals.js'
import { blankMaking } from './state/typed-making.js'
import { gearVerdict, limitsInWords, threadInFull, threadName, waysOut } from './words-making.js'

const wanted: ThreadWanted[] = [{ pitch: '11 tpi', name: 'Tripod head', hand: 'left' }]
const none: GearProposals = { already: [], proposals: [], never: [] }
const question = { wanted, options: { make: 1 } } as GearQuestion
const told = (change: Partial<Told<GearQuestion, GearAnswer>>): Told<GearQuestion, GearAnswer> => ({
  answer: { one: none, all: null },
  question,
  current: true,
  progress: null,
  stopped: false,
  problems: [],
  failure: null,
  ...change,
})
const gear = (teeth: number) => ({ make: [{ teeth, module: 1, pressureAngle: 20 }], opens: [], worstErrorPpm: 0 })

describe('gearVerdict', () => {
  it.each<[string, Partial<Told<GearQuestion, GearAnswer>>]>([
    ['Looking for gears …', { answer: null }],
    ['Looking for gears …', { progress: 0.5 }],
    ['Correct what is marked', { answer: null, problems: [{ path: '', code: '', message: '' }] }],
    ['The search failed: out of memory', { failure: 'out of memory' }],
    ['The search was stopped.', { stopped: true, current: false }],
    ['Old answer', { current: false }],
    ['No gear that you can make would cut 11 tpi LH Tripod head.', {}],
    [
      'The box cuts 11 tpi LH Tripod head now.',
      { answer: { one: { ...none, already: [{ wanted: 0 } as never] }, all: null } },
    ],
    [
      'One gear would cut 11 tpi LH Tripod head: 44 teeth.',
      { answer: { one: { ...none, proposals: [gear(44)] }, all: null } },
    ],
    ['44 teeth: with it the box cuts', { answer: { one: { ...none, proposals: [gear(44), gear(55)] }, all: null } }],
    [
      '44 teeth: with them the box cuts',
      {
        answer: { one: { ...none, proposals: [gear(44), gear(55)] }, all: null },
        question: { ...question, options: { make: 2 } },
      },
    ],
  ])('says “%s”', (words, change) => {
    expect(gearVerdict(told(change))).toContain(words)
  })
})

describe('threads', () => {
  it('go by their name, their pitch, their hand', () => {
    expect(threadName(wanted[0]!)).toBe('Tripod head LH')
    expect(threadName({ pitch: '1 mm' })).toBe('1 mm')
    expect(threadInFull({ pitch: '1 mm', name: 'M6' })).toBe('1 mm M6')
  })
})

describe('limits', () => {
  const making = readMaking({ ...blankMaking(), least: '30', worm: '1', plates: '60', bore: '12' })

  it('are told in words', () => {
    expect(limitsInWords(readMaking(blankMaking()))).toBe('20 to 127 teeth, of the size that most of the box has')
    const words = limitsInWords(making)
    expect(words).toContain('30 to 127 teeth')
    expect(words).toContain('the 2 counts that the head divides exactly')
    expect(words).toContain('a bore of 12 mm')
  })

  it('each have their way out', () => {
    expect(waysOut(making)).toHaveLength(5)
    expect(waysOut(readMaking({ ...blankMaking(), gears: '2' }))).toHaveLength(2)
  })
})
