import { expect, it } from 'vitest'
import { number, withUnit } from './read-text.js'

it.each<[string, number]>([
  ['20', 20],
  [' 14.5 ', 14.5],
  ['.5', 0.5],
  ['5.', 5],
  ['-0.25', -0.25],
  ['1e-9', 1e-9],
])('reads “%s” as a number', (text, value) => {
  expect(number(text)).toBe(value)
})

it.each([
  '',
  ' ',
  '0x10',
  '0b11',
  '0o7',
  'Infinity',
  '1,5',
  '1 5',
  '٣',
  '20 mm',
  '.',
  'e5',
  `1${'0'.repeat(60_000)}/3`,
])('does not read “%s”', (text) => {
  expect(number(text)).toBeNaN()
})

it.each([
  [' 11.5', '11.5 mm'],
  ['254/195', '254/195 mm'],
  ['1 1/8', '1 1/8 mm'],
  ['26 tpi', '26 tpi'],
  ['1/8"', '1/8"'],
  ['1/', '1/'],
  ['', ''],
])('gives the pitch “%s” its unit', (pitch, full) => {
  expect(withUnit(pitch)).toBe(full)
})
