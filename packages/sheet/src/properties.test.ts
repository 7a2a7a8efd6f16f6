import { findTrains, type Lathe, type ThreadWanted } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { sheetLines } from './lines.js'
import { setUpSheet } from './set-up-sheet.js'
import { plain, readDemo } from './testing/demo.js'
import { printed, spoilt } from './testing/leaves.js'
import type { ThreadWork } from './thread-work.js'

const { jobs, workshop } = readDemo(demo)

const pitches = ['1 mm', '1.5 mm', '2 mm', '3 mm', '0.5 module', '16 tpi', '1.501 mm', '0.75 mm']
const lathes: fc.Arbitrary<Partial<Lathe>> = fc.record(
  {
    halfNuts: fc.boolean(),
    dial: fc.constantFrom({ travel: '24 mm', lines: 8 }, { travel: '3 mm', lines: 1 }),
    screwedNose: fc.boolean(),
    speeds: fc.uniqueArray(fc.integer({ min: 5, max: 2000 }), { maxLength: 6 }),
    drives: fc.constantFrom<NonNullable<Lathe['drives']>>(
      [{ name: 'belt', ratio: 1, belt: 'plain' }],
      [{ ratio: '1/2' }, { ratio: 1, reverses: true }],
    ),
  },
  { requiredKeys: [] },
)
const wanteds: fc.Arbitrary<ThreadWanted> = fc.record({
  pitch: fc.constantFrom(...pitches),
  starts: fc.constantFrom(1, 1, 2, 3),
  hand: fc.constantFrom('right' as const, 'left' as const),
  tolerance: fc.constantFrom({ ppm: 50_000 }, { error: '0.02 mm', over: '1 in' }),
})
const diameter = fc.oneof(
  fc.record({ major: fc.integer({ min: 10, max: 60 }) }),
  fc.record({ effective: fc.double({ min: 10, max: 60, noNaN: true }) }),
)
const works: fc.Arbitrary<ThreadWork> = fc
  .tuple(
    diameter,
    fc.record(
      {
        cut: fc.constantFrom('screw' as const, 'nut' as const),
        engagement: fc.integer({ min: 1, max: 40 }),
        allowance: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
        compound: fc.integer({ min: 0, max: 14 }),
        groove: fc.integer({ min: 11, max: 30 }),
        springPasses: fc.integer({ min: 0, max: 3 }),
        passes: fc.integer({ min: 1, max: 20 }),
        crests: fc.integer({ min: 2, max: 40 }),
        mate: fc.record({ part: fc.boolean(), tap: fc.constantFrom(true, false, { flutes: 2 as const }) }),
      },
      { requiredKeys: [] },
    ),
    fc.constantFrom<ThreadWork['form']>('metric', 'whitworth', 'ba', 'trapezoidal', 'acme', 'loewenherz', 'sharp-v', {
      angle: 50,
      crest: 0.1,
      root: 0.15,
    }),
  )
  .map(([one, more, form]) => ({ form, ...one, ...more }))

const sheets = fc.tuple(lathes, wanteds, works, fc.boolean()).map(([lathe, wanted, work, bare]) => {
  const shop = { ...plain(lathe), wires: workshop.wires! }
  const { trains, closest } = findTrains(shop, wanted, { limit: 1 })
  const train = trains[0] ?? closest
  return train && setUpSheet(shop, wanted, train, bare ? null : work, { mounted: [{ teeth: 40 }] })
})

describe('any sheet', () => {
  it('is plain data without NaN, infinity or undefined, and all of it is in its print, in mm and inches', () => {
    fc.assert(
      fc.property(sheets, (sheet) => {
        fc.pre(sheet !== null)
        expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet)
        expect(structuredClone(sheet)).toEqual(sheet)
        expect(spoilt(sheet)).toEqual([])
        const lines = sheetLines(sheet!)
        for (const { text, other } of printed(sheet))
          expect(
            lines.some((line) => line.includes(other ? `${text} (${other})` : text)),
            text,
          ).toBe(true)
      }),
    )
  })

  it('says nothing twice but what checks and cautions share', () => {
    for (const { wanted, train, work } of jobs) {
      const sheet = setUpSheet(workshop, wanted, train, work)
      const lines = sheetLines({ ...sheet, cautions: [] }).filter(Boolean)
      expect(new Set(lines).size).toBe(lines.length)
    }
  })
})
