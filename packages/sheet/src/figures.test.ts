import { describe, expect, it } from 'vitest'
import { distance, errorFigures, leadFigures } from './figures.js'
import { trainOf } from './testing/train-of.js'

const withError = (n: string, d: string, more = {}) => errorFigures(trainOf([[40, 60]], { error: { n, d }, ...more }))

describe('errorFigures', () => {
  it.each([
    ['0', '1', 'exact', '', ''],
    ['1', '8000', '+125 ppm', '3.13 µm long over 25 mm', '125 µin long over 1 in'],
    ['-1', '8000', '−125 ppm', '3.13 µm short over 25 mm', '125 µin short over 1 in'],
    ['1', '1000000', '+1 ppm', '0.03 µm long over 25 mm', '1 µin long over 1 in'],
    ['-1', '30000000', '−0.03 ppm', '0.001 µm short over 25 mm', '0.03 µin short over 1 in'],
    ['1', '20000', '+50 ppm', '1.25 µm long over 25 mm', '50 µin long over 1 in'],
    ['1', '40', '+25000 ppm', '625 µm long over 25 mm', '25000 µin long over 1 in'],
    [
      '1',
      '1000000000000000000',
      'under 0.000001 ppm',
      'under 0.000001 µm long over 25 mm',
      'under 0.000001 µin long over 1 in',
    ],
  ])('%s/%s is %s', (n, d, ppm, over, inch) => {
    expect(withError(n, d)).toEqual({ exact: n === '0', ppm, over, inch })
  })

  it('does not call a train exact that rests on pi', () => {
    expect(withError('0', '1', { approximate: true })).toMatchObject({ exact: false, ppm: 'exact but for pi' })
  })
})

describe('leadFigures', () => {
  it('prints both ways and marks what was rounded', () => {
    expect(leadFigures(trainOf([[40, 60]], { lead: { n: '127', d: '130' } }))).toEqual({
      mm: '≈ 0.976923 mm',
      tpi: '26 tpi',
    })
  })

  it('marks a lead that rests on pi', () => {
    expect(leadFigures(trainOf([[40, 60]], { lead: { n: '3', d: '2' }, approximate: true })).mm).toBe('≈ 1.5 mm')
  })
})

describe('distance', () => {
  it.each([
    [84.3, '84.30 mm'],
    [-0.001, '0.00 mm'],
    [40.625, '40.63 mm'],
    [40.625 - 7e-15, '40.63 mm'],
    [12.345678, '12.35 mm'],
  ])('%s', (mm, text) => {
    expect(distance(mm)).toBe(text)
  })

  it('reads inches to the thousandth', () => {
    expect([25.4, 46.5, -0.001].map((mm) => distance(mm, 'inch'))).toEqual(['1.000 in', '1.831 in', '0.000 in'])
  })
})
