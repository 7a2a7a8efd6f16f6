import { expect, test } from 'vitest'
import { InputError } from './problems.js'
import { parseRatio } from './ratio.js'
import { toFractionText } from './rational.js'

test.each<[string | number, string]>([
  ['127/120', '127/120'],
  ['254/240', '127/120'],
  ['0.5', '1/2'],
  ['0,5', '1/2'],
  ['2 1/2', '5/2'],
  [2, '2'],
  [0.1, '1/10'],
  [1e-6, '1/1000000'],
  ['1000000', '1000000'],
])('%j is %s', (given, ratio) => {
  expect(toFractionText(parseRatio(given))).toBe(ratio)
})

test.each(['2:1', '2 mm', '50%', '0', '1/2000000', 1e7])('%j is refused', (given) => {
  expect(() => parseRatio(given)).toThrow(InputError)
})
