import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { disagreement, fraction } from '../../../test-data/printed.js'
import { rows } from '../../../test-data/rows.js'
import { threadDimensions } from './dimensions.js'
import type { Form, FormName } from './forms.js'
import { told } from './testing/told.js'
import { effectiveFromWires, leadCorrection, nearestWire, overWires, wireSizes } from './wires.js'

const ofAngle: Record<string, Form> = {
  60: 'metric',
  55: 'whitworth',
  47.5: 'ba',
  29: 'acme',
  30: 'trapezoidal',
  53.1333333333: 'loewenherz',
  40: { angle: 40, crest: 0.25, root: 0.25 },
}

describe('published constants', () => {
  it.each(rows('threads/wire-constants.csv'))('$what at $angle degrees: $pitches p', (row) => {
    const form = ofAngle[row.angle]
    const { best, least, greatest } = wireSizes({ form, pitch: '1' })
    const q = { form, pitch: '1', effective: 20 }
    const grows = (overWires({ ...q, wire: greatest }) - overWires({ ...q, wire: least })) / (greatest - least)
    const values = { best, least, greatest, wire: grows, pitch: 20 + grows * best - overWires({ ...q, wire: best }) }
    expect(disagreement(values[row.what as keyof typeof values], row.pitches, row.note)).toBe('')
  })

  // From memory, as in British metrology books: Whitworth 0.506 to 0.853 p, BA 0.498 to 0.730 p.
  it('gives the usual wires for Whitworth and BA', () => {
    expect(wireSizes({ form: 'whitworth', pitch: '1' }).greatest).toBeCloseTo(0.853, 3)
    expect(wireSizes({ form: 'ba', pitch: '1' }).least).toBeCloseTo(0.498, 2)
    expect(wireSizes({ form: 'ba', pitch: '1' }).greatest).toBeCloseTo(0.731, 3)
  })

  // Machinery's Handbook, 31st ed., p. 2130; Jones (1914); the handout named in the table.
  it('gives the measurements over wires of the handbook', () => {
    const wrong = rows('threads/over-wires.csv').map(({ size, tpi, wire, form, inches, note }) => {
      const q = { form: form as FormName, pitch: `${tpi} tpi` }
      const { effective } = threadDimensions({ ...q, major: fraction(size) * 25.4 })
      return disagreement(overWires({ ...q, effective, wire: Number(wire) * 25.4 }) / 25.4, inches, note)
    })
    expect(wrong.length).toBeGreaterThan(85)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  // Machinery's Handbook, 31st ed., p. 2127: the factor of the correction that makes Acme threads need it.
  it('lifts the wire more in a narrow groove', () => {
    const factor = (form: Form) => {
      const { best } = wireSizes({ form, pitch: '1' })
      const q = { form, pitch: '1', effective: 20, wire: best }
      const slope = 1 / (Math.PI * 20)
      return leadCorrection(q).correction / ((best / 2) * slope ** 2)
    }
    expect(factor('metric')).toBeCloseTo(1.5, 3)
    expect(factor('whitworth')).toBeCloseTo(1.7039, 3)
    expect(factor('ba')).toBeCloseTo(2.0802, 3)
    expect(factor('trapezoidal')).toBeCloseTo(3.6049, 3)
    expect(factor('acme')).toBeCloseTo(3.7435, 3)
  })
})

const sloping: fc.Arbitrary<Form> = fc.oneof(
  fc.constantFrom<Form>('metric', 'unified', 'whitworth', 'ba', 'trapezoidal', 'acme', 'loewenherz', 'sharp-v'),
  fc.record({
    angle: fc.integer({ min: 20, max: 100 }),
    crest: fc.integer({ min: 0, max: 20 }).map((n) => n / 100),
    root: fc.integer({ min: 0, max: 20 }).map((n) => n / 100),
  }),
)
const question = fc.record({
  form: sloping,
  pitch: fc.integer({ min: 20, max: 400 }).map((n) => `${n / 100}`),
  turns: fc.integer({ min: 4, max: 30 }),
  along: fc.double({ min: 0, max: 1, noNaN: true }),
})

describe('laws', () => {
  it('finds the effective diameter again, with and without the correction', () => {
    fc.assert(
      fc.property(question, fc.boolean(), ({ form, pitch, turns, along }, leadCorrection) => {
        const { least, greatest } = wireSizes({ form, pitch })
        const q = { form, pitch, wire: least + along * (greatest - least), leadCorrection }
        const effective = turns * Number(pitch)
        const over = overWires({ ...q, effective })
        expect(effectiveFromWires({ ...q, over })).toBeCloseTo(effective, 8)
      }),
    )
  })

  it('finds one effective diameter whatever the wire, and two diameters differ as their measurements do', () => {
    fc.assert(
      fc.property(question, ({ form, pitch, turns, along }) => {
        const { least, best, greatest } = wireSizes({ form, pitch })
        const q = { form, pitch, effective: turns * Number(pitch) }
        const wire = least + along * (greatest - least)
        const back = (wire: number) => effectiveFromWires({ form, pitch, wire, over: overWires({ ...q, wire }) })
        expect(back(wire)).toBeCloseTo(back(best), 8)
        const bigger = overWires({ ...q, effective: q.effective + 0.01, wire })
        expect(bigger - overWires({ ...q, wire })).toBeCloseTo(0.01, 8)
      }),
    )
  })

  it('scales with the pitch', () => {
    fc.assert(
      fc.property(question, ({ form, pitch, turns }) => {
        // These have clearances that do not scale, or, at the pitches of BS 93, a depth that is rounded.
        if (form === 'trapezoidal' || form === 'acme' || form === 'ba') return
        const one = wireSizes({ form, pitch })
        const twice = wireSizes({ form, pitch: `${2 * Number(pitch)}` })
        for (const size of ['least', 'best', 'greatest'] as const) expect(twice[size]).toBeCloseTo(2 * one[size], 7)
        const effective = turns * Number(pitch)
        const over = overWires({ form, pitch, effective, wire: one.best, leadCorrection: true })
        const doubled = { form, pitch: `${2 * Number(pitch)}`, effective: 2 * effective, leadCorrection: true }
        expect(overWires({ ...doubled, wire: twice.best })).toBeCloseTo(2 * over, 7)
      }),
    )
  })

  it('keeps the best wire between the least and the greatest, and takes all three back as printed', () => {
    fc.assert(
      fc.property(question, ({ form, pitch, turns }) => {
        const sizes = wireSizes({ form, pitch })
        expect(sizes.least).toBeLessThanOrEqual(sizes.best)
        expect(sizes.best).toBeLessThanOrEqual(sizes.greatest)
        for (const wire of Object.values(sizes))
          expect(overWires({ form, pitch, wire, effective: turns * Number(pitch) })).toBeGreaterThan(0)
      }),
    )
  })

  it('gives the thinnest that stands clear where the best would sink below the crests', () => {
    const { best, least } = wireSizes({ form: { angle: 40, crest: 0.1, root: 0.1 }, pitch: '1' })
    expect(least).toBeGreaterThan(0.53209)
    expect(best).toBe(least)
  })

  it('takes sizes as tables print them: 0.57735 p on a sharp V, where the best is the least, and 0.505 p', () => {
    expect(overWires({ form: 'sharp-v', pitch: '2', effective: 20, wire: 2 * 0.57735 })).toBeGreaterThan(20)
    expect(overWires({ form: 'metric', pitch: '2', effective: 20, wire: 2 * 0.505 })).toBeGreaterThan(20)
    expect(told(() => overWires({ form: 'metric', pitch: '2', effective: 20, wire: 2 * 0.504 }))).toHaveLength(1)
  })

  it('touches at the effective diameter with the best wire: a wrong angle then hardly matters', () => {
    const off = (wire: number) => {
      const over = (angle: number) =>
        overWires({ form: { angle, crest: 0.125, root: 0.125 }, pitch: '1', effective: 9, wire })
      return Math.abs(over(61) - over(59))
    }
    const best = wireSizes({ form: 'metric', pitch: '1' }).best
    expect(off(best)).toBeLessThan(2e-4)
    expect(off(0.9)).toBeGreaterThan(10 * off(best))
  })

  it('counts starts into the lead alone', () => {
    const q = { form: 'acme', pitch: '2', effective: 60, wire: 1.03, leadCorrection: true } as const
    const once = overWires({ ...q, leadCorrection: false })
    const lift = (starts: number) => overWires({ ...q, starts }) - once
    expect(lift(2)).toBeCloseTo(4 * lift(1), 7)
    expect(overWires({ ...q, leadCorrection: false, starts: 2 })).toBe(once)
  })
})

describe('the correction by itself', () => {
  it('says whether it matters and whether it holds', () => {
    const fine = { form: 'metric', pitch: '1', effective: 9.35, wire: 0.577 } as const
    expect(leadCorrection(fine)).toMatchObject({ matters: false, valid: true })
    const worm = { form: 'acme', pitch: '1/8 in', starts: 2, effective: 25, wire: 1.64 } as const
    expect(leadCorrection(worm)).toMatchObject({ matters: true, valid: true })
    expect(leadCorrection({ ...worm, starts: 4 })).toMatchObject({ matters: true, valid: false })
    const { correction } = leadCorrection(worm)
    expect(overWires({ ...worm, leadCorrection: true }) - overWires(worm)).toBeCloseTo(correction, 8)
  })
})

describe('the nearest wire at hand', () => {
  const wires = [0.455, 0.62, 0.895, 1.35]
  it('takes the one nearest the best that touches the flanks', () => {
    expect(nearestWire({ form: 'metric', pitch: '1', wires })).toEqual({ wire: 0.62, away: 0.042649731 })
    expect(nearestWire({ form: 'ba', pitch: '0.66', wires })).toEqual({ wire: 0.455, away: 0.094466993 })
    expect(nearestWire({ form: 'metric', pitch: '2.5', wires })).toMatchObject({ wire: 1.35 })
    // The best is 0.577: the thicker is 0.023 off, the thinner 0.027.
    for (const both of [
      [0.55, 0.6],
      [0.6, 0.55],
    ])
      expect(nearestWire({ form: 'metric', pitch: '1', wires: both })).toMatchObject({ wire: 0.6 })
  })
  it('gives null when none touches', () => {
    expect(nearestWire({ form: 'ba', pitch: '0.3', wires })).toBeNull()
    expect(nearestWire({ form: 'ba', pitch: '0.3', wires: [] })).toBeNull()
  })
  it('takes the thinner of two that are as near to the micrometre', () => {
    const { best } = wireSizes({ form: 'metric', pitch: '1' })
    expect(nearestWire({ form: 'metric', pitch: '1', wires: [best + 0.05, best - 0.0501] })?.wire).toBe(best - 0.0501)
  })
  it('never gives one that overWires would refuse', () => {
    fc.assert(
      fc.property(
        question,
        fc.array(fc.integer({ min: 5, max: 300 }).map((n) => n / 100)),
        ({ form, pitch }, wires) => {
          const near = nearestWire({ form, pitch, wires })
          const serve = wires.filter((wire) => !told(() => overWires({ form, pitch, wire, effective: 500 })).length)
          expect(near === null).toBe(serve.length === 0)
          if (near) expect(serve).toContain(near.wire)
        },
      ),
    )
  })
  it('refuses what is no list of sizes', () => {
    const ask = (wires: unknown) => told(() => nearestWire({ form: 'metric', pitch: '1', wires: wires as number[] }))
    expect(ask(undefined)).toMatchObject([{ path: 'wires[0]' }])
    expect(ask([0.5, '0.6', -1]).map(({ path }) => path)).toEqual(['wires[1]', 'wires[2]'])
  })
})

describe('refusals', () => {
  const q = { form: 'whitworth', pitch: '26 tpi', effective: 5.7, wire: 0.55 } as const
  it('tells a thin wire from a thick one and names what would do', () => {
    const [thin] = told(() => overWires({ ...q, wire: 0.4 }))
    expect(thin).toMatchObject({ path: 'wire', code: 'wire-thin' })
    expect(thin.message).toContain('0.49401 mm to 0.83305 mm, best 0.55068 mm')
    expect(told(() => overWires({ ...q, wire: 0.9 }))).toMatchObject([{ path: 'wire', code: 'wire-thick' }])
    expect(told(() => effectiveFromWires({ ...q, over: 9, wire: 0.4 }))).toMatchObject([{ code: 'wire-thin' }])
  })
  it('refuses the correction past 5 degrees, both ways, and says from which diameter it holds', () => {
    const steep = { form: 'metric', pitch: '1', wire: 0.577, starts: 4, leadCorrection: true } as const
    const [problem] = told(() => overWires({ ...steep, effective: 9 }))
    expect(problem).toMatchObject({ path: 'leadCorrection', code: 'lead-angle' })
    expect(problem.message).toContain('14.553 mm')
    expect(overWires({ ...steep, effective: 14.554 })).toBeGreaterThan(14.554)
    expect(told(() => effectiveFromWires({ ...steep, over: 9.8 }))).toMatchObject([{ code: 'lead-angle' }])
    expect(overWires({ ...steep, effective: 9, leadCorrection: false })).toBeGreaterThan(9)
  })
  it('refuses square threads, crossing diameters and measurements that leave no core', () => {
    expect(told(() => wireSizes({ form: 'square', pitch: '1' }))).toMatchObject([{ code: 'no-flanks' }])
    expect(told(() => overWires({ ...q, effective: 0.6 }))).toMatchObject([{ path: 'effective', code: 'core' }])
    expect(told(() => leadCorrection({ ...q, effective: 0.6 }))).toMatchObject([{ code: 'core' }])
    expect(told(() => effectiveFromWires({ ...q, over: 1 }))).toMatchObject([{ path: 'over', code: 'number' }])
  })
  it('refuses a form whose flanks no wire touches', () => {
    const form = { angle: 140, crest: 0.49, root: 0.49 }
    expect(told(() => wireSizes({ form, pitch: '1' }))).toMatchObject([{ path: 'form', code: 'no-flanks' }])
  })
})
