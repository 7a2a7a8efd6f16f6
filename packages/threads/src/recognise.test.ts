import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { baLimits } from './ba-limits.js'
import { forms } from './forms.js'
import { isoLimits } from './iso-limits.js'
import { recogniseThread, recognitionVerdict } from './recognise.js'
import { series, seriesNames } from './series.js'

const all = () => seriesNames().flatMap(series)
const names = (found: { name: string }[]): string[] => found.map(({ name }) => name)

describe('recognition', () => {
  it('knows a worn screw by calipers, pitch gauge and a look at the angle', () => {
    const found = recogniseThread({
      major: { value: 3.54, doubt: 0.02 },
      pitch: { value: '0.66 mm', doubt: 0.02 },
      angle: { value: 48, doubt: 3 },
    })
    expect(names(found)).toEqual(['4 BA'])
    expect(found[0]).toMatchObject({ thread: { form: 'ba' }, deviation: { major: -0.06, pitch: 0, angle: 0.5 } })
    expect(found[0].deviation.effective).toBeUndefined()
  })

  it('tells Whitworth from unified by the angle, and names both when it was not measured', () => {
    const q = { major: { value: 6.3, doubt: 0.03 }, pitch: { value: '20 tpi', doubt: 0.01 } }
    expect(names(recogniseThread(q)).sort()).toEqual(['1/4 BSW', '1/4-20 UNC'])
    expect(names(recogniseThread({ ...q, angle: { value: 55, doubt: 2 } }))).toEqual(['1/4 BSW'])
    expect(names(recogniseThread({ ...q, angle: { value: 61, doubt: 2 } }))).toEqual(['1/4-20 UNC'])
  })

  it('counts a deviation in its own doubt, squared', () => {
    const of = (value: string) => recogniseThread({ pitch: { value, doubt: 0.02 } }).find(({ name }) => name === 'M6')!
    expect(of('1 mm').misfit).toBeCloseTo(0, 9)
    expect(of('1.01 mm').misfit).toBeCloseTo(1 / 4, 3)
    expect(of('0.98 mm').misfit).toBeCloseTo(1, 3)
  })

  it('names no more than five in its sentence', () => {
    const found = recogniseThread({ pitch: { value: '1 mm', doubt: 0.05 } })
    expect(found.length).toBeGreaterThan(5)
    const said = recognitionVerdict(found)
    expect(said).toBe(recognitionVerdict(found.slice(0, 5)))
    expect(said).not.toBe(recognitionVerdict(found.slice(0, 4)))
  })

  it('ranks by deviation', () => {
    const found = recogniseThread({ major: { value: 2.98, doubt: 0.05 }, pitch: { value: '0.5', doubt: 0.06 } })
    expect(names(found)[0]).toBe('M3')
    expect(names(found)).toContain('Loewenherz 3')
    for (let i = 1; i < found.length; i++) expect(found[i].misfit).toBeGreaterThanOrEqual(found[i - 1].misfit)
  })

  it('takes a screw that measures under nominal, not one that measures over', () => {
    const at = (value: number) =>
      names(recogniseThread({ major: { value, doubt: 0.02 }, pitch: { value: '1', doubt: 0 } }))
    // 6g allows 5.794 to 5.974 (ISO 965-1).
    expect(at(5.794)).toContain('M6')
    expect(at(5.974)).toContain('M6')
    expect(at(6.02)).toContain('M6')
    expect(at(6.03)).not.toContain('M6')
    expect(at(5.6)).not.toContain('M6')
  })

  // Limits of ISO 965-1 6g and of BS 93 normal; those functions are checked against the published tables.
  it('knows every metric and BA screw that is made within its limits, the smallest too', () => {
    const metric = ['M', 'M fine'].flatMap(series).map((thread) => {
      const { major: diameter, pitch } = thread
      return { thread, limits: isoLimits({ diameter, pitch, class: '6g' }) }
    })
    const ba = series('BA')
      .slice(0, 17)
      .map((thread, number) => ({ thread, limits: baLimits({ number, class: 'normal' }) }))
    const missed = [...metric, ...ba].flatMap(({ thread: { name, pitch: value }, limits }) =>
      (['major', 'effective'] as const).flatMap((what) =>
        [0, 1]
          .filter((end) => {
            const found = recogniseThread({
              [what]: { value: limits[what][end], doubt: 0 },
              pitch: { value, doubt: 0 },
            })
            return !names(found).includes(name)
          })
          .map((end) => `${name} ${what} ${limits[what][end]}`),
      ),
    )
    expect(metric.length).toBeGreaterThan(150)
    expect(missed).toEqual([])
  })

  it('knows a small screw by its diameter and pitch, and not by another series alone', () => {
    // M2 6g, least major 1.886 (ISO 965-1); 8 BA normal, least effective 1.847 (BS 93).
    const m2 = recogniseThread({ major: { value: 1.886, doubt: 0.01 }, pitch: { value: '0.4', doubt: 0.02 } })
    expect(names(m2)).toContain('M2')
    const ba = recogniseThread({ effective: { value: 1.847, doubt: 0.005 }, pitch: { value: '0.43', doubt: 0.005 } })
    expect(names(ba)).toEqual(['8 BA'])
  })

  it('knows a thread by its effective diameter alone', () => {
    const found = recogniseThread({ effective: { value: 5.35, doubt: 0.01 }, pitch: { value: '1 mm', doubt: 0.01 } })
    expect(names(found)).toContain('M6')
  })

  it('says to treat it as one’s own when nothing fits', () => {
    const found = recogniseThread({ major: { value: 7.3, doubt: 0.02 }, pitch: { value: '0.77', doubt: 0.01 } })
    expect(found).toEqual([])
    expect(recognitionVerdict(found)).toContain('treat it as your own')
    expect(
      recognitionVerdict(recogniseThread({ major: { value: 6, doubt: 0 }, pitch: { value: '1', doubt: 0 } })),
    ).toMatch(/^This may be M6, or /)
  })

  it('finds every published thread first, or level with its equals, from its own dimensions', () => {
    for (const thread of all()) {
      const [first] = recogniseThread({
        major: { value: thread.major, doubt: 0.01 },
        effective: { value: thread.effective, doubt: 0.01 },
        pitch: { value: thread.pitch, doubt: 0.01 },
        angle: { value: forms[thread.form].angle, doubt: 1 },
      })
      expect(first.misfit).toBe(0)
      expect(first.thread.major).toBeCloseTo(thread.major, 6)
      expect(first.thread.form === thread.form || forms[first.thread.form].angle === forms[thread.form].angle).toBe(
        true,
      )
    }
  })

  it('finds no fewer with more doubt, and no more with one more measurement', () => {
    const sample = fc.constantFrom(...all())
    fc.assert(
      fc.property(
        sample,
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 30 }),
        ({ major, pitch }, a, b) => {
          const with_ = (doubt: number) =>
            names(recogniseThread({ major: { value: major - 0.02, doubt: doubt / 100 } }))
          const few = with_(Math.min(a, b))
          const many = new Set(with_(Math.max(a, b)))
          for (const name of few) expect(many.has(name)).toBe(true)
          const both = recogniseThread({
            major: { value: major - 0.02, doubt: 0.3 },
            pitch: { value: pitch, doubt: 0.02 },
          })
          const one = new Set(with_(30))
          for (const { name } of both) expect(one.has(name)).toBe(true)
        },
      ),
    )
  })
})

describe('refusals', () => {
  const problems = (q: unknown) => {
    try {
      recogniseThread(q as never)
    } catch (error) {
      return error instanceof InputError ? error.problems : [error]
    }
    return []
  }
  it('wants something measured, and every value and doubt a number', () => {
    expect(problems({})).toMatchObject([{ code: 'measurement' }])
    expect(problems({ major: 6, pitch: { value: '1', doubt: Number.NaN }, angle: null })).toMatchObject([
      { path: 'major.value' },
      { path: 'major.doubt' },
      { path: 'pitch.doubt' },
      { path: 'angle.value' },
      { path: 'angle.doubt' },
    ])
    expect(problems({ effective: { value: 5, doubt: -1 } })).toMatchObject([{ path: 'effective.doubt' }])
  })
})
