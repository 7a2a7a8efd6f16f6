import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { disagreement, fraction } from '../../../test-data/printed.js'
import { rows } from '../../../test-data/rows.js'
import { Checks } from './checks.js'
import { threadDimensions } from './dimensions.js'
import { findThread } from './find.js'
import { type Form, type FormName, forms, profileOf } from './forms.js'
import { cot, radians } from './rounding.js'
import { series } from './series.js'
import { told } from './testing/told.js'

const names = Object.keys(forms) as FormName[]
const baPitches = new Set(series('BA').map(({ pitch }) => Number.parseFloat(pitch)))
const dimensionsOf = (name: string) => {
  const thread = findThread(name)
  if (!thread) throw new Error(`${name} is in no series`)
  return threadDimensions({ form: thread.form, pitch: thread.pitch, major: thread.major })
}

describe('published tables', () => {
  // Machinery's Handbook, 31st ed., p. 2087, Table 2.
  it('gives the Whitworth form at every printed pitch', () => {
    const wrong = rows('threads/whitworth-form.csv').map(({ tpi, what, inches, note }) => {
      const p = 25.4 / Number(tpi)
      const { sharpHeight, addendum, flankTop } = profileOf('whitworth', p, new Checks({}))
      const values = { sharpHeight, depth: 2 * addendum, rounding: addendum - flankTop }
      return disagreement(values[what as keyof typeof values] / 25.4, inches, note)
    })
    expect(wrong.length).toBeGreaterThan(80)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  // Low 1890; BS 84:1956; the source of each row stands in the table.
  it('gives Whitworth and fine Whitworth diameters', () => {
    const wrong = rows('threads/whitworth.csv').map(({ size, tpi, what, inches, note }) => {
      const thread = threadDimensions({ form: 'whitworth', pitch: `${tpi} tpi`, major: fraction(size) * 25.4 })
      return disagreement(thread[what as 'minor' | 'effective'] / 25.4, inches, note)
    })
    expect(wrong.length).toBeGreaterThan(50)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  // Machinery's Handbook, 31st ed., p. 2115 (BS 93:1951); from 17 BA Kaye and Laby (1941), p. 25.
  it('gives the figures of a numbered BA, from the nominal diameter and from the effective', () => {
    const wrong = rows('threads/ba.csv').flatMap(({ number, what, value, note }) => {
      if (!['depth', 'effective', 'minor'].includes(what)) return []
      const { pitch, major, effective } = series('BA')[Number(number)]
      return [{ major }, { effective }].map((one) => {
        const thread = threadDimensions({ form: 'ba', pitch, ...one })
        expect(thread.internal.minor).toBe(thread.minor)
        return disagreement(thread[what as 'depth' | 'effective' | 'minor'], value, note)
      })
    })
    expect(wrong.length).toBeGreaterThan(60)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  it('gives a BA of any other pitch its 0.6 p', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 4000 }), (thousandths) => {
        const p = thousandths / 1000
        const { depth } = threadDimensions({ form: 'ba', pitch: `${p}`, major: 50 })
        expect(depth).toBeCloseTo(0.6 * p, baPitches.has(p) ? 2 : 8)
      }),
    )
  })

  it.each([
    ['metric.csv', 'mm', 1, 40],
    ['unified.csv', 'inches', 25.4, 30],
    ['screws.csv', 'value', 1, 50],
  ])('gives the diameters of %s', (file, column, unit, count) => {
    const wrong = rows(`threads/${file}`).map((row) => {
      const { effective, minor, internal } = dimensionsOf(row.name)
      const values = { effective, minor, nutMinor: internal.minor, nutMajor: internal.major }
      const scale = row.unit === 'in' ? 25.4 : unit
      return disagreement(values[row.what as keyof typeof values] / scale, row[column], row.note)
    })
    expect(wrong.length).toBeGreaterThan(count)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  // Carvill, p. 301; ISO 228-1.
  it('gives the diameters of pipe threads', () => {
    const wrong = rows('threads/bsp.csv').map(({ name, what, mm, note }) => {
      const thread = findThread(name) ?? series('BSP').find(({ major }) => major === Number(name))
      return thread ? disagreement(thread[what as 'minor' | 'effective'], mm, note) : name
    })
    expect(wrong.length).toBeGreaterThan(15)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  // Constants of the basic profiles, p = 1. ISO 68-1: Machinery's Handbook, 27th ed., p. 1794; BS 93: Machinery's Handbook,
  // 31st ed., p. 2115; US Standard and sharp V: Jones, Turning and Boring (1914); Acme crest flat from memory.
  it('gives the constants of the forms', () => {
    const of = (form: Form) => threadDimensions({ form, pitch: '1', major: 20 })
    expect(20 - of('metric').effective).toBeCloseTo(0.649519, 6)
    expect(20 - of('metric').internal.minor).toBeCloseTo(1.082532, 6)
    expect(20 - of('metric').minor).toBeCloseTo(1.22687, 5)
    expect(of('unified')).toEqual(of('metric'))
    expect(of('sharp-v').depth).toBeCloseTo(0.866, 4)
    expect(of('whitworth').depth).toBeCloseTo(0.640327, 6)
    expect(of('ba').depth).toBe(0.6)
    expect(of('ba').sharpHeight).toBeCloseTo(1.13634, 5)
    expect(of('loewenherz').depth).toBe(0.75)
    expect(of('loewenherz').sharpHeight).toBeCloseTo(0.99993, 5)
    expect(of('square')).toMatchObject({ depth: 0.5, minor: 19, effective: 19.5, sharpHeight: 0, angle: 0 })
    expect(of('acme').internal.minor).toBe(19)
    const acme = profileOf('acme', 1, new Checks({}))
    expect(0.5 - 2 * acme.addendum * Math.tan(radians(14.5))).toBeCloseTo(0.3707, 4)
  })

  it('leaves the clearance of its pitch at the roots of trapezoidal and Acme threads', () => {
    const clearances = (form: FormName, pitches: string[]) =>
      pitches.map((pitch) => {
        const { minor, internal } = threadDimensions({ form, pitch, major: 300 })
        return Number(((internal.minor - minor) / 2).toFixed(6))
      })
    expect(clearances('trapezoidal', ['1', '1.5', '2', '5', '6', '12', '14', '44', '50'])).toEqual([
      0.15, 0.15, 0.25, 0.25, 0.5, 0.5, 1, 1, 1,
    ])
    // Jones (1914) gives p/2 + 0.010 in for the depth of the coarser ones.
    expect(clearances('acme', ['16 tpi', '12 tpi', '10 tpi', '4 tpi'])).toEqual([0.127, 0.127, 0.254, 0.254])
  })

  // Jones, Turning and Boring (1914): 1 in diameter, 1/4 in lead. From the triangle of circumference and lead.
  it('gives the lead angle at the effective diameter', () => {
    const one = threadDimensions({ form: 'square', pitch: '1/4 in', effective: 25.4 })
    expect(one.leadAngle).toBeCloseTo(4.55, 3)
    const four = threadDimensions({ form: 'square', pitch: '1/16 in', starts: 4, effective: 25.4 })
    expect(four.leadAngle).toBe(one.leadAngle)
    expect(four.lead).toBe(6.35)
  })
})

const pitch = fc.integer({ min: 20, max: 600 }).map((n) => n / 100)
const own = fc.record({
  angle: fc.integer({ min: 20, max: 120 }),
  crest: fc.integer({ min: 0, max: 40 }).map((n) => n / 100),
  root: fc.integer({ min: 0, max: 40 }).map((n) => n / 100),
})
const form: fc.Arbitrary<Form> = fc.oneof(fc.constantFrom(...names), own)

describe('laws', () => {
  it('comes to the same from the major diameter and from the effective diameter', () => {
    fc.assert(
      fc.property(form, pitch, fc.integer({ min: 1, max: 4 }), (form, p, starts) => {
        const one = threadDimensions({ form, pitch: `${p}`, starts, major: 40 })
        const other = threadDimensions({ form, pitch: `${p}`, starts, effective: one.effective })
        expect(other.major).toBeCloseTo(40, 8)
        expect(other.minor).toBeCloseTo(one.minor, 8)
        expect(other.internal.major).toBeCloseTo(one.internal.major, 8)
        expect(other.leadAngle).toBeCloseTo(one.leadAngle, 7)
      }),
    )
  })

  it('orders the diameters of screw and nut, and never lets a nut bite a screw', () => {
    fc.assert(
      fc.property(form, pitch, (form, p) => {
        const { major, effective, minor, internal, depth } = threadDimensions({ form, pitch: `${p}`, major: 60 })
        expect(major).toBeGreaterThan(effective)
        expect(effective).toBeGreaterThan(minor)
        expect(internal.major).toBeGreaterThanOrEqual(major)
        expect(internal.effective).toBe(effective)
        expect(internal.minor).toBeGreaterThanOrEqual(minor)
        expect(depth).toBeCloseTo((major - minor) / 2, 8)
      }),
    )
  })

  it('scales: twice the pitch and diameter is twice the thread, where nothing fixed is added or rounded', () => {
    const scaling = names.filter((name) => forms[name].clearance === undefined)
    fc.assert(
      fc.property(fc.oneof(fc.constantFrom(...scaling), own), pitch, (form, p) => {
        fc.pre(form !== 'ba' || !(baPitches.has(p) || baPitches.has(2 * p)))
        const small = threadDimensions({ form, pitch: `${p}`, major: 50 })
        const big = threadDimensions({ form, pitch: `${2 * p}`, major: 100 })
        for (const key of ['effective', 'minor', 'depth', 'sharpHeight'] as const)
          expect(big[key]).toBeCloseTo(2 * small[key], 7)
        expect(big.leadAngle).toBeCloseTo(small.leadAngle, 8)
      }),
    )
  })

  it('takes an own form that copies a standard one for that', () => {
    const sharp = threadDimensions({ form: { angle: 60, crest: 0, root: 0 }, pitch: '26 tpi', major: 6 })
    expect(sharp).toEqual(threadDimensions({ form: 'sharp-v', pitch: '26 tpi', major: 6 }))
    const copy = threadDimensions({ form: { angle: 55, crest: 1 / 6, root: 1 / 6 }, pitch: '26 tpi', major: 6 })
    expect(copy).toEqual(threadDimensions({ form: 'whitworth', pitch: '26 tpi', major: 6 }))
    // Truncations as fractions of the sharp height.
    const { sharpHeight, depth, major, effective } = threadDimensions({
      form: { angle: 50, crest: 0.1, root: 0.2 },
      pitch: '1',
      major: 10,
    })
    expect(sharpHeight).toBeCloseTo(cot(radians(25)) / 2, 9)
    expect(depth).toBeCloseTo(0.7 * sharpHeight, 8)
    expect(major - effective).toBeCloseTo(0.8 * sharpHeight, 8)
  })

  it('rounds to 1e-9 and holds plain finite numbers', () => {
    const thread = threadDimensions({ form: 'ba', pitch: '0.9', starts: 3, major: 5.3 })
    expect(JSON.parse(JSON.stringify(thread))).toEqual(thread)
    const { internal, ...rest } = thread
    for (const x of [...Object.values(rest), ...Object.values(internal)]) expect(Math.round(x * 1e9) / 1e9).toBe(x)
  })
})

describe('refusals', () => {
  it('wants exactly one diameter', () => {
    const q = { form: 'metric', pitch: '1' } as const
    expect(told(() => threadDimensions(q))).toMatchObject([{ path: '', code: 'one' }])
    expect(told(() => threadDimensions({ ...q, major: 6, effective: 5 }))).toMatchObject([
      { path: 'major', code: 'one' },
      { path: 'effective', code: 'one' },
    ])
  })

  it('tells when the diameters cross, and from where they would not', () => {
    const [problem] = told(() => threadDimensions({ form: 'metric', pitch: '2', major: 2 }))
    expect(problem).toMatchObject({ path: 'major', code: 'core' })
    expect(problem.message).toContain('2.4537 mm')
    expect(threadDimensions({ form: 'metric', pitch: '2', major: 2.454 }).minor).toBeGreaterThan(0)
    const [other] = told(() => threadDimensions({ form: 'square', pitch: '2', effective: 0.9 }))
    expect(other).toMatchObject({ path: 'effective', code: 'core' })
    expect(other.message).toContain('more than 1 mm')
  })

  it('names every problem of a question at once', () => {
    const bad = { form: 'round', pitch: '', starts: 1.5, major: -1 }
    const found = told(() => threadDimensions(bad as never))
    expect(found.map(({ path }) => path).sort()).toEqual(['form', 'major', 'pitch', 'starts'])
    expect(found.every(({ message }) => /^\S.*\.$/.test(message))).toBe(true)
  })

  it('refuses an own form without flanks or angle', () => {
    const ask = (form: unknown) => told(() => threadDimensions({ form: form as Form, pitch: '1', major: 9 }))
    expect(ask({ angle: 60, crest: 0.5, root: 0 })).toMatchObject([{ path: 'form.crest' }])
    expect(ask({ angle: 60, crest: 0, root: 0.7 })).toMatchObject([{ path: 'form.root' }])
    expect(ask({ angle: 0, crest: Number.NaN, root: '0' }).map(({ path }) => path)).toEqual([
      'form.angle',
      'form.crest',
      'form.root',
    ])
    expect(ask('toString')).toMatchObject([{ path: 'form', code: 'choice' }])
  })

  it.each([undefined, null, 7, 'M6', Number.NaN])('refuses %s for a question', (q) => {
    expect(told(() => threadDimensions(q as never))).toMatchObject([{ path: '', code: 'missing' }])
  })
})
