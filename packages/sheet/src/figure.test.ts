import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { amount, length, pitchFigure, range, span, trace } from './figure.js'

describe('length', () => {
  it.each([
    [8.647, 3, '8.647 mm', '0.3404 in'],
    [25.4, 2, '25.40 mm', '1.000 in'],
    [-12.345, 2, '−12.35 mm', '−0.486 in'],
    [-0.0001, 2, '0.00 mm', '0.000 in'],
    [0, 3, '0.000 mm', '0.0000 in'],
  ])('%s to %i places', (mm, places, text, inch) => {
    expect(length(mm, places)).toMatchObject({ text, inch })
  })

  it('keeps nanometres and no minus nought', () => {
    expect(length(1 / 3).mm).toBe(0.333333333)
    expect(Object.is(length(-1e-12).mm, 0)).toBe(true)
  })

  it('spans a range in both', () => {
    expect(span(range([1, 2], 1))).toBe('1.0 mm (0.04 in) to 2.0 mm (0.08 in)')
  })
})

describe('trace', () => {
  it.each([
    [0.0015, true, '+1.5 µm', '+0.0000591 in'],
    [-0.0015, true, '−1.5 µm', '−0.0000591 in'],
    [-0.0015, false, '1.5 µm', '0.0000591 in'],
    [0, true, '0 µm', '0 in'],
    [0.123456, false, '123 µm', '0.00486 in'],
    [1.2, false, '1200 µm', '0.0472 in'],
    [1e-9, false, '0.000001 µm', '0.000000000039 in'],
  ])('%s, signed %s', (mm, signed, text, inch) => {
    expect(trace(mm, signed)).toMatchObject({ text, inch })
  })

  it('never prints an exponent, and stays within half a unit of three figures', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 50, noNaN: true }), (mm) => {
        const { text } = trace(mm)
        expect(text).toMatch(/^\d+(\.\d+)? µm$/)
        expect(Math.abs(Number.parseFloat(text) / 1000 - mm)).toBeLessThanOrEqual(mm * 0.005001)
      }),
    )
  })
})

describe('amount and pitch', () => {
  it.each([
    [29.5, '°', 1, '29.5°'],
    [-27.84, '°', 1, '−27.8°'],
    [-0.01, '°', 1, '0°'],
    [92.38, ' %', 0, '92 %'],
  ])('%s%s', (value, unit, places, text) => {
    expect(amount(value, unit, places)).toEqual({ value, text })
  })

  it('prints a pitch both ways and exactly', () => {
    expect(pitchFigure({ n: '127', d: '130' }, false)).toEqual({
      mm: 127 / 130,
      exact: { n: '127', d: '130' },
      text: '≈ 0.976923 mm',
      tpi: '26 tpi',
    })
    expect(pitchFigure({ n: '3', d: '2' }, true).text).toBe('≈ 1.5 mm')
  })
})
