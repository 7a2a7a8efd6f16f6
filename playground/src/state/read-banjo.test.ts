import { type Banjo, checkWorkshop, type MeasuredBanjo, measureBanjo } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { ask } from './ask.js'
import { readBanjo } from './read-banjo.js'
import { banjoFrom, blankBanjo, blankSlot, blankStop, type TypedBanjo } from './typed-banjo.js'
import { workshopFrom } from './typed-from.js'

const read = (banjo: Partial<TypedBanjo>, centreDistance = '110') =>
  readBanjo({ banjo: { ...blankBanjo(), ...banjo }, centreDistance })

const measured: Partial<TypedBanjo> = {
  by: 'measured',
  slots: [
    { ...blankSlot(), near: '40', far: '4 in', length: '62', passes: 'right' },
    { ...blankSlot(), near: '45', far: '100', fromFirst: '70', lies: 'clockwise' },
  ],
  stops: [
    { ...blankStop(), toStud: '50' },
    { ...blankStop(), toStud: '120', lies: 'clockwise' },
  ],
  collars: '22 1 in, 19',
  air: '0.25',
}
const measures: MeasuredBanjo = {
  centreDistance: 110,
  pivot: 'output',
  slots: [
    { near: 40, far: 101.6, length: 62, passes: 'right' },
    { near: 45, far: 100, fromFirst: 70, lies: 'clockwise' },
  ],
  stops: [{ toStud: 50 }, { toStud: 120, lies: 'clockwise' }],
  collars: [22, 25.4, 19],
  air: 0.25,
}
const drawn: Banjo = {
  pivot: 'input',
  swing: [-10.5, 70],
  slots: [
    { offset: -6, from: 0, to: 90 },
    { angle: -35, offset: 0, from: 40, to: 95.5 },
  ],
  keepOut: [{ x: -20, y: 0, radius: 12 }],
}

describe('readBanjo', () => {
  it('reads what was measured, in any unit', () => {
    const { banjo, shaftClearance } = measureBanjo(measures)
    expect(read(measured)).toEqual({ lathe: { banjo, shaftClearance }, problems: [], open: [] })
    expect(shaftClearance).toBe(12.95)
  })

  it('reads back a banjo in the terms of a drawing', () => {
    expect(read(banjoFrom(drawn)).lathe).toEqual({ banjo: drawn })
    expect(read(banjoFrom(drawn)).problems).toEqual([])
  })

  it('keeps both ways apart, and the places to keep out of in both', () => {
    const both = { ...banjoFrom(drawn), slots: measured.slots!, stops: measured.stops!, by: 'measured' as const }
    expect(read(both).lathe.banjo!.keepOut).toEqual(drawn.keepOut)
    expect(read({ ...banjoFrom(drawn), collars: 'no size' }).problems).toEqual([])
    expect(read({ ...both, by: 'none' })).toEqual({ lathe: {}, problems: [], open: [] })
  })

  it('is not used, and nothing is wrong, until all that is needed is there', () => {
    const { lathe, problems, open } = read({ by: 'measured', slots: [blankSlot(), blankSlot()] }, '')
    expect({ lathe, problems }).toEqual({ lathe: {}, problems: [] })
    expect(open).toEqual([
      'centreDistance',
      'slots[0].near',
      'slots[0].far',
      'slots[1].near',
      'slots[1].far',
      'slots[1].fromFirst',
      'stops[0].toStud',
      'stops[1].toStud',
    ])
    expect(read({ by: 'drawn' }).open).toEqual(['slots[0].from', 'slots[0].to', 'swing[0]', 'swing[1]'])
  })

  it.each<[string, Partial<TypedBanjo>, string[]]>([
    ['no length', { slots: [{ ...blankSlot(), near: 'x', far: '90' }] }, ['lathe.banjo.slots[0].near']],
    ['ends the wrong way round', { slots: [{ ...blankSlot(), near: '95', far: '90' }] }, ['lathe.banjo.slots[0].near']],
    [
      'no triangle',
      { stops: [{ ...blankStop(), toStud: '900' }, measured.stops![1]!] },
      ['lathe.banjo.stops[0].toStud'],
    ],
    ['a collar of no size', { collars: '20 wide' }, ['lathe.banjo.collars']],
    [
      'half a place',
      { keepOut: [{ x: '3', y: '', radius: 'r' }] },
      ['lathe.banjo.keepOut[0].y', 'lathe.banjo.keepOut[0].radius'],
    ],
  ])('names the field of %s', (_, change, paths) => {
    const { lathe, problems } = read({ ...measured, ...change })
    expect(problems.map(({ path }) => path)).toEqual(paths)
    expect(lathe).toEqual({})
  })

  it('takes a row that is blank for no place at all', () => {
    expect(read({ ...measured, keepOut: [{ x: ' ', y: '', radius: '' }] }).lathe.banjo).not.toHaveProperty('keepOut')
  })
})

describe('the question with a banjo', () => {
  const typed = demo()
  const withBanjo = (banjo: Partial<TypedBanjo>, shaftClearance = '') => {
    const lathe = { ...typed.workshop.lathe, shaftClearance, banjo: { ...blankBanjo(), ...banjo } }
    return ask({ ...typed, workshop: { ...typed.workshop, lathe } })
  }

  it('holds the banjo, and the clearance that follows from the collars unless one is typed', () => {
    const { lathe } = withBanjo(measured).question.workshop
    expect(lathe).toMatchObject({ banjo: measureBanjo(measures).banjo, shaftClearance: 12.95 })
    expect(withBanjo(measured, '9').question.workshop.lathe.shaftClearance).toBe(9)
    expect(checkWorkshop(withBanjo(measured).question.workshop).ok).toBe(true)
  })

  it('is the very one that was put in', () => {
    const workshop = { ...withBanjo({}).question.workshop }
    workshop.lathe = { ...workshop.lathe, centreDistance: 110, banjo: drawn }
    expect(ask({ ...typed, workshop: workshopFrom(workshop) }).question.workshop).toEqual(workshop)
  })

  it('goes without a banjo while one is being put in', () => {
    const { question, problems } = withBanjo({ by: 'measured' })
    expect(problems).toEqual([])
    expect(question.workshop.lathe).not.toHaveProperty('banjo')
  })
})
