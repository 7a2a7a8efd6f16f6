import { banjoToSvg } from '@trainwright/sheet/banjo'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { banjo as anyBanjo } from '../../test/arbitraries.js'
import { banjoToDraw } from './draw-banjo.js'
import { readBanjo } from './read-banjo.js'
import { blankBanjo, blankSlot, blankStop, type TypedBanjo } from './typed-banjo.js'

const draw = (banjo: Partial<TypedBanjo>, centreDistance = '110') =>
  banjoToDraw({ banjo: { ...blankBanjo(), ...banjo }, centreDistance })!
const entries = (...args: Parameters<typeof draw>) =>
  Object.fromEntries(draw(...args).dimensions.map(({ field, entry }) => [field, entry]))
const slot = { ...blankSlot(), near: '40', far: '100' }
const stops = [
  { ...blankStop(), toStud: '50' },
  { ...blankStop(), toStud: '120' },
]

describe('banjoToDraw', () => {
  it('draws nothing while no banjo is told', () => {
    expect(banjoToDraw({ banjo: blankBanjo(), centreDistance: '110' })).toBeNull()
  })

  it.each(['measured', 'drawn'] as const)('draws a banjo of which nothing is known yet, all open (%s)', (by) => {
    const open = entries({ by, slots: [blankSlot(), blankSlot(), blankSlot()] }, '')
    expect(Object.keys(open).length).toBeGreaterThan(10)
    expect(Object.values(open).every((entry) => entry === null)).toBe(true)
  })

  it('shows what stands in each field as it was typed', () => {
    expect(entries({ by: 'measured', slots: [{ ...slot, length: ' 62' }], stops }, '110.0')).toEqual({
      centreDistance: '110.0',
      'slots[0].near': '40',
      'slots[0].far': '100',
      'slots[0].length': ' 62',
      'stops[0].toStud': '50',
      'stops[1].toStud': '120',
    })
  })

  it('stands against each stop as it was measured, whichever was first', () => {
    const swings = (order: TypedBanjo['stops']) =>
      draw({ by: 'measured', slots: [slot], stops: order }).stops.map(({ swing }) => swing)
    expect(swings(stops)).toEqual(swings([...stops].reverse()).reverse())
    const [a, b] = swings(stops)
    expect(a).toBeLessThan(b!)
  })

  it('marks measures that cannot be as open and draws the rest', () => {
    const { dimensions } = draw({
      by: 'measured',
      slots: [
        { ...slot, length: '5' },
        { ...slot, fromFirst: '900' },
      ],
      stops: [{ ...blankStop(), toStud: '900' }, stops[1]!],
    })
    const at = (field: string) => dimensions.find((d) => d.field === field)!.entry
    expect([at('slots[0].length'), at('slots[1].fromFirst'), at('stops[0].toStud')]).toEqual([null, null, null])
    expect([at('slots[0].near'), at('slots[1].far'), at('stops[1].toStud')]).toEqual(['40', '100', '120'])
  })

  it('draws something whatever is typed, and reads only what the search takes or refuses by name', () => {
    fc.assert(
      fc.property(anyBanjo, fc.constantFrom('110', '', 'far', '0.1'), (banjo, centreDistance) => {
        const svg = banjo.by === 'none' ? '' : banjoToSvg(banjoToDraw({ banjo, centreDistance })!)
        expect(svg).not.toMatch(/NaN|Infinity|undefined/)
        const { lathe, problems } = readBanjo({ banjo, centreDistance })
        for (const { path } of problems) expect(path).toMatch(/^lathe\./)
        if (lathe.banjo) expect(problems).toEqual([])
      }),
    )
  })

  it.each<[string, Partial<TypedBanjo>, string]>([
    ['letters', { slots: [{ ...blankSlot(), near: 'x', far: '-', length: '?' }] }, 'far'],
    ['ends the wrong way round', { slots: [{ ...blankSlot(), near: '90', far: '10', from: '90', to: '10' }] }, '110'],
    ['a swing of words', { stops: [{ ...blankStop(), swing: 'ten' }, blankStop()] }, '110'],
    [
      'a swing the wrong way round',
      {
        stops: [
          { ...blankStop(), swing: '60' },
          { ...blankStop(), swing: '6' },
        ],
      },
      '110',
    ],
    ['shafts miles apart', { slots: [slot], stops }, '99999'],
    ['everything at the pivot', { slots: [{ ...blankSlot(), from: '0', to: '0', offset: '0' }] }, '110'],
  ])('draws something whatever is typed: %s', (_, change, centres) => {
    for (const by of ['measured', 'drawn'] as const) {
      const text = JSON.stringify(draw({ by, ...change }, centres))
      // A number that is none becomes null in JSON: only entries may be.
      expect(text.replaceAll('"entry":null', '')).not.toContain('null')
    }
  })
})
