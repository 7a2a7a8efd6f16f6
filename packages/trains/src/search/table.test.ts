import fc from 'fast-check'
import { expect, it } from 'vitest'
import { sortedOrder } from './table.js'

it.each([2 ** 11, 2 ** 31 - 1, 2 ** 31, 2 ** 53 - 1])(
  'orders whole numbers up to %d, equal ones as they came',
  (max) => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.maxSafeNat().map((n) => n % (max + 1)),
            fc.nat(9),
          ),
          { maxLength: 60 },
        ),
        (list) => {
          const values = [...list, max]
          const order = [...values.keys()].sort((a, b) => values[a]! - values[b]! || a - b)
          expect([...sortedOrder(Float64Array.from(values))]).toEqual(order)
        },
      ),
    )
  },
)
