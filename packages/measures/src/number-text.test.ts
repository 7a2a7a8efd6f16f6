import fc from 'fast-check'
import { expect, test } from 'vitest'
import { exactly } from './number-text.js'
import { toFractionText, toNumber } from './rational.js'

test.each([
  [0.1, '1/10'],
  [-2.5, '-5/2'],
  [0, '0'],
  [1e21, `1${'0'.repeat(21)}`],
  [1.5e-7, '3/20000000'],
])('%d is exactly %s', (given, text) => {
  expect(toFractionText(exactly(given))).toBe(text)
})

test('the decimal that a number prints is that number again', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
      expect(toNumber(exactly(x))).toBe(x === 0 ? 0 : x)
    }),
    { numRuns: 500 },
  )
})

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('%d is refused', (given) => {
  expect(() => exactly(given)).toThrow(RangeError)
})
