import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { threadDimensions } from './dimensions.js'
import type { FormName } from './forms.js'
import { homeMadeTap, tappingDrill } from './mating.js'

describe('the tapping drill', () => {
  // Metric drill tables: nominal diameter less the pitch.
  it.each([
    [2, 0.4, 1.6],
    [3, 0.5, 2.5],
    [4, 0.7, 3.3],
    [5, 0.8, 4.2],
    [6, 1, 5],
    [8, 1.25, 6.75],
    [10, 1.5, 8.5],
    [12, 1.75, 10.25],
    [24, 3, 21],
  ])('for M%d x %d is %d mm', (major, pitch, hole) => {
    const found = tappingDrill({ form: 'metric', pitch: `${pitch}`, major })
    expect(found.hole).toBeCloseTo(hole, 9)
    // 92.4 % of 1.0825 p, as drill tables reckon it.
    expect(found.engagement).toBeCloseTo(0.924, 3)
  })

  // BS 1157:1975 recommends drills that leave 77 to 87 % of a full Whitworth thread; 3.70 mm for 3/16 in leaves 78.4 %.
  it('keeps Whitworth nuts in the published band', () => {
    const q = { form: 'whitworth', pitch: '24 tpi', major: 4.7625 } as const
    expect(tappingDrill({ ...q, hole: 3.7 }).engagement).toBeCloseTo(0.784, 3)
    for (const pitch of ['40 tpi', '20 tpi', '8 tpi']) {
      const { engagement } = tappingDrill({ form: 'whitworth', pitch, major: 30 })
      expect(engagement).toBeGreaterThan(0.77)
      expect(engagement).toBeLessThan(0.87)
    }
  })

  it('is at least the minor diameter of the nut, for any form', () => {
    const names: FormName[] = ['metric', 'whitworth', 'ba', 'trapezoidal', 'acme', 'square', 'sharp-v', 'loewenherz']
    for (const form of names) {
      const { internal } = threadDimensions({ form, pitch: '2', major: 20 })
      const { hole, engagement } = tappingDrill({ form, pitch: '2', major: 20 })
      expect(hole).toBeGreaterThanOrEqual(internal.minor - 1e-9)
      expect(engagement).toBeLessThanOrEqual(1)
    }
  })

  it('goes from engagement to hole and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 100 }), (percent) => {
        const q = { form: 'ba', pitch: '0.81', major: 4.7 } as const
        const { hole } = tappingDrill({ ...q, engagement: percent / 100 })
        expect(tappingDrill({ ...q, hole }).engagement).toBeCloseTo(percent / 100, 8)
      }),
    )
  })

  it.each([{ engagement: 0.2 }, { engagement: 1.1 }, { hole: 4.9 }, { hole: 6.1 }, { major: 0.5 }, { pitch: 'x' }])(
    'refuses %o',
    (part) => {
      expect(() => tappingDrill({ form: 'metric', pitch: '1', major: 6, ...part })).toThrow(InputError)
    },
  )
})

describe('a home-made tap', () => {
  const q = { form: 'ba', pitch: '0.66 mm', major: 3.6 } as const
  const nut = () => threadDimensions(q).internal
  const tap = () => homeMadeTap(q)

  it('cuts a little above nominal, inside the nut’s tolerance', () => {
    const [cut, allowed] = [tap(), nut()]
    // BS 93: 0.12 p + 0.03 on the nut's effective diameter.
    const tolerance = 0.12 * 0.66 + 0.03
    expect(cut.effective[0]).toBeCloseTo(allowed.effective + 0.3 * tolerance, 8)
    expect(cut.effective[1]).toBeCloseTo(allowed.effective + 0.5 * tolerance, 8)
    expect(cut.major).toBeCloseTo(allowed.major + 0.4 * tolerance, 8)
    expect(cut.minor).toBeLessThanOrEqual(allowed.minor)
    expect(cut.core).toBeLessThan(cut.minor)
  })

  it('takes the tolerance it is given', () => {
    const wide = homeMadeTap({ ...q, tolerance: 0.2 })
    expect(wide.effective).toEqual([nut().effective + 0.06, nut().effective + 0.1].map((x) => Number(x.toFixed(9))))
  })

  // Widia tapping catalogue, p. 99: taper 7 to 10, plug 3 to 5, bottoming 1 to 2 pitches.
  it('is chamfered over the published lengths, from the point to the crests', () => {
    const cut = tap()
    expect(cut.chamfers.map(({ name, threads }) => [name, ...threads])).toEqual([
      ['taper', 7, 10],
      ['second', 3, 5],
      ['bottoming', 1, 2],
    ])
    for (const { threads, length, angle } of cut.chamfers)
      for (const end of [0, 1]) {
        expect(length[end]).toBeCloseTo(threads[end] * 0.66, 9)
        const climb = 2 * length[end] * Math.tan((angle[end] * Math.PI) / 180)
        expect(cut.point + climb).toBeCloseTo(cut.major, 7)
      }
    expect(cut.point).toBeLessThan(cut.hole)
    expect(cut.hole).toBe(tappingDrill(q).hole)
  })

  it('leaves more core the more flutes it has', () => {
    const cores = [2, 3, 4].map((flutes) => homeMadeTap({ ...q, flutes }).core)
    expect(cores).toEqual([1.44, 1.62, 1.8])
  })

  it('carries its cautions, and no recipe for hardening', () => {
    expect(tap().cautions.map(({ code }) => code)).toEqual(['tap'])
    expect(JSON.stringify(tap().cautions)).not.toMatch(/°|degree|colour|straw|quench/i)
  })

  it.each([{ flutes: 5 }, { flutes: 2.5 }, { tolerance: 0 }, { tolerance: 0.4 }, { major: 0.3 }, { pitch: '' }])(
    'refuses %o',
    (part) => {
      expect(() => homeMadeTap({ ...q, ...part })).toThrow(InputError)
    },
  )
})
