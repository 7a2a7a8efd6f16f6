import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseLength } from './length.js'
import { parsePitch } from './pitch.js'
import { InputError } from './problems.js'
import { parseRatio } from './ratio.js'
import { compare, rational } from './rational.js'

function problemOf(read: () => unknown) {
  try {
    read()
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    expect((error as InputError).problems).toHaveLength(1)
    return (error as InputError).problems[0]
  }
  throw new Error('it was taken')
}

describe('junk is refused with a code and a sentence', () => {
  test.each<[given: unknown, code: string]>([
    [undefined, 'missing'],
    [null, 'missing'],
    ['', 'missing'],
    ['  \t\u00a0', 'missing'],
    [{}, 'not-text'],
    [[1], 'not-text'],
    [true, 'not-text'],
    [Number.NaN, 'not-a-number'],
    [Number.POSITIVE_INFINITY, 'not-a-number'],
    [-1, 'negative'],
    [0, 'zero'],
    [-0, 'zero'],
    [1e-9, 'range'],
    [1e300, 'range'],
    ['0', 'zero'],
    ['0.000', 'zero'],
    [',0', 'zero'],
    ['0 tpi', 'zero'],
    ['0/8 in', 'zero'],
    ['0 dp', 'zero'],
    ['0 module', 'zero'],
    ['↉ mm', 'zero'],
    ['-1', 'negative'],
    ['−1 mm', 'negative'],
    ['-1/2', 'negative'],
    ['1/0', 'zero-denominator'],
    ['1/0.0', 'zero-denominator'],
    ['4 1/0 tpi', 'zero-denominator'],
    ['1e3', 'exponent'],
    ['1.5E-3 mm', 'exponent'],
    ['+2e4', 'exponent'],
    ['-1e3', 'exponent'],
    ['1 e +3', 'exponent'],
    ['x1e3', 'not-a-number'],
    ['x 2 mm', 'not-a-number'],
    ['1,250', 'ambiguous-comma'],
    ['12,345 mm', 'ambiguous-comma'],
    ['1/1,250', 'ambiguous-comma'],
    ['1.250,5', 'not-a-number'],
    ['1,250.5', 'not-a-number'],
    ['1,2,3', 'not-a-number'],
    ['1.2.3', 'not-a-number'],
    ['1 250 mm', 'not-a-number'],
    ['1 250/4 mm', 'improper-mixed'],
    ['4 2/2 tpi', 'improper-mixed'],
    ['1/2/3', 'not-a-number'],
    ['4 1/2/3', 'not-a-number'],
    ['1/', 'not-a-number'],
    ['/8 in', 'not-a-number'],
    ['½½', 'not-a-number'],
    ['0.5½', 'not-a-number'],
    ['.', 'not-a-number'],
    [',', 'not-a-number'],
    ['mm', 'not-a-number'],
    ['"', 'not-a-number'],
    ['abc', 'not-a-number'],
    ['NaN', 'not-a-number'],
    ['Infinity', 'not-a-number'],
    ['0x10', 'not-a-number'],
    ['4² mm', 'not-a-number'],
    ['4₂ mm', 'not-a-number'],
    ['① mm', 'not-a-number'],
    ['٣ mm', 'not-a-number'],
    ['1\u200b.5', 'not-a-number'],
    ['M10x1', 'not-a-number'],
    ['1 in / 26', 'not-a-number'],
    ["3/8'", 'not-a-number'],
    ['26 tip', 'unit'],
    ['1.5 m', 'unit'],
    ['M6', 'unit'],
    ['5 __proto__', 'not-a-number'],
    ['5 constructor', 'unit'],
    ['toString 5', 'unit'],
    ['0.0009', 'range'],
    ['1000.001', 'range'],
    ['30000 tpi', 'range'],
    ['0.02 tpi', 'range'],
    ['9'.repeat(60), 'range'],
    ['9'.repeat(61), 'too-long'],
  ])('%j is %s', (given, code) => {
    const problem = problemOf(() => parsePitch(given as string, 'wanted.pitch'))
    expect(problem).toMatchObject({ path: 'wanted.pitch', code })
    expect(problem.message).toMatch(
      /^“.*”: .+; expected a pitch such as 0\.7 mm, 26 tpi, 4 1\/2 tpi, 1\/8 in, 0\.5 module or 32 dp\.$/s,
    )
    expect(problem.message.length).toBeLessThan(260)
  })

  test('even what has no JSON, or is very long', () => {
    const read = (given: unknown) => problemOf(() => parsePitch(given as string)).code
    expect([5n, Symbol('x'), () => 5, ' '.repeat(1_000_000)].map(read)).toEqual([
      'not-text',
      'not-text',
      'not-text',
      'too-long',
    ])
  })

  test('a long text is shown shortened, never through the middle of a sign', () => {
    expect(problemOf(() => parsePitch('𝟙'.repeat(50))).message).toMatch(/^“𝟙{40}…”/u)
  })

  test('a code is told by its sentence', () => {
    expect(problemOf(() => parsePitch('1,250 mm')).message).toContain('the comma may part thousands or decimals')
    expect(problemOf(() => parsePitch('7 furlongs')).message).toContain('the unit is not known here (furlongs)')
    expect(problemOf(() => parseLength('0')).message).toContain('must be more than zero; expected a length')
    expect(problemOf(() => parseRatio('2 mm')).message).toContain('(mm); expected a ratio')
    expect(problemOf(() => parsePitch(null as never)).message).toContain('“”: nothing was given')
  })

  test('what is out of range is told the range', () => {
    expect(problemOf(() => parsePitch('1001')).message).toContain('(0.001 mm to 1000 mm); expected a pitch')
    expect(problemOf(() => parseLength('100001')).message).toContain('(1 nm to 100 m); expected a length')
    expect(problemOf(() => parseRatio('1000001')).message).toContain('(1/1000000 to 1000000); expected a ratio')
  })

  test('what was given is shown: text up to 40 signs whole, an object by its type alone', () => {
    const shown = (given: unknown) => /^“(.*)”/s.exec(problemOf(() => parsePitch(given as string)).message)?.[1]
    expect([true, -1, {}, [3], 'a'.repeat(40)].map(shown)).toEqual(['true', '-1', 'object', 'object', 'a'.repeat(40)])
  })

  test("without a path the problem is the whole input's", () => {
    for (const parse of [parsePitch, parseLength, parseRatio]) expect(problemOf(() => parse('soon')).path).toBe('')
  })
})

describe('hostile text', () => {
  const parsers = { parsePitch, parseLength, parseRatio }
  const pieces = fc.constantFrom(
    ...[
      '0',
      '1',
      '9',
      '25.4',
      '.',
      ',',
      '/',
      ' ',
      '-',
      '−',
      '+',
      'e',
      'tpi',
      'mm',
      'in',
      '"',
      '″',
      'dp',
      'module',
      '½',
    ],
    ...['⅟', '↉', '\u0000', '\u200b', '\ud800', '__proto__', '²', '٣', 'µ', 'Infinity', '\n', "'", '%'],
  )
  const text = fc.oneof(
    fc.array(pieces, { maxLength: 12 }).map((all) => all.join('')),
    fc.string({ unit: 'binary', maxLength: 80 }),
  )

  test.each(Object.entries(parsers))('%s gives an exact value above zero or an InputError', (_, parse) => {
    fc.assert(
      fc.property(text, (given) => {
        let read: ReturnType<typeof parse>
        try {
          read = parse(given)
        } catch (error) {
          expect(error).toBeInstanceOf(InputError)
          return
        }
        const value = 'mm' in read ? read.mm : read
        expect(value.n).toMatch(/^[1-9]\d*$/)
        expect(value.d).toMatch(/^[1-9]\d*$/)
        expect(compare(value, rational(0))).toBeGreaterThan(0)
        expect(JSON.parse(JSON.stringify(read))).toEqual(read)
      }),
      { numRuns: 2000 },
    )
  })

  test('things that are no text', () => {
    fc.assert(
      fc.property(fc.anything(), (given) => {
        fc.pre(typeof given !== 'string' && !(typeof given === 'number' && given > 0 && Number.isFinite(given)))
        for (const parse of Object.values(parsers)) expect(() => parse(given as string)).toThrow(InputError)
      }),
    )
  })
})
