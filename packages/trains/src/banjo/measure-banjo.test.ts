import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { problemsOf } from '../../../../bench/plain/in-brief.js'
import type { Banjo } from '../contract.js'
import type { WorkshopError } from '../workshop-error.js'
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

  it('counts half a millimetre of air where none is told, and no collar as none', () => {
    const measured = measure({ swing: [0, 30], slots: [{ from: 30, to: 90 }] }, 120)
    expect(measureBanjo({ ...measured, collars: [14, 19, 12] }).shaftClearance).toBe(10)
    expect(measureBanjo({ ...measured, collars: [14], air: 0 }).shaftClearance).toBe(7)
    expect(measureBanjo({ ...measured, collars: [] })).not.toHaveProperty('shaftClearance')
    expect(measureBanjo(measured).banjo).not.toHaveProperty('pivot')
    for (const pivot of ['input', 'output'] as const) {
      expect(measureBanjo({ ...measured, pivot }).banjo.pivot).toBe(pivot)
    }
  })
})

// One slot from 30 to 90 mm that points at the pivot; stops where the stud at its end and the far shaft, 120 mm out, make
// right angles of 90, 120 and 150 mm, upwards and downwards.
const plain: MeasuredBanjo = {
  centreDistance: 120,
  slots: [{ near: 30, far: 90 }],
  stops: [{ toStud: 150 }, { toStud: 150, lies: 'clockwise' }],
}
const withSlot = (slot: Partial<MeasuredBanjo['slots'][number]>): MeasuredBanjo => ({
  ...plain,
  slots: [{ near: 30, far: 90, ...slot }],
})
const second = (slot: Partial<MeasuredBanjo['slots'][number]>): MeasuredBanjo => ({
  ...plain,
  slots: [...plain.slots, { near: 30, far: 90, ...slot }],
})

describe('a banjo by hand', () => {
  it('swings between its stops, the lower first', () => {
    expect(measureBanjo(plain)).toEqual({
      centreDistance: 120,
      banjo: { swing: [-90, 90], slots: [{ offset: 0, from: 30, to: 90 }] },
    })
  })

  it('has slots beside the pivot', () => {
    // 30^2 + 40^2 = 50^2 and 72^2 + 30^2 = 78^2: from 40 to 72 along, 30 aside.
    const aside = (passes: 'left' | 'right' | undefined) =>
      measureBanjo({ ...plain, slots: [{ near: 50, far: 78, length: 32, ...(passes && { passes }) }] }).banjo.slots
    expect(aside('left')).toEqual([{ offset: 30, from: 40, to: 72 }])
    expect(aside(undefined)).toEqual([{ offset: 30, from: 40, to: 72 }])
    expect(aside('right')).toEqual([{ offset: -30, from: 40, to: 72 }])
  })

  it('swings by the stud, which stands aside of the line of its slot', () => {
    // The stud at (72, 30) is seen atan(30/72) off its slot; over 104 mm, 78 and 130 make a right angle.
    const { swing } = measureBanjo({
      centreDistance: 104,
      slots: [{ near: 50, far: 78, length: 32 }],
      stops: [{ toStud: 130 }, { toStud: 130, lies: 'clockwise' }],
    }).banjo
    const off = (Math.atan2(30, 72) * 180) / Math.PI
    expect(swing).toEqual([expect.closeTo(-90 - off, 8), expect.closeTo(90 - off, 8)])
  })

  it('has further slots at angles to the first', () => {
    // 90 mm from the pivot both: 90 times the root of 2 apart at a right angle.
    const angle = (lies?: 'clockwise' | 'anticlockwise') =>
      measureBanjo(second({ fromFirst: 90 * Math.SQRT2, ...(lies && { lies }) })).banjo.slots[1].angle
    expect([angle(), angle('anticlockwise'), angle('clockwise')]).toEqual([90, 90, -90])
    // One that passes 30 mm aside, its end at (72, 30): seen square to slot 1 it is turned by 90 less its own bearing.
    const aside = second({ near: 50, far: 78, length: 32, fromFirst: Math.hypot(90, 78) })
    expect(measureBanjo(aside).banjo.slots[1].angle).toBeCloseTo(90 - (Math.atan2(30, 72) * 180) / Math.PI, 8)
  })

  it('has holes', () => {
    expect(measureBanjo(withSlot({ near: 90 })).banjo.slots).toEqual([{ offset: 0, from: 90, to: 90 }])
  })

  it('is taken where measures miss by two tenths of a millimetre, and no more', () => {
    const taken = (given: MeasuredBanjo) => {
      try {
        return measureBanjo(given).banjo
      } catch (error) {
        return (error as WorkshopError).problems.map(({ path, code }) => `${path} ${code}`)
      }
    }
    // 60 mm from end to end, at least.
    expect(taken(withSlot({ length: 59.81 }))).toMatchObject({ slots: [{ offset: expect.closeTo(0, 6) }] })
    expect(taken(withSlot({ length: 59.79 }))).toEqual(['slots[0].length slot-length'])
    // from = (90^2 - 30^2 - length^2) / (2 length): 0 at the root of 7200, -0.195 and -0.205 past it by as much.
    const root = Math.sqrt(7200)
    expect(taken(withSlot({ length: root + 0.195 }))).toMatchObject({
      slots: [{ from: 0, to: expect.closeTo(root + 0.195, 8) }],
    })
    expect(taken(withSlot({ length: root + 0.205 }))).toEqual(['slots[0].length slot-length'])
    expect(taken(withSlot({ length: 121 }))).toEqual(['slots[0].length slot-length'])
    expect(taken(withSlot({ near: 90.01 }))).toEqual(['slots[0].near near-far'])
    // 90 + 120 mm are 210, and 120 - 90 are 30: as near and far as the stud can come to the far shaft.
    const stop = (toStud: number) => taken({ ...plain, stops: [{ toStud }, { toStud: 150, lies: 'clockwise' }] })
    expect(stop(210.19)).toMatchObject({ swing: [-90, 180] })
    expect(stop(210.21)).toEqual(['stops[0].toStud no-triangle'])
    expect(stop(29.81)).toMatchObject({ swing: [-90, 0] })
    expect(stop(29.79)).toEqual(['stops[0].toStud no-triangle'])
    expect(taken(second({ fromFirst: 180.21 }))).toEqual(['slots[1].fromFirst no-triangle'])
    expect(taken(second({}))).toEqual(['slots[1].fromFirst from-first'])
  })

  it.each<[what: string, given: unknown, problem: string]>([
    ['nothing', undefined, ' object'],
    ['too far', { ...plain, centreDistance: 10_001 }, 'centreDistance positive'],
    ['no slot', { ...plain, slots: [] }, 'slots too-few'],
    ['13 slots', { ...plain, slots: Array(13).fill(plain.slots[0]) }, 'slots too-long'],
    ['a side that is none', { ...plain, slots: [{ near: 30, far: 90, passes: 'up' }] }, 'slots[0].passes one-of'],
    ['a pivot that is none', { ...plain, pivot: 'stud' }, 'pivot one-of'],
    [
      'a turn that is none',
      { ...plain, stops: [{ toStud: 150, lies: 'up' }, { toStud: 150 }] },
      'stops[0].lies one-of',
    ],
    ['one stop', { ...plain, stops: [{ toStud: 150 }] }, 'stops too-few'],
    ['21 collars', { ...plain, collars: Array(21).fill(10) }, 'collars too-long'],
    ['air of 51', { ...plain, air: 51 }, 'air range'],
  ])('is refused: %s', (_, given, problem) => {
    expect(problemsOf(() => measureBanjo(given as MeasuredBanjo))).toEqual([problem])
  })

  it('is taken at its bounds', () => {
    const most = { ...second({ fromFirst: 90 }), collars: Array(20).fill(10), air: 50 }
    most.slots = [most.slots[0], ...Array(11).fill(most.slots[1])]
    expect(measureBanjo(most)).toMatchObject({ shaftClearance: 55, banjo: { slots: { length: 12 } } })
    const far = {
      centreDistance: 10_000,
      slots: [{ near: 1, far: 10_000 }],
      stops: [{ toStud: 10_000 }, { toStud: 1 }],
    }
    expect(measureBanjo(far as MeasuredBanjo).banjo.swing).toEqual([expect.any(Number), 60])
  })
})
