import { InputError, parseLength, toNumber } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Form } from './forms.js'
import { leadErrorEffect, leadErrorVerdict, leadTolerance, leadToleranceOfClass } from './lead-error.js'

describe('what a lead error does', () => {
  // NPL, Notes on Screw Gauges, from memory: virtual effective diameter for each unit of pitch error.
  it.each<[Form, number]>([
    ['metric', 1.732],
    ['unified', 1.732],
    ['whitworth', 1.921],
    ['ba', 2.273],
    ['acme', 3.867],
  ])('acts on the effective diameter of %s threads %d times', (form, factor) => {
    const { axial, onEffective } = leadErrorEffect({ form, errorPpm: 1000, engagement: 10 })
    expect(axial).toBe(0.01)
    expect(onEffective / axial).toBeCloseTo(factor, 3)
  })

  it('acts the same for a lead too long and too short', () => {
    expect(leadErrorEffect({ form: 'ba', errorPpm: -500, engagement: 8 })).toEqual({
      axial: -0.004,
      onEffective: leadErrorEffect({ form: 'ba', errorPpm: 500, engagement: 8 }).onEffective,
    })
    expect(leadErrorEffect({ form: 'metric', errorPpm: 0, engagement: 8 })).toEqual({ axial: 0, onEffective: 0 })
  })

  it('may be many times the lead: a train can be so far off', () => {
    expect(leadErrorEffect({ form: 'metric', errorPpm: 5e6, engagement: 2 }).axial).toBe(10)
    expect(leadErrorVerdict({ form: 'metric', errorPpm: 5e6, engagement: 2, tolerance: 0.1 }).code).toBe('will-not-fit')
  })

  it('is judged by the share of the tolerance that it eats', () => {
    // M6 6g: Td2 0.112 mm.
    const at = (errorPpm: number) => leadErrorVerdict({ form: 'metric', errorPpm, engagement: 6, tolerance: 0.112 })
    expect(at(500)).toEqual({
      axial: 0.003,
      onEffective: 0.005196152,
      share: 0.046394214,
      code: 'negligible',
      message: 'The lead error eats 4.6 % of the tolerance of the effective diameter: nobody will find it.',
    })
    expect(at(-3000)).toMatchObject({ code: 'fits', share: 0.278365313 })
    expect(at(8000)).toMatchObject({ code: 'tight' })
    expect(at(12_000)).toMatchObject({ code: 'will-not-fit' })
    expect(at(12_000).message).toContain('110 %')
  })

  it('draws its lines at a tenth, a half and the whole', () => {
    const form = { angle: 90, crest: 0, root: 0 }
    const code = (share: number) =>
      leadErrorVerdict({ form, errorPpm: share * 1e4, engagement: 10, tolerance: 0.1 }).code
    expect([0.1, 0.11, 0.5, 0.51, 1, 1.01].map(code)).toEqual([
      'negligible',
      'fits',
      'fits',
      'tight',
      'tight',
      'will-not-fit',
    ])
  })
})

describe('the lead tolerance that a job stands', () => {
  const mm = (text: string): number => toNumber(parseLength(text).mm)

  it('is text that a wanted thread takes', () => {
    expect(leadTolerance({ form: 'metric', allowance: 0.02, engagement: 8 })).toEqual({
      error: '0.011547005 mm',
      over: '8 mm',
    })
    expect(leadTolerance({ form: 'ba', allowance: 0.00001, engagement: 120.5 })).toEqual({
      error: '0.0000044 mm',
      over: '120.5 mm',
    })
  })

  it('comes from a class and the length of the nut', () => {
    // M6 6g: half of 0.112 mm, by tan 30 degrees.
    expect(leadToleranceOfClass({ diameter: 6, pitch: '1 mm', class: '6g', engagement: 5 })).toEqual({
      error: '0.032331615 mm',
      over: '5 mm',
    })
    const all = leadToleranceOfClass({ diameter: 6, pitch: 1, class: '6g', engagement: 5, share: 1 })
    expect(mm(all.error)).toBeCloseTo(0.112 * Math.tan(Math.PI / 6), 8)
    expect(() => leadToleranceOfClass({ diameter: 6, pitch: 1, class: '5g', engagement: 5 })).toThrow(/nearest is 5g6g/)
  })

  it('is undone by the effect: an error at the limit eats the allowance', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Form>('metric', 'whitworth', 'ba', 'acme', { angle: 50, crest: 0.1, root: 0.2 }),
        fc.integer({ min: 5, max: 300 }),
        fc.integer({ min: 1, max: 100 }),
        (form, allowance, engagement) => {
          const { error, over } = leadTolerance({ form, allowance: allowance / 1000, engagement })
          const errorPpm = (mm(error) / mm(over)) * 1e6
          const { onEffective } = leadErrorEffect({ form, errorPpm, engagement })
          expect(onEffective).toBeCloseTo(allowance / 1000, 7)
        },
      ),
    )
  })
})

describe('refusals', () => {
  it('has nothing to say of square threads', () => {
    expect(() => leadErrorEffect({ form: 'square', errorPpm: 1, engagement: 1 })).toThrow(/no sloping flanks/)
    expect(() => leadTolerance({ form: 'square', allowance: 0.01, engagement: 1 })).toThrow(InputError)
  })
  it.each([
    () => leadErrorEffect({ form: 'metric', errorPpm: Number.NaN, engagement: 1 }),
    () => leadErrorEffect({ form: 'metric', errorPpm: 1, engagement: 0 }),
    () => leadErrorVerdict({ form: 'metric', errorPpm: 1, engagement: 1, tolerance: 0 }),
    () => leadTolerance({ form: 'metric', allowance: 0, engagement: 1 }),
    () => leadToleranceOfClass({ diameter: 6, pitch: 1, class: '6g', engagement: 5, share: 1.1 }),
  ])('refuses figures that mean nothing', (ask) => {
    expect(ask).toThrow(InputError)
  })
})
