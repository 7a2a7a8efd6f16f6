import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Banjo } from '../contract.js'
import { type MeasuredBanjo, measureBanjo } from './measure-banjo.js'

interface Point {
  x: number
  y: number
}
const apart = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)
const radians = (degrees: number) => (degrees * Math.PI) / 180

/** Where a stud stands by the definition of the frame: pivot at the origin, far shaft at (centre, 0). */
function stud(banjo: Banjo, slot: number, along: number, swing: number): Point {
  const { angle = 0, offset = 0 } = banjo.slots[slot]
  const turn = radians(swing + angle)
  return {
    x: along * Math.cos(turn) - offset * Math.sin(turn),
    y: along * Math.sin(turn) + offset * Math.cos(turn),
  }
}

/** Takes rule and calipers to a known banjo. */
function measure(banjo: Banjo, centre: number): MeasuredBanjo {
  const pivot = { x: 0, y: 0 }
  const far = banjo.slots.map((s, i) => stud(banjo, i, s.to, 0))
  const stops = banjo.swing.map((swing) => {
    const at = stud(banjo, 0, banjo.slots[0].to, swing)
    return {
      toStud: apart(at, { x: centre, y: 0 }),
      lies: at.y >= 0 ? ('anticlockwise' as const) : ('clockwise' as const),
    }
  })
  return {
    centreDistance: centre,
    stops: stops as MeasuredBanjo['stops'],
    slots: banjo.slots.map((s, i) => ({
      near: apart(pivot, stud(banjo, i, s.from, 0)),
      far: apart(pivot, far[i]),
      length: s.to - s.from,
      passes: (s.offset ?? 0) >= 0 ? ('left' as const) : ('right' as const),
      ...(i > 0 && {
        fromFirst: apart(far[0], far[i]),
        lies: far[0].x * far[i].y - far[0].y * far[i].x >= 0 ? ('anticlockwise' as const) : ('clockwise' as const),
      }),
    })),
  }
}

const banjos = fc
  .record({
    start: fc.integer({ min: -40, max: 40 }),
    wide: fc.integer({ min: 1, max: 60 }),
    slots: fc.array(
      fc.record({
        angle: fc.integer({ min: -50, max: 50 }),
        offset: fc.integer({ min: -12, max: 12 }),
        from: fc.integer({ min: 15, max: 50 }),
        length: fc.integer({ min: 10, max: 80 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  })
  .map(
    ({ start, wide, slots }): Banjo => ({
      swing: [start, start + wide],
      slots: slots.map(({ length, ...s }, i) => ({ ...s, angle: i === 0 ? 0 : s.angle, to: s.from + length })),
    }),
  )

describe('measureBanjo', () => {
  it('finds the banjo that was measured', () => {
    fc.assert(
      fc.property(banjos, fc.integer({ min: 60, max: 160 }), (banjo, centre) => {
        const found = measureBanjo(measure(banjo, centre)).banjo
        expect(found.swing[0]).toBeCloseTo(banjo.swing[0], 4)
        expect(found.swing[1]).toBeCloseTo(banjo.swing[1], 4)
        banjo.slots.forEach((slot, i) => {
          expect(found.slots[i].from).toBeCloseTo(slot.from, 5)
          expect(found.slots[i].to).toBeCloseTo(slot.to, 5)
          expect(found.slots[i].offset).toBeCloseTo(slot.offset ?? 0, 4)
          expect(found.slots[i].angle ?? 0).toBeCloseTo(slot.angle ?? 0, 4)
        })
      }),
    )
  })

  it('takes half the largest collar and some air for the shaft clearance', () => {
    const measured = measure({ swing: [0, 30], slots: [{ from: 30, to: 90 }] }, 120)
    expect(measureBanjo({ ...measured, collars: [14, 19], air: 1 }).shaftClearance).toBe(10.5)
    expect(measureBanjo(measured)).not.toHaveProperty('shaftClearance')
  })

  it('names every measure that cannot be', () => {
    const measured = measure(
      {
        swing: [0, 30],
        slots: [
          { from: 30, to: 90 },
          { angle: 30, from: 30, to: 90 },
        ],
      },
      120,
    )
    measured.slots[0].near = 95
    measured.stops[1].toStud = 500
    measured.slots[1] = { ...measured.slots[1], length: 10 }
    expect(() => measureBanjo(measured)).toThrow(/slots\[0\]\.near/)
    try {
      measureBanjo(measured)
    } catch (error) {
      const { problems } = error as { problems: { path: string }[] }
      expect(problems.map((p) => p.path)).toEqual(['slots[0].near', 'slots[1].length', 'stops[1].toStud'])
    }
  })
})
