import { InputError } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { baLimits } from './ba-limits.js'
import { series } from './series.js'

// Formulas: Machinery's Handbook, 31st ed., p. 2115; cross-checked with BS 93:2008. 2 BA: p 0.81, 4.70, 4.215, 3.73 mm.
describe('limits of BA threads', () => {
  it('keeps to the close class', () => {
    expect(baLimits({ number: 2, class: 'close' })).toEqual({
      major: [4.5785, 4.7],
      effective: [4.1302, 4.215],
      minor: [3.5604, 3.73],
    })
  })

  it('keeps to the normal class under its allowance, which ends at 10 BA', () => {
    expect(baLimits({ number: 2 })).toEqual({
      major: [4.513, 4.675],
      effective: [4.084, 4.19],
      minor: [3.493, 3.705],
    })
    // 12 BA: p 0.28, 1.30, 1.130, 0.96 mm.
    expect(baLimits({ number: 12, class: 'normal' })).toEqual({
      major: [1.23, 1.3],
      effective: [1.077, 1.13],
      minor: [0.854, 0.96],
    })
  })

  it('keeps to the one class of nuts', () => {
    expect(baLimits({ number: 2, nut: true })).toEqual({
      major: [4.7, 4.8272],
      effective: [4.215, 4.3422],
      minor: [3.73, 4.03375],
    })
    expect(baLimits({ number: 2, nut: true, class: 'close' })).toEqual(baLimits({ number: 2, nut: true }))
  })

  it('lets every screw into its nut', () => {
    for (let number = 0; number <= 16; number++) {
      const nut = baLimits({ number, nut: true })
      for (const quality of number > 10 ? (['normal'] as const) : (['normal', 'close'] as const)) {
        const screw = baLimits({ number, class: quality })
        for (const which of ['major', 'effective', 'minor'] as const) {
          expect(screw[which][0]).toBeLessThan(screw[which][1])
          expect(screw[which][1]).toBeLessThanOrEqual(nut[which][0])
          expect(screw[which][1]).toBeCloseTo(
            series('BA')[number][which] - (quality === 'close' || number > 10 ? 0 : 0.025),
            9,
          )
        }
      }
    }
  })

  it('refuses numbers and classes that were not published', () => {
    expect(() => baLimits({ number: 17 })).toThrow(InputError)
    expect(() => baLimits({ number: 1.5 })).toThrow(/whole number from 0 to 16/)
    expect(() => baLimits({ number: 11, class: 'close' })).toThrow(/one of normal/)
    expect(() => baLimits({ number: 4, class: 'free' as never })).toThrow(/one of normal, close/)
  })
})
