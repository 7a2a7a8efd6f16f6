import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findThread } from './find.js'
import { series, seriesNames } from './series.js'

describe('names as people write them', () => {
  it.each([
    ['M6', 'M6', '1 mm', 6],
    ['m 6', 'M6', '1 mm', 6],
    ['M6x1', 'M6', '1 mm', 6],
    ['M2,5', 'M2.5', '0.45 mm', 2.5],
    ['M10x1', 'M10x1', '1 mm', 10],
    ['m10 × 1.0', 'M10x1', '1 mm', 10],
    ['M10-1.25', 'M10x1.25', '1.25 mm', 10],
    ['M10 X 1.5 mm', 'M10', '1.5 mm', 10],
    ['1/4 BSF', '1/4 BSF', '26 tpi', 6.35],
    ['bsf 1/4', '1/4 BSF', '26 tpi', 6.35],
    ['1/4"-26 BSF', '1/4 BSF', '26 tpi', 6.35],
    ['1/4 Whit', '1/4 BSW', '20 tpi', 6.35],
    ['1 1/2 BSW', '1 1/2 BSW', '6 tpi', 38.1],
    ['1-1/2 whitworth', '1 1/2 BSW', '6 tpi', 38.1],
    ['1½ BSW', '1 1/2 BSW', '6 tpi', 38.1],
    ['¼ BSW', '1/4 BSW', '20 tpi', 6.35],
    ['1/4-20 UNC', '1/4-20 UNC', '20 tpi', 6.35],
    ['1/4 UNC', '1/4-20 UNC', '20 tpi', 6.35],
    ['.25-20 UNC', '1/4-20 UNC', '20 tpi', 6.35],
    ['UNF 1/4 - 28', '1/4-28 UNF', '28 tpi', 6.35],
    ['#8-32 UNC', '8-32 UNC', '32 tpi', 4.1656],
    ['No. 8 UNC', '8-32 UNC', '32 tpi', 4.1656],
    ['2-4 1/2 UNC', '2-4.5 UNC', '4.5 tpi', 50.8],
    ['2 1/2-4 UNC', '2 1/2-4 UNC', '4 tpi', 63.5],
    ['BA 4', '4 BA', '0.66 mm', 3.6],
    ['4BA', '4 BA', '0.66 mm', 3.6],
    ['No 4 ba', '4 BA', '0.66 mm', 3.6],
    ['B.A. 4', '4 BA', '0.66 mm', 3.6],
    ['No. 4 B.A.', '4 BA', '0.66 mm', 3.6],
    ['1/4 B.S.F.', '1/4 BSF', '26 tpi', 6.35],
    ['1/4 U.N.C.', '1/4-20 UNC', '20 tpi', 6.35],
    ['5/16 ME 32', '5/16 ME 32', '32 tpi', 7.9375],
    ['ME 5/16 x 40', '5/16 ME 40', '40 tpi', 7.9375],
    ['G 1/4', 'G 1/4', '19 tpi', 13.157],
    ['1/4 BSP', 'G 1/4', '19 tpi', 13.157],
    ['Tr 8x1.5', 'Tr8x1.5', '1.5 mm', 8],
    ['TR20X4', 'Tr20x4', '4 mm', 20],
    ['1/2 Acme', '1/2-10 Acme', '10 tpi', 12.7],
    ['Löwenherz 3', 'Loewenherz 3', '0.5 mm', 3],
    ['loewenherz 1.2 mm', 'Loewenherz 1.2', '0.25 mm', 1.2],
  ])('%s is %s', (asked, name, pitch, major) => {
    expect(findThread(asked)).toMatchObject({ name, pitch, major })
  })

  it('means the screw number where a number could be inches', () => {
    expect(findThread('4 UNC')?.name).toBe('4-40 UNC')
    expect(findThread('4-40 UNC')?.name).toBe('4-40 UNC')
  })

  it.each([
    '',
    ' ',
    '6',
    'M',
    'M6.1',
    'M6x1.1',
    'M15',
    'Tr8',
    '5/16 ME',
    '5/16 ME 33',
    'BA',
    '26 BA',
    '-1 BA',
    '1/4',
    '1/4-20',
    '1/4 UNX',
    '1/4-21 UNC',
    'M6 6g',
    'M6!',
    'BA.5',
    '..5 Acme',
    'M6 . 1',
    '1/0 BSF',
    'toString 4',
    '__proto__',
    'x'.repeat(61),
  ])('has nothing for “%s”', (name) => {
    // '-1 BA' reads as 1 BA, since a dash parts words.
    expect(findThread(name)?.name ?? null).toBe(name === '-1 BA' ? '1 BA' : null)
  })

  it.each([undefined, null, 6, {}, ['M6']])('has nothing for %s, which is no text', (name) => {
    expect(findThread(name as never)).toBeNull()
  })
})

describe('laws', () => {
  const all = () => seriesNames().flatMap(series)
  it('finds every thread by its own name', () => {
    for (const thread of all()) expect(findThread(thread.name)).toEqual(thread)
  })
  it('does not mind capitals and spaces', () => {
    fc.assert(
      fc.property(fc.constantFrom(...all()), fc.boolean(), fc.boolean(), (thread, upper, wide) => {
        const cased = upper ? thread.name.toUpperCase() : thread.name.toLowerCase()
        expect(findThread(wide ? `  ${cased.replaceAll(' ', '   ')} ` : cased)).toEqual(thread)
      }),
    )
  })
  it('hands out threads that nobody can change', () => {
    for (const thread of all()) expect(Object.isFrozen(thread)).toBe(true)
  })
  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'M10x×/ .,-BAUNCFTrG½¼⁄\n\0é') })),
        (name) => {
          const found = findThread(name)
          expect(found === null || all().includes(found)).toBe(true)
        },
      ),
    )
  })
})
