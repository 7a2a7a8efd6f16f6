import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { problemsOf } from '../../../bench/plain/in-brief.js'
import type { GearStock } from './contract.js'
import { checkWorkshop, parseBox } from './index.js'

describe('lines that are taken', () => {
  it.each<[line: string, gears: GearStock[]]>([
    ['20x2 24 30 127', [{ teeth: 20, count: 2 }, { teeth: 24 }, { teeth: 30 }, { teeth: 127 }]],
    ['20', [{ teeth: 20 }]],
    ['', []],
    ['  \n\t ', []],
    ['20, 24;30\n36', [{ teeth: 20 }, { teeth: 24 }, { teeth: 30 }, { teeth: 36 }]],
    [',20,,24,', [{ teeth: 20 }, { teeth: 24 }]],
    ['20 x 2 24', [{ teeth: 20, count: 2 }, { teeth: 24 }]],
    [
      '20X2 24×3 30*2',
      [
        { teeth: 20, count: 2 },
        { teeth: 24, count: 3 },
        { teeth: 30, count: 2 },
      ],
    ],
    ['20x1', [{ teeth: 20 }]],
    ['30 20 30', [{ teeth: 30, count: 2 }, { teeth: 20 }]],
    ['20x2 20x3 20', [{ teeth: 20, count: 6 }]],
    ['6 2000', [{ teeth: 6 }, { teeth: 2000 }]],
    ['020', [{ teeth: 20 }]],
    ['20x500', [{ teeth: 20, count: 500 }]],
  ])('%j', (line, gears) => expect(parseBox(line)).toEqual(gears))
})

describe('lines that are refused', () => {
  it.each<[line: unknown, problems: string[]]>([
    ['20 twenty 30', ['gears[1] box-line']],
    ['20x', ['gears[0] box-line']],
    ['x2', ['gears[0] box-line']],
    ['20x2x3', ['gears[0] box-line']],
    ['20.5', ['gears[0] box-line']],
    ['-20', ['gears[0] box-line']],
    ['2e1', ['gears[0] box-line']],
    ['20-30', ['gears[0] box-line']],
    ['0x14', ['gears[0].teeth whole']],
    ['5 30', ['gears[0].teeth whole']],
    ['2001', ['gears[0].teeth whole']],
    ['99999999', ['gears[0] box-line']],
    ['20x0', ['gears[0].count whole']],
    ['20x501', ['gears[0].count whole']],
    ['20x300 30x201', ['gears too-many-gears']],
    ['5x0', ['gears[0].teeth whole', 'gears[0].count whole']],
    ['a 20 b 5', ['gears[0] box-line', 'gears[2] box-line', 'gears[3].teeth whole']],
    ['20 '.repeat(4000), ['gears too-long']],
    [null, ['gears text']],
    [20, ['gears text']],
    [['20'], ['gears text']],
  ])('%j', (line, problems) => expect(problemsOf(() => parseBox(line as string))).toEqual(problems))

  it('show the word, shortened', () => {
    expect(() => parseBox(`20 ${'q'.repeat(100)}`)).toThrow(/“q{40}” is no gear/)
  })
})

it('a box is read back as it was written', () => {
  const stock = fc.uniqueArray(
    fc.record({ teeth: fc.integer({ min: 6, max: 2000 }), count: fc.integer({ min: 1, max: 20 }) }),
    { selector: (gear) => gear.teeth, minLength: 1, maxLength: 20 },
  )
  const written = fc.record({
    times: fc.constantFrom('x', 'X', '×', '*', ' x '),
    between: fc.constantFrom(' ', ', ', '; ', '\n'),
  })
  fc.assert(
    fc.property(stock, written, (gears, { times, between }) => {
      const line = gears.map(({ teeth, count }) => (count === 1 ? teeth : `${teeth}${times}${count}`)).join(between)
      const box = gears.map(({ teeth, count }) => (count === 1 ? { teeth } : { teeth, count }))
      expect(parseBox(line)).toEqual(box)
      expect(checkWorkshop({ lathe: { leadscrew: { pitch: '1' } }, gears: parseBox(line) }).ok).toBe(true)
    }),
  )
})

it('any text gives a box or a WorkshopError', () => {
  const pieces = fc.constantFrom(
    '20',
    '5',
    '0',
    'x',
    '×',
    '*',
    ' ',
    ',',
    ';',
    '\n',
    '-',
    '.',
    'a',
    '\u0000',
    '\u2028',
    '²',
  )
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 15 }), (some) => {
      try {
        for (const { teeth, count = 1 } of parseBox(some.join(''))) {
          expect(teeth >= 6 && teeth <= 2000 && count >= 1 && count <= 500).toBe(true)
        }
      } catch (error) {
        expect(error).toMatchObject({ name: 'WorkshopError', problems: expect.any(Array) })
      }
    }),
    { numRuns: 1000 },
  )
})
