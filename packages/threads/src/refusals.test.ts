import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leaves, spoil } from '../../../test-data/spoil.js'
import * as threads from './index.js'
import { told } from './testing/told.js'

/** Every function that takes one question, with a question that it answers. */
const questions: [keyof typeof threads, Record<string, unknown>][] = [
  ['threadDimensions', { form: 'metric', pitch: '1', starts: 2, major: 6 }],
  ['wireSizes', { form: 'metric', pitch: '1' }],
  ['overWires', { form: 'metric', pitch: '1', effective: 20, wire: 0.577, starts: 1, leadCorrection: true }],
  ['effectiveFromWires', { form: 'metric', pitch: '1', over: 20, wire: 0.577, starts: 1, leadCorrection: true }],
  ['leadCorrection', { form: 'metric', pitch: '1', effective: 20, wire: 0.577, starts: 1 }],
  ['nearestWire', { form: 'metric', pitch: '1', wires: [0.5, 0.6] }],
  ['recogniseThread', { major: { value: 6, doubt: 0.1 }, pitch: { value: '1', doubt: 0.1 } }],
  ['isoLimits', { diameter: 6, pitch: 1, class: '6g' }],
  ['baLimits', { number: 4, class: 'close', nut: false }],
  ['leadErrorEffect', { form: 'metric', errorPpm: 300, engagement: 6 }],
  ['leadErrorVerdict', { form: 'metric', errorPpm: 300, engagement: 6, tolerance: 0.1 }],
  ['leadTolerance', { form: 'metric', allowance: 0.02, engagement: 6 }],
  ['leadToleranceOfClass', { diameter: 6, pitch: 1, class: '6g', engagement: 6, share: 0.5 }],
  ['chasingDial', { leadscrew: '1', lead: '1.5', dial: { travel: '12', lines: 4 } }],
  ['scratchPass', { wanted: '1', cut: '1.001', crests: 11 }],
  ['threadCut', { form: 'metric', pitch: '1', major: 6, crest: 'sharp', nose: { radius: 0.1 } }],
  ['infeed', { form: 'metric', depth: 0.6, compound: 29 }],
  [
    'passes',
    {
      form: 'metric',
      pitch: '1',
      depth: 0.6,
      passes: 5,
      springPasses: 1,
      compound: 29,
      nose: { flat: 0.1 },
      nut: true,
    },
  ],
  ['runOutGroove', { lead: '1', tool: 1, speed: 60, reaction: 0.4 }],
  ['threadingSpeeds', { lead: '1', tool: 1, groove: 3, reaction: 0.4, speeds: [60] }],
  ['directionOfTravel', { hand: 'left', spindle: 'reverse' }],
  ['indexStarts', { pitch: '1', starts: 2, leadscrew: '1', gear: { teeth: 40 } }],
  ['tappingDrill', { form: 'metric', pitch: '1', major: 6, engagement: 0.8 }],
  ['homeMadeTap', { form: 'metric', pitch: '1', major: 6, tolerance: 0.1, flutes: 3 }],
]
const functions: Record<string, unknown> = { ...threads }
const call = (name: string, q: unknown): unknown => (functions[name] as (q: unknown) => unknown)(q)

/** Finds what JSON would change or drop: NaN, Infinity, undefined, functions. */
const plain = (x: unknown): boolean => {
  if (typeof x === 'number') return Number.isFinite(x)
  if (x === null || typeof x === 'string' || typeof x === 'boolean') return true
  return typeof x === 'object' && Object.values(x).every(plain)
}

const junk = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    '',
    '0',
    '-1',
    'NaN',
    'constructor',
    Number.NaN,
    Number.POSITIVE_INFINITY,
    0,
    -1,
    1e-300,
    1e300,
  ),
  fc.constantFrom<unknown>(
    [],
    {},
    [1],
    { value: 1 },
    { n: '1', d: '0' },
    { n: 1, d: 2 },
    true,
    () => 1,
    Symbol('s'),
    3n,
  ),
  fc.double(),
  fc.string(),
)

describe('junk', () => {
  it('is answered with plain data, or refused by the one error, with a path and a sentence for each problem', () => {
    fc.assert(
      fc.property(fc.constantFrom(...questions), fc.nat(), junk, ([name, good], which, bad) => {
        const keys = Object.keys(good)
        try {
          expect(plain(call(name, { ...good, [keys[which % keys.length]]: bad }))).toBe(true)
        } catch (error) {
          expect(error).toBeInstanceOf(InputError)
          for (const { path, code, message } of (error as InputError).problems) {
            expect(typeof path).toBe('string')
            expect(code).toMatch(/^[a-z-]+$/)
            expect(message).toMatch(/^[A-Z“].*\.$/s)
            expect(message.replace(/^“.*?”/s, '')).not.toMatch(/NaN|Infinity|undefined|null\b/)
          }
        }
      }),
      { numRuns: 500 },
    )
  })

  it.each(questions)(
    '%s answers its question with data that survives JSON, and changes nothing in it',
    (name, good) => {
      const before = structuredClone(good)
      const answer = call(name, good)
      expect(plain(answer)).toBe(true)
      expect(JSON.parse(JSON.stringify(answer))).toEqual(answer)
      expect(good).toEqual(before)
      expect(call(name, good)).toEqual(answer)
    },
  )

  it('has a problem at every value that means nothing, however many there are, and nowhere else', () => {
    const own = { angle: 60, crest: 0.1, root: 0.1 }
    const asked = questions.flatMap(([name, good]) =>
      ['form' in good ? { ...good, form: own } : good, good].map((q) => [name, q] as const),
    )
    const place = fc.constantFrom(...asked).chain(([name, good]) => {
      const paths = leaves(good)
      return fc.tuple(fc.constant(name), fc.constant(good), fc.subarray(paths, { minLength: 1 }))
    })
    fc.assert(
      fc.property(place, fc.constantFrom(Number.NaN, 'x', -1e9), ([name, good, paths], bad) => {
        const named = told(() => call(name, spoil(good, paths, bad))).map(({ path }) => path)
        expect([...new Set(named)].sort(), `${name} ${paths}`).toEqual([...paths].sort())
        expect(named).toHaveLength(paths.length)
      }),
      { numRuns: 1000 },
    )
  })

  it.each<[string, () => unknown, string[]]>([
    [
      'a pitch that is not published, beside a class that is none',
      () => threads.isoLimits({ diameter: 6, pitch: 0.9, class: 'zz' }),
      ['class', 'pitch'],
    ],
    [
      'no core, beside starts',
      () => threads.threadDimensions({ form: 'ba', pitch: '1', major: 0.5, starts: 0 }),
      ['starts', 'major'],
    ],
    [
      'a wire too thick, beside a lead angle past the limit and an effective diameter without a core',
      () => threads.overWires({ form: 'metric', pitch: '1', wire: 5, effective: 0.5, starts: 3, leadCorrection: true }),
      ['wire', 'effective', 'leadCorrection'],
    ],
    [
      'nothing of the wire where no wire fits the form',
      () => threads.overWires({ form: { angle: 140, crest: 0.49, root: 0.49 }, pitch: '1', wire: 50, effective: 20 }),
      ['form'],
    ],
    [
      'a hole past the nominal diameter, not one past a diameter that is refused',
      () => threads.tappingDrill({ form: 'metric', pitch: '1', major: 0.9, hole: 5 }),
      ['major', 'hole'],
    ],
    [
      'a hole past a diameter that is refused',
      () => threads.tappingDrill({ form: 'metric', pitch: '1', major: -6, hole: 5 }),
      ['major'],
    ],
  ])('names %s', (_, ask, paths) => {
    expect(told(ask).map(({ path }) => path)).toEqual(paths)
  })

  it.each(questions)('%s refuses what is no question', (name) => {
    for (const q of [undefined, null, 1, 'x']) expect(() => call(name, q)).toThrow(InputError)
  })

  it('covers every function that is exported', () => {
    const other = ['findThread', 'forms', 'recognitionVerdict', 'series', 'seriesNames']
    expect(Object.keys(threads).sort()).toEqual([...questions.map(([name]) => name), ...other].sort())
  })
})
