import type { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { centreDistance, contactRatio, interferes, spurGear } from './index.js'

describe('published meshes', () => {
  for (const row of rows('gear-meshes.csv')) {
    test(`${row.quantity} of ${row['teeth 1']} and ${row['teeth 2']}: ${row.expected} (${row.source}; ${row.seen})`, () => {
      const teeth: [number, number] = [Number(row['teeth 1']), Number(row['teeth 2'])]
      const module = row.dp ? 25.4 / Number(row.dp) : Number(row.module)
      const pressureAngle = Number(row['pressure angle'])
      const found =
        row.quantity === 'contact ratio'
          ? contactRatio({ teeth, module, pressureAngle })
          : centreDistance({ teeth: teeth[0] }, { teeth: teeth[1] }, module) / (row.quantity.endsWith('in') ? 25.4 : 1)
      const step = 10 ** -row.expected.split('.')[1].length
      expect(Math.abs(found - Number(row.expected))).toBeLessThanOrEqual((row.note ? 1 : 0.5) * step)
    })
  }
})

const count = fc.integer({ min: 18, max: 150 })

describe('laws', () => {
  test('swapping the gears changes nothing, and neither does the module the ratio', () => {
    fc.assert(
      fc.property(count, count, fc.constantFrom(0.5, 1, 1.25, 3), (a, b, module) => {
        expect(contactRatio({ teeth: [a, b], module })).toBeCloseTo(contactRatio({ teeth: [b, a], module: 1 }), 8)
        expect(centreDistance({ teeth: a }, { teeth: b }, module)).toBeCloseTo((module * (a + b)) / 2, 8)
      }),
    )
  })

  test('the ratio is the path along which both tips lie inside each other, by plain geometry', () => {
    fc.assert(
      fc.property(
        count,
        count,
        fc.constantFrom(14.5, 20, 25),
        fc.constantFrom(-0.2, 0, 0.3),
        (a, b, pressureAngle, x) => {
          // What one gains by shift the other loses: they stay at the nominal distance.
          const q = { teeth: [a, b] as [number, number], module: 1, pressureAngle, shift: [x, -x] as [number, number] }
          fc.pre(!interferes(q))
          const angle = (pressureAngle * Math.PI) / 180
          // Walk the line of action from the pitch point, each gear's centre on the y axis.
          const inside = (along: number): boolean => {
            const y = along * Math.sin(angle)
            const [lower, upper] = [
              Math.hypot(along * Math.cos(angle), y + a / 2),
              Math.hypot(along * Math.cos(angle), y - b / 2),
            ]
            return lower <= a / 2 + 1 + x && upper <= b / 2 + 1 - x
          }
          const edge = (direction: number): number => {
            let [low, high] = [0, 10]
            for (let i = 0; i < 60; i++) {
              const middle = (low + high) / 2
              if (inside(direction * middle)) low = middle
              else high = middle
            }
            return low
          }
          const found = (edge(1) + edge(-1)) / (Math.PI * Math.cos(angle))
          expect(contactRatio(q)).toBeCloseTo(found, 7)
        },
      ),
    )
  })

  test('with shift, the two teeth fill the working pitch circle between them', () => {
    fc.assert(
      fc.property(count, count, fc.integer({ min: -30, max: 50 }), fc.integer({ min: -30, max: 50 }), (a, b, i, j) => {
        const [x, y] = [i / 100, j / 100]
        const distance = centreDistance({ teeth: a, shift: x }, { teeth: b, shift: y }, 1)
        const thickness = (teeth: number, shift: number): number => {
          const { baseDiameter, pitchDiameter, toothThickness } = spurGear({ teeth, module: 1, shift })
          const working = (2 * distance * teeth) / (a + b)
          const inv = (diameter: number): number => {
            const angle = Math.acos(baseDiameter / diameter)
            return Math.tan(angle) - angle
          }
          return working * (toothThickness / pitchDiameter + inv(pitchDiameter) - inv(working))
        }
        expect(thickness(a, x) + thickness(b, y)).toBeCloseTo((2 * Math.PI * distance) / (a + b), 6)
      }),
    )
  })

  test('a pinion at the undercut limit does not interfere with its like, and one far below does', () => {
    expect(interferes({ teeth: [17, 17], module: 1 })).toBe(false)
    expect(interferes({ teeth: [12, 60], module: 1 })).toBe(true)
  })
})

test('bad input names every problem', () => {
  const problems = (ask: () => unknown): string[] => {
    try {
      ask()
      return []
    } catch (error) {
      return (error as InputError).problems.map(({ path, code }) => `${path} ${code}`)
    }
  }
  expect(problems(() => centreDistance({ teeth: 3 }, { teeth: 20.5 }, 0))).toEqual([
    'a.teeth range',
    'b.teeth not-whole',
    'module range',
  ])
  expect(problems(() => centreDistance(undefined as never, { teeth: 20 }, 1))).toEqual(['a.teeth missing'])
  expect(problems(() => contactRatio({ teeth: [20] as never, module: Number.NaN }))).toEqual([
    'teeth[1] missing',
    'module not-a-number',
  ])
  expect(problems(() => contactRatio({ teeth: [8, 8], module: 1, shift: [-0.9, -0.9] }))).toEqual(['shift shift-sum'])
  expect(problems(() => contactRatio(null as never))).toHaveLength(3)
})
