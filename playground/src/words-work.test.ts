import { recogniseThread } from '@trainwright/threads'
import { describe, expect, it } from 'vitest'
import { blankWork } from './state/typed-work.js'
import { deviationInWords, deviationsInWords, workSummary } from './words-work.js'

describe('deviations in words and figures', () => {
  it.each([
    ['major', -0.06, 0.02, 'over the crests 0.06 mm under, as made or worn screws are'],
    ['major', 0.01, 0.02, 'over the crests 0.01 mm over, within your doubt'],
    ['pitch', 0, 0.02, 'pitch as published'],
    ['pitch', -0.0001, 0.02, 'pitch as published'],
    ['angle', 0.5, 3, 'angle 0.5° over, within your doubt'],
  ] as const)('%s off by %f', (what, off, doubt, words) => {
    expect(deviationInWords(what, off, doubt)).toBe(words)
  })

  it('are told of what was measured only', () => {
    const measured = { major: { value: 3.54, doubt: 0.02 }, angle: { value: 48, doubt: 3 } }
    const [first] = recogniseThread(measured)
    expect(deviationsInWords(first!, measured)).toHaveLength(2)
  })
})

it('sums the thread up', () => {
  expect(workSummary(blankWork())).toBe('not given')
  expect(workSummary({ ...blankWork(), form: 'ba', by: 'effective', diameter: ' 3.2 ', cut: 'nut' })).toBe(
    'BA, 3.2 effective, nut',
  )
})
