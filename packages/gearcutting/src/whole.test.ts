import fc from 'fast-check'
import Fraction from 'fraction.js'
import { expect, test } from 'vitest'
import { fractionText, gcd, inverse } from './whole.js'

const whole = fc.integer({ min: 1, max: 1_000_000 })

test('fractions print as a library of fractions prints them', () => {
  fc.assert(
    fc.property(fc.integer({ min: -1_000_000, max: 1_000_000 }), whole, (n, d) => {
      expect(fractionText(n, d)).toBe(new Fraction(n, d).toFraction())
    }),
  )
})

test('an inverse times its number leaves 1', () => {
  fc.assert(
    fc.property(whole, fc.integer({ min: 2, max: 1_000_000 }), (a, modulus) => {
      fc.pre(gcd(a, modulus) === 1)
      const found = inverse(a, modulus)
      expect((BigInt(a) * BigInt(found)) % BigInt(modulus)).toBe(1n)
      expect(found).toBeLessThan(modulus)
    }),
  )
})
