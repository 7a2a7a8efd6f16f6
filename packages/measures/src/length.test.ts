import { expect, test } from 'vitest'
import { parseLength } from './length.js'
import { InputError } from './problems.js'
import { toFractionText } from './rational.js'

test.each([
  ['0.005 mm', '1/200'],
  ['10', '10'],
  ['3/8 in', '381/40'],
  ['4"', '508/5'],
  ['2 thou', '127/2500'],
  ['5 µm', '1/200'],
  ['5 μm', '1/200'],
  ['5㎛', '1/200'],
  ['5 um', '1/200'],
  ['12 microns', '3/250'],
  ['1 micron', '1/1000'],
  ['1.5 millimeters', '3/2'],
  ['0,5 mm', '1/2'],
  ['100000 mm', '100000'],
  ['0.000001', '1/1000000'],
])('%j is %s mm', (text, mm) => {
  const length = parseLength(text)
  expect(length.text).toBe(text)
  expect(toFractionText(length.mm)).toBe(mm)
})

test.each(['26 tpi', '1 module', '0.0000009', '100001', '0 in', '1 m'])('%j is refused', (text) => {
  expect(() => parseLength(text)).toThrow(InputError)
})
