import { checkWorkshop, type MeasuredBanjo, measureBanjo } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type RoughMeasures, standInBanjo, standInMeasures } from './stand-ins.js'

const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined })

/** Measures of a banjo that can be, any of them left out. */
const rough = fc
  .record({
    centreDistance: maybe(fc.integer({ min: 60, max: 200 })),
    slots: fc.array(
      fc.record({ near: maybe(fc.integer({ min: 10, max: 60 })), far: maybe(fc.integer({ min: 60, max: 150 })) }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(
    ({ centreDistance, slots }): RoughMeasures => ({
      ...(centreDistance && { centreDistance }),
      slots: slots.map(({ near, far }) => ({ ...(near && { near }), ...(far && { far }) })),
      stops: [{}, {}],
    }),
  )

describe('stand-ins', () => {
  it('fill measures up to a banjo that can be, and change none', () => {
    fc.assert(
      fc.property(rough, (measures) => {
        const full: MeasuredBanjo = standInMeasures(measures)
        expect(full).toMatchObject(measures)
        const { banjo } = measureBanjo(full)
        expect(banjo.swing[1] - banjo.swing[0]).toBeGreaterThan(30)
        for (const slot of banjo.slots) expect(slot.to).toBeGreaterThanOrEqual(slot.from)
      }),
    )
  })

  it('fill the terms of a drawing up to a banjo that the search takes', () => {
    const gears = [{ teeth: 60, count: 2 }]
    for (const slots of [[{}], [{ from: 30 }, { to: 70, angle: 10 }], [{ from: 80, to: 20 }, { angle: Number.NaN }]]) {
      for (const swing of [
        [undefined, undefined],
        [80, undefined],
        [undefined, -20],
        [Number.NaN, 3],
      ] as const) {
        const { banjo, centreDistance } = standInBanjo({ slots, swing })
        const lathe = { leadscrew: { pitch: '3 mm' }, centreDistance, banjo }
        expect(checkWorkshop({ lathe, gears })).toMatchObject({ ok: true })
      }
    }
  })
})
