import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { threadDimensions } from './dimensions.js'
import { isoLimits, type Limits } from './iso-limits.js'
import { series } from './series.js'
import { told } from './testing/told.js'

describe('published limits', () => {
  // ASME B1.13M external limits of classes 6g, 6h and 4g6g; ISO 965-2 limits of class 6H.
  it('agrees to the printed micrometre', () => {
    const columns = [
      ['majorLeast', 'major', 0],
      ['majorGreatest', 'major', 1],
      ['effectiveLeast', 'effective', 0],
      ['effectiveGreatest', 'effective', 1],
      ['minorLeast', 'minor', 0],
      ['minorGreatest', 'minor', 1],
    ] as const
    let cells = 0
    const wrong: string[] = []
    for (const row of rows('threads/iso-limits.csv')) {
      const limits = isoLimits({ diameter: Number(row.diameter), pitch: row.pitch, class: row.class })
      for (const [column, which, end] of columns) {
        if (row[column] === '') continue
        cells++
        // The standard rounds the basic diameters before it subtracts: half a micrometre more may part the two.
        if (Math.abs(limits[which][end] - Number(row[column])) > 0.00101)
          wrong.push(
            `M${row.diameter}x${row.pitch} ${row.class} ${column} ${limits[which][end]} against ${row[column]}`,
          )
      }
    }
    expect(cells).toBeGreaterThan(240)
    expect(wrong).toEqual([])
  })

  // Machinery's Handbook, 27th ed., p. 1794: the formulas between the limits.
  it('keeps to the formulas of the profile', () => {
    const screw = isoLimits({ diameter: 6, pitch: '1 mm', class: '6g' })
    expect(screw.effective[0] - screw.minor[0]).toBeCloseTo(0.616025, 6)
    expect(screw.effective[1] - screw.minor[1]).toBeCloseTo(0.433013, 6)
    expect(screw.major).toEqual([5.794, 5.974])
    const nut = isoLimits({ diameter: 6, pitch: 1, class: '6G' })
    expect(nut.major[0]).toBe(6.026)
    // G lies 26 micrometres over H, both ends of it.
    const basic = isoLimits({ diameter: 6, pitch: 1, class: '6H' })
    for (const end of [0, 1]) expect(nut.effective[end] - basic.effective[end]).toBeCloseTo(0.026, 9)
    expect(nut.major[1] - nut.effective[1]).toBeCloseTo(0.793857, 6)
    expect(nut.major[0] - nut.minor[0]).toBeCloseTo(1.082532, 6)
  })

  it('takes deviations and both grades from the class', () => {
    const of = (name: string) => isoLimits({ diameter: 10, pitch: '1.5', class: name })
    expect(of('6h').major).toEqual([9.764, 10])
    // g 32, f 45, e 67 below nominal; Td(6) 236, Td(4) 150; Td2(6) 132, Td2(4) 85.
    expect(of('6f').major[1]).toBe(9.955)
    expect(of('6e').major[1]).toBe(9.933)
    expect(of('4h').major).toEqual([9.85, 10])
    expect(of('4g6g').major).toEqual(of('6g').major)
    expect(of('4g6g').effective[1] - of('4g6g').effective[0]).toBeCloseTo(0.085, 9)
    expect(of('4H5H').minor[1] - of('4H5H').minor[0]).toBeCloseTo(0.236, 9)
    expect(of('4H5H').effective[1] - of('4H5H').effective[0]).toBeCloseTo(0.112, 9)
    expect(of(' 6 g ')).toEqual(of('6g'))
    expect(of('6g6g')).toEqual(of('6g'))
  })
})

describe('laws', () => {
  const sizes = () => [...series('M'), ...series('M fine')]

  it('has tolerances for every published size', () => {
    const without = sizes().filter(
      (t) => told(() => isoLimits({ diameter: t.major, pitch: t.pitch, class: '4h' })).length,
    )
    expect(without.map(({ name }) => name)).toEqual([])
  })

  it('keeps least under greatest, nests grades, and never lets a screw exceed its nut', () => {
    fc.assert(
      fc.property(fc.constantFrom(...sizes()), ({ major, pitch }) => {
        const at = (name: string): Limits => isoLimits({ diameter: major, pitch, class: name })
        const screw = at('4h')
        const nut = at('4H')
        for (const which of ['major', 'effective', 'minor'] as const) {
          expect(screw[which][0]).toBeLessThan(screw[which][1])
          expect(nut[which][0]).toBeLessThan(nut[which][1])
          expect(screw[which][1]).toBeLessThanOrEqual(nut[which][0] + 1e-9)
          expect(at('4g')[which][1]).toBeLessThan(screw[which][1])
        }
        expect(at('6h').effective[0]).toBeLessThan(screw.effective[0])
        expect(at('6h').effective[1]).toBe(screw.effective[1])
      }),
    )
  })

  it('starts from the dimensions of the form', () => {
    fc.assert(
      fc.property(fc.constantFrom(...sizes()), ({ major, pitch }) => {
        const { effective, internal } = threadDimensions({ form: 'metric', pitch, major })
        const screw = isoLimits({ diameter: major, pitch, class: '4h' })
        const nut = isoLimits({ diameter: major, pitch, class: '4H' })
        expect(screw.effective[1]).toBeCloseTo(effective, 8)
        expect(nut.effective[0]).toBeCloseTo(effective, 8)
        expect(nut.minor[0]).toBeCloseTo(internal.minor, 8)
      }),
    )
  })
})

describe('refusals, with the nearest that would do', () => {
  const ask = (diameter: number, pitch: string | number, name: unknown) =>
    told(() => isoLimits({ diameter, pitch, class: name as string }))

  it.each([
    [3, 0.5, '8g', '7g6g'],
    [10, 1, '5h', '5h6h'],
    [10, 1.5, '5g', '5g6g'],
    [10, 1.5, '7f', '7f6f'],
    [10, 1.5, '7g', '7g6g'],
    [10, 1.5, '9g', '9g8g'],
    [10, 1.5, '2g', '3g4g'],
    [10, 1.5, '9H', '8H'],
    [10, 1.5, '3H', '4H'],
    [1.6, 0.35, '7H', '6H'],
    [2, 0.25, '6e', '6g'],
    [2, 0.25, '6H', '5H'],
  ])('M%d x %d has no class %s; %s it has', (diameter, pitch, name, nearest) => {
    const [problem] = ask(diameter, pitch, name)
    expect(problem).toMatchObject({ path: 'class', code: 'grade' })
    expect(problem.message).toContain(`the nearest is ${nearest}.`)
    expect(isoLimits({ diameter, pitch, class: nearest }).effective[0]).toBeGreaterThan(0)
  })

  it.each(['', 'g6', '6', 'g', '6k', '6gH', '6g6h', '6H6g', '66g', undefined, 6])('knows no class %s', (name) => {
    expect(ask(10, 1.5, name)).toMatchObject([{ path: 'class', code: 'class' }])
  })

  it('names the pitches that are published for a diameter', () => {
    const [problem] = ask(10, '26 tpi', '6g')
    expect(problem).toMatchObject({ path: 'pitch', code: 'step-pitch' })
    expect(problem.message).toBe('Published at this diameter: 0.75, 1, 1.25, 1.5 mm; the nearest is 1 mm.')
  })

  it('keeps to the range of the tables', () => {
    expect(ask(0.9, 0.2, '4h')).toMatchObject([{ path: 'diameter' }])
    expect(ask(356, 6, '6g')).toMatchObject([{ path: 'diameter' }])
    expect(isoLimits({ diameter: 355, pitch: 6, class: '6g' }).major[1]).toBe(354.92)
    expect(isoLimits({ diameter: 1, pitch: 0.2, class: '4h' }).major[1]).toBe(1)
  })
})
