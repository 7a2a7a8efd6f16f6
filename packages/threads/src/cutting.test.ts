import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { infeed, passes, threadCut } from './cutting.js'
import { threadDimensions } from './dimensions.js'
import type { Form } from './forms.js'
import { tappingDrill } from './mating.js'
import { told } from './testing/told.js'

describe('blank and depth', () => {
  it('starts from the nominal diameter and goes to the root of the form', () => {
    const q = { form: 'metric', pitch: '1 mm', major: 6 } as const
    const { minor, depth } = threadDimensions(q)
    expect(threadCut(q)).toMatchObject({ blank: 6, depth, root: minor, cautions: [] })
    // Catalogues allow 0.61 to 0.64 p for metric threads (Sumitomo general catalogue 2019-20, p. 404).
    expect(depth).toBeGreaterThan(0.61)
    expect(depth).toBeLessThan(0.64)
  })

  it('goes as deep as brings the effective diameter right, whatever the nose', () => {
    const q = { form: 'whitworth', pitch: '20 tpi', major: 6.35 } as const
    const { effective, sharpHeight } = threadDimensions(q)
    const p = 1.27
    expect(threadCut({ ...q, nose: { flat: 0 } }).root).toBeCloseTo(effective - sharpHeight, 8)
    // A groove with a flat of f is f + 2 h tan(27.5) wide h above it: half a pitch at the effective diameter.
    const flat = threadCut({ ...q, nose: { flat: 0.2 } })
    const h = (effective - flat.root) / 2
    expect(0.2 + 2 * h * Math.tan((27.5 * Math.PI) / 180)).toBeCloseTo(p / 2, 8)
    // With the form's own radius, 0.137329 p, it reaches the form's own root (BS 84).
    const own = threadCut({ ...q, nose: { radius: 0.137329 * p } })
    expect(own.root).toBeCloseTo(threadCut(q).root, 5)
    expect(threadCut(q).crestRadius / p).toBeCloseTo(0.137329, 6)
  })

  it('has a crest radius where the form has a round crest, and nowhere else', () => {
    // BS 84 0.137329 p, BS 93 0.180834 p; flat in ISO 68-1, ASME B1.1, ISO 2901 and ASME B1.5.
    const of = (form: Form) => threadCut({ form, pitch: '2', major: 20 }).crestRadius
    expect(of('whitworth') / 2).toBeCloseTo(0.137329, 6)
    expect(of('ba') / 2).toBeCloseTo(0.180834, 6)
    const flat = ['metric', 'unified', 'trapezoidal', 'acme', 'loewenherz', 'square', 'sharp-v'] as const
    expect([...flat, { angle: 60, crest: 0.1, root: 0.1 }].map(of)).toEqual(Array(8).fill(0))
  })

  it('starts a sharp crest from the sharp triangle', () => {
    const q = { form: 'metric', pitch: '1', major: 6 } as const
    const sharp = threadCut({ ...q, crest: 'sharp', nose: { flat: 0 } })
    const v = threadDimensions({ form: 'sharp-v', pitch: '1', effective: threadDimensions(q).effective })
    expect(sharp.blank).toBe(v.major)
    expect(sharp.depth).toBe(v.depth)
    expect(sharp.root).toBe(v.minor)
  })

  it('comes to the same from the effective diameter', () => {
    const { effective } = threadDimensions({ form: 'ba', pitch: '0.66', major: 3.6 })
    expect(threadCut({ form: 'ba', pitch: '0.66', effective })).toEqual(
      threadCut({ form: 'ba', pitch: '0.66', major: 3.6 }),
    )
  })

  it('warns when a broad nose leaves too little room for the crests of the nut', () => {
    const q = { form: 'metric', pitch: '1', major: 6 } as const
    expect(threadCut({ ...q, nose: { flat: 0.25 } }).cautions).toEqual([])
    expect(threadCut({ ...q, nose: { flat: 0.26 } }).cautions).toMatchObject([{ code: 'nut-crest' }])
    expect(threadCut({ ...q, nose: { radius: 0.28 } }).cautions).toMatchObject([{ code: 'nut-crest' }])
  })

  // Jones, Turning and Boring (1914): the square thread's groove is half a pitch wide and deep.
  it('cuts a square thread half a pitch deep', () => {
    const square = threadCut({ form: 'square', pitch: '1/4 in', major: 25.4 })
    expect(square).toEqual({ blank: 25.4, depth: 3.175, root: 19.05, crestRadius: 0, cautions: [] })
  })
})

describe('infeed', () => {
  it('goes straight in by the cross-slide', () => {
    expect(infeed({ form: 'metric', depth: 0.613 })).toEqual({ radial: 0.613, travel: 0.613, sideways: 0 })
  })
  it('goes along the flank by the compound, measured from the cross-slide’s travel', () => {
    // 30 degrees for a 60 degree thread (Jones, 1914); 29 to 29 1/2 in later practice.
    const half = infeed({ form: 'metric', depth: 1, compound: 30 })
    expect(half.travel).toBeCloseTo(2 / Math.sqrt(3), 9)
    expect(half.sideways).toBeCloseTo(1 / Math.sqrt(3), 9)
    expect(infeed({ form: 'metric', depth: 1, compound: 29.5 }).travel).toBeCloseTo(1.148956, 6)
  })
  it('refuses an angle that would cut a wrong flank', () => {
    expect(() => infeed({ form: 'metric', depth: 1, compound: 30.5 })).toThrow(/from 0 to 30 /)
    expect(() => infeed({ form: 'ba', depth: 1, compound: 29 })).toThrow(/from 0 to 23.75 /)
    expect(() => infeed({ form: 'square', depth: 1, compound: 1 })).toThrow(InputError)
    expect(() => infeed({ form: 'metric', depth: 0 })).toThrow(InputError)
  })
})

describe('a schedule of passes', () => {
  // Catalogue formula for degressive infeed, last five of six passes (Widia 2017, p. 685): a_x = a_p sqrt((x-1)/(n-1)), which
  // is even chip area from a sharp nose; the example of 1.5 mm pitch and 0.94 mm is from memory.
  it('takes the depths of the catalogue', () => {
    const { passes: all } = passes({
      form: 'metric',
      pitch: '1.5',
      depth: 0.94,
      passes: 5,
      nose: { flat: 0 },
      springPasses: 0,
    })
    expect(all.map(({ radial }) => Number(radial.toFixed(2)))).toEqual([0.42, 0.59, 0.73, 0.84, 0.94])
  })

  it('counts as many passes as a catalogue at coarse pitches', () => {
    // Sumitomo general catalogue 2019-20, p. 404: 12 passes for 2 mm, 14 for 2.5, 16 for 3.
    const count = (pitch: string) =>
      passes({ form: 'metric', pitch, depth: 0.6 * Number(pitch), springPasses: 0 }).passes.length
    expect(['2', '2.5', '3'].map(count)).toEqual([12, 14, 16])
    expect(count('0.5')).toBe(6)
  })

  it('ends with spring passes at full depth', () => {
    const { passes: all, cautions } = passes({
      form: 'ba',
      pitch: '0.66',
      depth: 0.4,
      passes: 3,
      springPasses: 2,
      compound: 20,
    })
    expect(all.map(({ kind }) => kind)).toEqual(['cut', 'cut', 'cut', 'spring', 'spring'])
    expect(all[4]).toMatchObject({
      radial: 0.4,
      deeper: 0,
      area: 0,
      travel: infeed({ form: 'ba', depth: 0.4, compound: 20 }).travel,
    })
    expect(cautions).toEqual([])
    expect(
      passes({ form: 'ba', pitch: '0.66', depth: 0.4 }).passes.filter(({ kind }) => kind === 'spring'),
    ).toHaveLength(2)
  })

  it('warns that at half the angle one flank is only rubbed', () => {
    const at = (compound: number) => passes({ form: 'metric', pitch: '1', depth: 0.6, compound }).cautions
    expect(at(30)).toMatchObject([{ code: 'flanks' }])
    expect(at(29.5)).toEqual([])
    expect(at(0)).toEqual([])
  })

  it('starts with the first cut asked for', () => {
    const { passes: all } = passes({
      form: 'metric',
      pitch: '1',
      depth: 0.6,
      firstCut: 0.2,
      nose: { flat: 0 },
      springPasses: 0,
    })
    // Nine passes of area (0.6 / 0.2)^2.
    expect(all).toHaveLength(9)
    expect(all[0].radial).toBeCloseTo(0.2, 9)
    expect(passes({ form: 'metric', pitch: '1', depth: 0.6, firstCut: 0.6, springPasses: 0 }).passes).toHaveLength(1)
  })

  it('reckons the chip of a nut by its own root, not by that of the screw', () => {
    // The nut's groove is a trapezium: p/8 wide at the root of ISO 68-1, the screw's crest flat in a form of one's own.
    const own: Form = { angle: 60, crest: 0.05, root: 0.4 }
    fc.assert(
      fc.property(
        fc.constantFrom<[Form, number]>(['metric', 1 / 8], ['unified', 1 / 8], [own, 0.05], ['square', 1 / 2]),
        fc.integer({ min: 20, max: 600 }),
        ([form, flat], hundredths) => {
          const p = hundredths / 100
          const pitch = `${p}`
          const { internal, angle } = threadDimensions({ form, pitch, major: 60 })
          const depth = (internal.major - internal.minor) / 2
          const cuts = passes({ form, pitch, depth, nut: true, springPasses: 0 }).passes
          const areaTo = (x: number) => (flat * p + x * Math.tan((angle * Math.PI) / 360)) * x
          const areas = cuts.map(({ radial, deeper }) => areaTo(radial) - areaTo(radial - deeper))
          expect(Math.max(...areas) / Math.min(...areas)).toBeCloseTo(1, 5)
        },
      ),
    )
  })

  it('takes even chip area, ever shallower, and ends at the depth', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Form>('metric', 'whitworth', 'acme', 'square', 'sharp-v', { angle: 40, crest: 0.1, root: 0.2 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 20, max: 300 }),
        fc.integer({ min: 0, max: 12 }),
        (form, count, hundredths, compound) => {
          const pitch = `${hundredths / 100}`
          const { depth } = threadCut({ form, pitch, major: 60 })
          const lean = form === 'square' ? {} : { compound }
          const { passes: all } = passes({ form, pitch, depth, passes: count, springPasses: 1, ...lean })
          const cuts = all.filter(({ kind }) => kind === 'cut')
          expect(cuts).toHaveLength(count)
          expect(cuts[count - 1].radial).toBe(depth)
          const areas = cuts.map(({ area }) => area)
          expect(Math.max(...areas) - Math.min(...areas)).toBeLessThan(3e-9)
          for (let i = 1; i < count; i++) expect(cuts[i].deeper).toBeLessThanOrEqual(cuts[i - 1].deeper + 3e-9)
          expect(cuts.reduce((sum, { deeper }) => sum + deeper, 0)).toBeCloseTo(depth, 7)
          for (const { radial, travel, sideways } of all) expect(Math.hypot(radial, sideways)).toBeCloseTo(travel, 8)
        },
      ),
    )
  })
})

describe('refusals', () => {
  it('names the broadest nose, and the least first cut', () => {
    const q = { form: 'metric', pitch: '1', major: 6 } as const
    expect(() => threadCut({ ...q, nose: { flat: 0.5 } })).toThrow(/from 0 to 0.499 /)
    expect(() => threadCut({ ...q, nose: { radius: 0.28 } })).not.toThrow()
    expect(() => threadCut({ ...q, nose: { radius: 0.5 } })).toThrow(/from 0 to 0.28868 /)
    expect(() => threadCut({ ...q, nose: {} as never })).toThrow(/nose.radius/)
    expect(() => passes({ form: 'metric', pitch: '1', depth: 0.6, firstCut: 0.001, nose: { flat: 0 } })).toThrow(
      /from 0.042426 to 0.6 /,
    )
  })
  it('refuses two answers to one question, each at its path', () => {
    const q = { form: 'metric', pitch: '1' } as const
    const paths = (ask: () => unknown) => told(ask).map(({ path, code }) => `${path} ${code}`)
    expect(paths(() => passes({ ...q, depth: 0.6, passes: 5, firstCut: 0.2 }))).toEqual(['passes one', 'firstCut one'])
    const nose = { flat: 0.1, radius: 0.1 }
    expect(paths(() => threadCut({ ...q, major: 6, nose }))).toEqual(['nose.flat one', 'nose.radius one'])
    expect(paths(() => passes({ ...q, depth: 0.6, nose }))).toEqual(['nose.flat one', 'nose.radius one'])
    expect(paths(() => passes({ ...q, depth: 0.6, nose: {} as never }))).toEqual(['nose one'])
    expect(paths(() => tappingDrill({ ...q, major: 6, engagement: 0.8, hole: 5 }))).toEqual([
      'engagement one',
      'hole one',
    ])
    expect(told(() => passes({ ...q, depth: 0.6, passes: 5, firstCut: 0.2 }))[0].message).toBe(
      'Give one of passes and firstCut.',
    )
  })

  it.each([
    () => threadCut({ form: 'square', pitch: '1', major: 6, nose: { flat: 0.1 } }),
    () => threadCut({ form: 'square', pitch: '1', major: 6, crest: 'sharp' }),
    () => threadCut({ form: 'metric', pitch: '1', major: 6, crest: 'flat' as never }),
    () => threadCut({ form: 'metric', pitch: '1' }),
    () => threadCut({ form: 'metric', pitch: '2', major: 2, nose: { flat: 0 } }),
    () => passes({ form: 'metric', pitch: '1', depth: 0.6, passes: 0 }),
    () => passes({ form: 'metric', pitch: '1', depth: 0.6, passes: 201 }),
    () => passes({ form: 'metric', pitch: '1', depth: 0.6, springPasses: -1 }),
    () => passes({ form: 'metric', pitch: '1', depth: 0.6, compound: 31 }),
    () => passes(undefined as never),
  ])('refuses what means nothing', (ask) => {
    expect(ask).toThrow(InputError)
  })
})
