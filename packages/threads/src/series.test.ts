import { InputError, parsePitch, toNumber } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { disagreement } from '../../../test-data/printed.js'
import { rows } from '../../../test-data/rows.js'
import { threadDimensions } from './dimensions.js'
import { findThread } from './find.js'
import { series, seriesNames } from './series.js'

const mm = (pitch: string): number => toNumber(parsePitch(pitch).mm)

describe('BA', () => {
  // Machinery's Handbook, 31st ed., p. 2115 (BS 93:1951); from 17 BA Kaye and Laby (1941), p. 25.
  it('agrees with the table to the printed digit', () => {
    const wrong = rows('threads/ba.csv').map(({ number, what, value, note }) => {
      const { pitch, major, effective, minor } = series('BA')[Number(number)]
      const p = mm(pitch)
      const shortening = threadDimensions({ form: 'ba', pitch, major: 50 }).sharpHeight / 2 - 0.3 * p
      const radius = shortening / (1 / Math.sin((23.75 * Math.PI) / 180) - 1)
      const values = { pitch: p, major, effective, minor, depth: major - effective, radius, tpi: 25.4 / p }
      return disagreement(values[what as keyof typeof values], value, note)
    })
    expect(wrong.length).toBeGreaterThan(110)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  it('has the numbers 0 to 25, each smaller than the one before', () => {
    const all = series('ba')
    expect(all.map(({ name }) => name)).toEqual(Array.from({ length: 26 }, (_, n) => `${n} BA`))
    for (let n = 1; n < all.length; n++) {
      expect(all[n].major).toBeLessThan(all[n - 1].major)
      expect(mm(all[n].pitch)).toBeLessThan(mm(all[n - 1].pitch))
    }
  })
})

describe('Loewenherz', () => {
  // Table of Machinery's Handbook: diameter, pitch, threads per inch about.
  it('has every row of the table, with its pitch', () => {
    const wrong = rows('threads/loewenherz.csv').map(({ major, pitch, tpi, note }) => {
      const thread = series('Loewenherz').find((t) => t.major === Number(major))
      if (!thread || mm(thread.pitch) !== Number(pitch)) return `${major} x ${pitch}`
      return disagreement(25.4 / mm(thread.pitch), tpi, note)
    })
    expect(wrong.length).toBeGreaterThan(20)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  it('cuts away an eighth of the height at crest and root', () => {
    expect(findThread('Loewenherz 9')).toMatchObject({ effective: 8.025, minor: 7.05 })
    expect(findThread('Loewenherz 20')).toMatchObject({ effective: 18.2, minor: 16.4 })
  })
})

describe('inch sizes', () => {
  // Whitworth: Low 1890 and BS 84:1956; pitches of the fine series in Black, Workshop Processes, 5th ed., p. 316.
  it('has the pitches of the Whitworth tables', () => {
    const asked = rows('threads/whitworth.csv').filter(({ size }) => !/^(17|19|21|11|23)\/(4|2)$/.test(size))
    expect(asked.length).toBeGreaterThan(50)
    for (const { series: name, size, tpi } of asked) {
      const [n, d] = size.split('/').map(Number)
      const whole = Math.floor(n / (d ?? 1))
      const nominal = d === undefined ? size : whole > 0 ? `${whole} ${n % d}/${d}` : size
      const [top, below] = tpi.split('/').map(Number)
      const thread = findThread(`${nominal} ${name}`)
      expect(thread?.pitch, `${nominal} ${name}`).toBe(`${top / (below ?? 1)} tpi`)
      expect(thread?.major).toBeCloseTo((n / (d ?? 1)) * 25.4, 8)
    }
  })

  it('counts numbered unified sizes from 0.060 in by 0.013 in', () => {
    // ASME B1.1: 0 is .0600, 4 .1120, 10 .1900, 12 .2160 in.
    const inches = (name: string) => (findThread(name)?.major ?? 0) / 25.4
    expect(inches('0-80 UNF')).toBeCloseTo(0.06, 9)
    expect(inches('4-40 UNC')).toBeCloseTo(0.112, 9)
    expect(inches('10-32 UNF')).toBeCloseTo(0.19, 9)
    expect(inches('12-32 UNEF')).toBeCloseTo(0.216, 9)
  })

  // Bolt Science's pages: Model Engineer threads of Whitworth form with 32 or 40 threads per inch.
  it('has Model Engineer threads of Whitworth form', () => {
    expect(new Set(series('ME').map(({ pitch }) => pitch))).toEqual(new Set(['32 tpi', '40 tpi']))
    for (const { form } of series('ME')) expect(form).toBe('whitworth')
  })
})

describe('all series', () => {
  it('names those that are kept, and lists each', () => {
    expect(seriesNames()).toEqual(
      expect.arrayContaining([
        'M',
        'M fine',
        'UNC',
        'UNF',
        'UNEF',
        'BSW',
        'BSF',
        'BA',
        'ME',
        'Loewenherz',
        'Tr',
        'Acme',
      ]),
    )
    for (const name of seriesNames()) expect(series(name).length).toBeGreaterThan(10)
    expect(series(' m FINE ')).toEqual(series('M fine'))
  })

  it('lists sizes from small to large, under names of their own', () => {
    const seen = new Set<string>()
    for (const name of seriesNames())
      for (const [i, thread] of series(name).entries()) {
        expect(thread.series).toBe(name)
        expect(seen.has(thread.name), thread.name).toBe(false)
        seen.add(thread.name)
        if (i > 0 && name !== 'BA') expect(thread.major).toBeGreaterThanOrEqual(series(name)[i - 1].major)
      }
  })

  it('holds dimensions that agree with the form', () => {
    for (const name of seriesNames())
      for (const { form, pitch, major, effective, minor } of series(name)) {
        const thread = threadDimensions({ form, pitch, major })
        // BA is printed to 0.005 mm.
        const within = name === 'BA' ? 0.0051 : 1e-9
        expect(Math.abs(thread.effective - effective)).toBeLessThanOrEqual(within)
        expect(Math.abs(thread.minor - minor)).toBeLessThanOrEqual(2 * within)
      }
  })

  it('refuses a series that is not kept and names the rest', () => {
    expect(() => series('Thury')).toThrow(InputError)
    expect(() => series('Thury')).toThrow(/take one of M, M fine, UNC/)
    expect(() => series(undefined as never)).toThrow(InputError)
  })
})
