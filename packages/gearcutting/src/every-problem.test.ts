import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { leaves, spoil } from '../../../test-data/spoil.js'
import {
  centreDistance,
  checkBlank,
  chooseCutter,
  contactRatio,
  dialIndexing,
  indexable,
  indexing,
  interferes,
  outline,
  spurGear,
  undercutLimit,
} from './index.js'

const gear = { teeth: 30, module: 2, dp: 12.7, pressureAngle: 20, shift: 0.1, depth: 2.2, thinning: 0.05 }
const head = { worm: 40, plates: [[15, 16], [21]] }
const mesh = { teeth: [20, 30], module: 1, pressureAngle: 20, shift: [0, 0] }
const holes = { bore: 12, keyway: { width: 4, depth: 1.8 }, pin: { diameter: 3, distance: 15, angle: 90 } }

/** A question that is right, each value of it where problems name it, and who answers it. */
const asked: [string, (q: never) => unknown, object][] = [
  ['spurGear', spurGear, { ...gear, span: 4 }],
  ['undercutLimit', undercutLimit, { pressureAngle: 20, shift: 0 }],
  ['outline', outline, { ...gear, ...holes, tolerance: 0.01 }],
  ['checkBlank', checkBlank, { ...gear, blank: { bore: 12, keyway: { width: 4, depth: 1.8 }, wall: 2 } }],
  [
    'centreDistance',
    ({ a, b, module, pressureAngle }) => centreDistance(a, b, module, pressureAngle),
    { a: { teeth: 20, shift: 0 }, b: { teeth: 30, shift: 0.1 }, module: 1, pressureAngle: 20 },
  ],
  ['contactRatio', contactRatio, mesh],
  ['interferes', interferes, mesh],
  [
    'chooseCutter',
    chooseCutter,
    {
      teeth: 30,
      module: 2,
      dp: 12.7,
      pressureAngle: 20,
      owned: [
        { module: 2, pressureAngle: 20, from: 17, to: 34 },
        { dp: 20, from: 12 },
      ],
    },
  ],
  ['indexable', ({ head: on, range }) => indexable(on, range), { head, range: [20, 40] }],
  ['indexing', indexing, { divisions: 30, head, plateTurns: 'exact' }],
  ['dialIndexing', dialIndexing, { divisions: 30, table: { worm: 90, reading: 10 } }],
]

describe.each(asked)('%s', (_, ask, question) => {
  const paths = (q: unknown): string[] => {
    try {
      ask(q as never)
      return []
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      for (const { message } of error.problems) expect(message).not.toMatch(/NaN(?!”)|undefined/)
      return error.problems.map(({ path }) => path).sort()
    }
  }

  test('takes the question', () => {
    expect(paths(question)).toEqual([])
  })

  test('names every value that is refused on its own, whatever the others are, and none for the sake of another', () => {
    fc.assert(
      fc.property(
        fc.subarray(leaves(question), { minLength: 1 }),
        fc.constantFrom('x', Number.NaN, -1e9, 1e9, {}),
        (places, by) => {
          expect(paths(spoil(question, places, by))).toEqual([...places].sort())
        },
      ),
    )
  })
})
