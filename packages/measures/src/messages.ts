/** All sentences of this package, by code. They say what was expected, with an example that would be taken. */
const expected = {
  pitch: 'a pitch such as 0.7 mm, 26 tpi, 4 1/2 tpi, 1/8 in, 0.5 module or 32 dp',
  length: 'a length such as 0.005 mm, 3/8 in or 4"',
  ratio: 'a ratio such as 127/120, 0.5 or 2',
}
export type Expected = keyof typeof expected

const reasons = {
  missing: 'nothing was given',
  'not-text': 'this is not text',
  'too-long': 'the text is too long to be a measure',
  'not-a-number': 'this cannot be read as a number',
  'ambiguous-comma': 'the comma may part thousands or decimals: write a point',
  'zero-denominator': 'a fraction with 0 below the line is no number',
  'improper-mixed': 'the fraction after the whole number must be less than one',
  negative: 'it must be more than zero, without a sign',
  exponent: 'write the number in full, without an exponent',
  unit: 'the unit is not known here',
  zero: 'it must be more than zero',
  range: 'it is out of range',
} as const
export type Reason = keyof typeof reasons

const shown = (given: unknown): string => {
  const text = String(typeof given === 'object' ? typeof given : given)
  const signs = [...text]
  return signs.length > 40 ? `${signs.slice(0, 40).join('')}…` : text
}

export const sentence = (what: Expected, reason: Reason, given: unknown, detail = ''): string =>
  `“${shown(given)}”: ${reasons[reason]}${detail ? ` (${detail})` : ''}; expected ${expected[what]}.`
