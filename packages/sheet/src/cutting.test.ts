import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { setUpSheet } from './set-up-sheet.js'
import { plain, readDemo, trainFor } from './testing/demo.js'
import type { ThreadWork } from './thread-work.js'

const { footScrew, workshop } = readDemo(demo)

const { wanted, train } = footScrew
const cut = (work: Omit<ThreadWork, 'form'> & { form?: ThreadWork['form'] }) =>
  setUpSheet(workshop, wanted, train, { form: 'metric', ...work }).cutting!

describe('blank and depth', () => {
  it('are nominal without limits: depth 0.613435 p, ISO 68-1', () => {
    const { blank, depth, root, aim, limits } = cut({ major: 10 })
    expect([blank.mm, aim, limits]).toEqual([10, 'nominal sizes', null])
    expect(depth.mm).toBeCloseTo(0.613435, 5)
    expect(root.mm).toBeCloseTo(10 - 1.22687, 5)
  })

  it('follow crest and nose as they are wanted', () => {
    // Sharp crests stand H/8 higher than flat ones: 0.108253 p.
    expect(cut({ major: 10, crest: 'sharp' }).blank.mm).toBeCloseTo(10 + 2 * 0.108253, 5)
    // A pointed tool goes H/2 under the effective diameter: 9.350481 - 0.866025.
    expect(cut({ major: 10, nose: { flat: 0 } }).root.mm).toBeCloseTo(9.350481 - 0.866025, 5)
    expect(cut({ major: 10, nose: { flat: 0 }, cut: 'nut' }).root.mm).toBeCloseTo(9.350481 + 0.866025, 5)
    expect(cut({ major: 10, cut: 'nut' }).root.mm).toBeCloseTo(10, 9)
  })

  it('allow below nominal for a screw, above for a nut, and work to the middle', () => {
    const screw = cut({ major: 10, allowance: 0.2 })
    expect(screw.effectiveAim.mm).toBeCloseTo(9.350481 - 0.1, 5)
    expect(screw.blank.mm).toBe(10)
    expect(screw.depth.mm).toBeCloseTo(0.613435 + 0.05, 5)
    expect(screw.limits).toMatchObject({ name: 'allowance', major: null, minor: null })
    const nut = cut({ major: 10, allowance: 0.2, cut: 'nut' })
    expect(nut.effectiveAim.mm).toBeCloseTo(9.350481 + 0.1, 5)
    expect(nut.blank.mm).toBeCloseTo(10 - 1.082532, 5)
    expect(nut.crestRadius).toBeNull()
  })

  it('bore a 6H nut within its minor limits', () => {
    // M10 x 1 6H: ASME B1.13M, internal thread limits: minor 8.917 to 9.153.
    const { blank, limits, text } = cut({ major: 10, class: '6H', cut: 'nut' })
    expect(limits!.minor!.map((x) => x.text)).toEqual(['8.917 mm', '9.153 mm'])
    expect(blank.mm).toBeCloseTo(9.035, 3)
    expect(text).toBe('Nut, form metric (ISO 68-1), 60°, lead angle 1.95°; worked to the middle of the limits')
  })
})

describe('a numbered BA', () => {
  // 7 BA: pitch 0.48, major 2.50, effective 2.210, minor 1.92 (Machinery's Handbook, 31st ed., p. 2115).
  it('has the figures of its table, in the dimensions as in the limits', () => {
    const ba = { pitch: '0.48 mm' }
    const shop = plain({}, [20, 20, 50, 50])
    const work = { form: 'ba', major: 2.5, class: 'close' } as const
    const { effective, minor, limits } = setUpSheet(shop, ba, trainFor(shop, ba), work).cutting!
    expect([effective.text, minor.text]).toEqual(['2.210 mm', '1.920 mm'])
    expect([limits!.effective[1].text, limits!.minor![1].text]).toEqual(['2.210 mm', '1.920 mm'])
  })
})

describe('a class with the effective diameter of a worn thread', () => {
  it('counts from the nominal diameter of the published thread, not from the wear', () => {
    // M6 6g: effective 5.212 to 5.324, major 5.794 to 5.974 (ISO 965-1).
    const { limits, major, effectiveAim, blank } = cut({ effective: 5.3, class: '6g' })
    expect(limits!.name).toBe('M6, 6g')
    expect(limits!.effective.map(({ text }) => text)).toEqual(['5.212 mm', '5.324 mm'])
    expect([major.text, effectiveAim.text, blank.text]).toEqual(['6.000 mm', '5.268 mm', '5.884 mm'])
    expect(cut({ effective: 5.35, class: '6g' }).limits).toEqual(limits)
    expect(cut({ major: 6, class: '6g' }).limits).toEqual({
      ...limits,
      name: '6g',
      text: limits!.text.replace('M6, ', ''),
    })
    // 0 BA, close: effective 5.400 less 0.08 p + 0.02 (BS 93).
    const ba = cut({ form: 'ba', effective: 5.33, class: 'close' }).limits!
    expect([ba.name, ...ba.effective.map(({ text }) => text)]).toEqual(['0 BA, close', '5.300 mm', '5.400 mm'])
  })

  it('is refused where no published thread was measured; an allowance is not', () => {
    // M12x1 has 11.350, M14x1 13.350.
    expect(() => cut({ effective: 12.8, class: '6g' })).toThrow(/thread\.class: .* no published thread: .* allowance/)
    expect(cut({ effective: 12.8, allowance: 0.1 }).limits!.effective.map(({ mm }) => mm)).toEqual([12.7, 12.8])
  })
})

describe('infeed', () => {
  it('counts the compound from the cross-slide, and says what that is from the axis', () => {
    const { compound, infeed, depth } = cut({ major: 10, compound: 29.5 })
    expect([compound.angle.text, compound.fromAxis.text]).toEqual(['29.5°', '60.5°'])
    expect(infeed.radial.mm).toBe(depth.mm)
    expect(infeed.travel.mm).toBeCloseTo(depth.mm / Math.cos((29.5 * Math.PI) / 180), 8)
    expect(infeed.sideways.mm).toBeCloseTo(depth.mm * Math.tan((29.5 * Math.PI) / 180), 8)
  })

  it('swings the compound to feed the way the carriage cuts, for either hand, screw or nut', () => {
    const { tangentScrew } = readDemo(demo)
    expect([footScrew.train.hand, tangentScrew.train.hand]).toEqual(['right', 'left'])
    for (const { wanted, train } of [footScrew, tangentScrew])
      for (const part of ['screw', 'nut'] as const) {
        const work = { form: 'metric', major: 10, cut: part } as const
        const { cutting, runOut } = setUpSheet(workshop, wanted, train, { ...work, compound: 29.5 })
        expect(cutting!.compound.towards).toBe(runOut.travel)
        expect(cutting!.compound.text).toContain(`into the work and towards the ${runOut.travel} (common practice,`)
        const straight = setUpSheet(workshop, wanted, train, work).cutting!.compound
        expect(straight.towards).toBeNull()
        expect(straight.text).not.toContain('stock')
      }
  })

  it('goes straight in unless it is asked otherwise', () => {
    const { compound, passes, infeed } = cut({ major: 10 })
    expect([compound.angle.value, compound.fromAxis.value, infeed.sideways.mm]).toEqual([0, 90, 0])
    expect(passes[0]!.text).not.toContain('slide')
    expect(cut({ major: 10, compound: 29.5 }).passes[0]!.text).toContain('slide to')
  })

  it("shares out a nut's passes by the nut's own root, p/8 wide", () => {
    const { passes } = cut({ major: 10, class: '6H', cut: 'nut', springPasses: 0 })
    const areaTo = (x: number) => (1 / 8 + x * Math.tan(Math.PI / 6)) * x
    const areas = passes.map(({ to, deeper }) => areaTo(to.mm) - areaTo(to.mm - deeper.mm))
    expect(Math.max(...areas) / Math.min(...areas)).toBeCloseTo(1, 6)
  })

  it('ends at full depth with the spring passes asked for', () => {
    const { passes, depth } = cut({ major: 10, passes: 5, springPasses: 1 })
    expect(passes.map(({ number, kind }) => `${number} ${kind}`)).toEqual([
      '1 cut',
      '2 cut',
      '3 cut',
      '4 cut',
      '5 cut',
      '6 spring',
    ])
    expect(passes[4]!.to).toMatchObject({ mm: depth.mm })
    expect(passes.reduce((sum, { deeper }) => sum + deeper.mm, 0)).toBeCloseTo(depth.mm, 6)
    expect(passes[5]).toMatchObject({ label: 'Pass 6', deeper: { mm: 0 } })
    expect(passes[5]!.text).toContain('a spring pass')
    expect(cut({ major: 10, firstCut: 0.3 }).passes[0]!.deeper.mm).toBeLessThanOrEqual(0.3)
  })
})

describe('forms', () => {
  it('are named with their standard, an own one as given', () => {
    expect(cut({ major: 10 }).form).toMatchObject({ name: 'metric', standard: 'ISO 68-1', angle: { value: 60 } })
    expect(cut({ form: { angle: 50, crest: 0.1, root: 0.1 }, major: 10 }).form).toMatchObject({
      name: 'own',
      standard: 'as given',
    })
  })
})
