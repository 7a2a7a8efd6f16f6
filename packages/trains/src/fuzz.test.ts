import { parseLength, parsePitch, parseRatio } from '@trainwright/measures'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { share, texts, trees, values } from '../../../test-data/fuzz.js'
import { checkWorkshop } from './check-workshop.js'
import type { FindOptions, GearStock, Lathe, SetUp, ThreadWanted, Workshop } from './contract.js'
import { findTrains } from './find-trains.js'
import { layOut } from './lay-out.js'
import { parseBox } from './parse-box.js'
import { leadOf } from './set-up.js'
import { WorkshopError } from './workshop-error.js'

/*
 * Whatever comes in: one WorkshopError with all its problems, or an answer that agrees with what was given, as a second
 * reader understands it.
 */

/** What was answered; null when it was refused as the contract says. */
function taken<T>(ask: () => T): T | null {
  try {
    return ask()
  } catch (error) {
    if (!(error instanceof WorkshopError)) throw error
    expect(error.problems.length).toBeGreaterThan(0)
    for (const { path, code, message } of error.problems) {
      expect([typeof path, typeof code, typeof message]).toEqual(['string', 'string', 'string'])
      expect(message.length).toBeLessThan(1000)
    }
    return null
  }
}

/** Every leaf of what was read stands at its place in what was given; nothing is made up, or changed on the way. */
function strays(read: unknown, given: unknown, path = ''): string[] {
  if (typeof read !== 'object' || read === null) return read === given ? [] : [path]
  if (Array.isArray(read) && (!Array.isArray(given) || read.length !== given.length)) return [path]
  return Object.entries(read).flatMap(([key, part]) =>
    Object.hasOwn(given as object, key)
      ? strays(part, (given as Record<string, unknown>)[key], `${path}.${key}`)
      : [path],
  )
}
/** Numbers that are none, and what is undefined. */
function odd(x: unknown, path = ''): string[] {
  if (typeof x === 'number') return Number.isFinite(x) ? [] : [path]
  if (x === undefined) return [path]
  return typeof x === 'object' && x !== null
    ? Object.entries(x).flatMap(([key, part]) => odd(part, `${path}.${key}`))
    : []
}

const line = fc
  .array(
    fc.tuple(
      fc.integer({ min: 6, max: 127 }),
      fc.constantFrom('', 'x2', ' x 3', '×2', '*4', 'X1'),
      fc.constantFrom(' ', ', ', ';', '\n'),
    ),
    { maxLength: 12 },
  )
  .map((gears) => gears.flat().join(''))

/** The gears of a line by hand: every run of digits is a tooth count, unless a sign for times stands before it. */
function gearsOf(text: string): Map<number, number> {
  const gears = new Map<number, number>()
  let [teeth, count, times, number] = [0, 1, false, '']
  const put = () => {
    if (teeth) gears.set(teeth, (gears.get(teeth) ?? 0) + count)
    ;[teeth, count] = [0, 1]
  }
  for (const c of `${text} `) {
    if (c >= '0' && c <= '9') {
      number += c
      continue
    }
    if (number && times) count = Number(number)
    else if (number) {
      put()
      teeth = Number(number)
    }
    if (number) times = false
    number = ''
    if ('xX×*'.includes(c)) times = true
    else if (c.trim() !== '' && !',;'.includes(c)) throw new Error(`${JSON.stringify(c)} was taken`)
  }
  put()
  return gears
}

test('a line of gears is refused, or read as a second reader reads it', () => {
  fc.assert(
    fc.property(texts(line), (text) => {
      const gears = taken(() => parseBox(text))
      if (!gears) return
      expect(new Map(gears.map(({ teeth, count = 1 }) => [teeth, count]))).toEqual(gearsOf(text))
      expect(parseBox(gears.map(({ teeth, count = 1 }) => `${teeth}x${count}`).join(' '))).toEqual(gears)
    }),
    share(14),
  )
  fc.assert(
    fc.property(values, (given) => {
      if (typeof given !== 'string') expect(taken(() => parseBox(given as string))).toBeNull()
    }),
    share(1),
  )
})

const lathes: Lathe[] = [
  demo.workshop.lathe as Lathe,
  { leadscrew: { pitch: '8 tpi' } },
  {
    leadscrew: { pitch: '1.5 mm', hand: 'left' },
    drives: [{ ratio: 1 }, { name: 'tumbler', ratio: '1/2', reverses: true, belt: 'plain' }],
    gearbox: [{ ratio: '0.5' }, { name: 'B', ratio: 2 }],
    studs: 1,
    planes: 3,
    shaftClearance: 10,
    room: { input: 60, output: 90 },
    fixedGears: { input: { teeth: 20, module: 1 } },
    centreDistance: 90,
    banjo: {
      pivot: 'input',
      swing: [0, 90],
      slots: [
        { from: 20, to: 70 },
        { angle: 40, offset: 3, from: 25, to: 60 },
      ],
      keepOut: [{ x: 20, y: -30, radius: 8 }],
    },
    halfNuts: true,
    dial: { travel: '4 in', lines: 8 },
    screwedNose: false,
    speeds: [60, 120.5],
  },
]
const gears: GearStock[] = [
  { teeth: 20, count: 2 },
  { teeth: 30, module: 1, shafts: ['input', 'stud'] },
  { teeth: 40, pressureAngle: 20 },
  { teeth: 45, dp: 20, pressureAngle: 14.5 },
  { teeth: 50 },
  { teeth: 60 },
]
const workshop: fc.Arbitrary<Workshop> = fc.record({
  name: fc.constant('Bench lathe'),
  lathe: fc.constantFrom(...lathes),
  gears: fc.constant(gears),
  wires: fc.constant([0.5, 0.6]),
  head: fc.constant({ worm: 60, plates: [[18, 21, 24], []] }),
})

test('a workshop is refused, or read as it was given', () => {
  let read = 0
  fc.assert(
    fc.property(trees(workshop), (given) => {
      const checked = checkWorkshop(given)
      if (!checked.ok) {
        expect(checked.problems.length).toBeGreaterThan(0)
        expect(JSON.stringify(checked.problems).length).toBeLessThan(1_000_000)
        return
      }
      read++
      expect(strays(checked.workshop, given)).toEqual([])
      expect(odd(checked.workshop)).toEqual([])
      expect(checkWorkshop(JSON.parse(JSON.stringify(checked.workshop)))).toEqual(checked)
      const { leadscrew, drives = [], gearbox = [], dial } = checked.workshop.lathe
      parsePitch(leadscrew.pitch)
      for (const { ratio } of [...drives, ...gearbox]) parseRatio(ratio)
      if (dial) parseLength(dial.travel)
    }),
    share(20),
  )
  expect(read).toBeGreaterThan(100)
})

/** Small enough that any question of it is answered in milliseconds. */
const small: fc.Arbitrary<Workshop> = fc.record({
  lathe: fc.constantFrom(...lathes.slice(1)),
  gears: fc.constant(gears.slice(0, 5)),
})
const wanted: fc.Arbitrary<ThreadWanted> = fc.record({
  pitch: fc.constantFrom('1 mm', '26 tpi', '1/16 in', '0.5 module', '32 dp', '0.7'),
  starts: fc.constantFrom(1, 2),
  hand: fc.constantFrom('right', 'left'),
  tolerance: fc.constantFrom<NonNullable<ThreadWanted['tolerance']>>(
    { ppm: 300_000 },
    { error: '2 mm', over: '10 mm' },
  ),
})
const options: fc.Arbitrary<FindOptions> = fc.record(
  {
    limit: fc.constantFrom(1, 5),
    stages: fc.constantFrom(1, 2),
    order: fc.constantFrom('closest', 'fewest gears'),
    mounted: fc.constant([{ teeth: 20 }]),
  },
  { requiredKeys: ['stages'] },
)
/** What may be changed without a search of minutes: no numbers of hundreds. */
const tame = fc.oneof(
  values.filter((x) => typeof x !== 'number'),
  fc.integer({ min: -2, max: 9 }),
  fc.double({ min: 0, max: 9 }),
)

const exact = ({ n, d }: { n: string; d: string }) => ({ n: BigInt(n), d: BigInt(d) })

/** The lead of a set-up by whole numbers, not in lowest terms. */
function leadBy(lathe: Lathe, { drive = 0, gearbox = 0, stages }: SetUp): { n: bigint; d: bigint } {
  let { n, d } = exact(parsePitch(lathe.leadscrew.pitch).mm)
  for (const way of [lathe.drives?.[drive], lathe.gearbox?.[gearbox]]) {
    const ratio = exact(parseRatio(way?.ratio ?? 1))
    ;[n, d] = [n * ratio.n, d * ratio.d]
  }
  for (const { driver, driven } of stages) [n, d] = [n * BigInt(driver.teeth), d * BigInt(driven.teeth)]
  return { n, d }
}

test('a question is refused, or answered with leads that its gears make', () => {
  let answered = 0
  fc.assert(
    fc.property(trees(small, tame), trees(wanted, tame), trees(options, tame), (shop, thread, how) => {
      const [asked, wished, chosen] = [shop as Workshop, thread as ThreadWanted, how as FindOptions]
      const found = taken(() => findTrains(asked, wished, chosen))
      if (!found) return
      answered++
      expect(odd(found)).toEqual([])
      const pitch = exact(parsePitch(wished.pitch).mm)
      for (const train of [...found.trains, ...(found.closest ? [found.closest] : [])]) {
        const { n, d } = leadBy(asked.lathe, train)
        const lead = exact(train.lead)
        expect(n * lead.d).toBe(d * lead.n)
        // lead / (pitch x starts) - 1
        const over = lead.d * pitch.n * BigInt(wished.starts ?? 1)
        const error = exact(train.error)
        expect((lead.n * pitch.d - over) * error.d).toBe(over * error.n)
      }
    }),
    share(3),
  )
  expect(answered).toBeGreaterThan(20)
})

const setUp: fc.Arbitrary<SetUp> = fc.constantFrom<SetUp>(
  { stages: [{ driver: { teeth: 30 }, driven: { teeth: 60 } }] },
  {
    drive: 1,
    stages: [
      { driver: { teeth: 20 }, driven: { teeth: 50 }, idlers: [{ teeth: 40 }] },
      { driver: { teeth: 30, module: 1 }, driven: { teeth: 60, module: 1 } },
    ],
  },
)

test('a set-up is refused, or has a lead and a place', () => {
  fc.assert(
    fc.property(fc.constantFrom(...lathes), trees(setUp), (lathe, given) => {
      const lead = taken(() => leadOf(lathe, given as SetUp))
      const laidOut = taken(() => layOut(lathe, given as SetUp))
      expect([odd(lead), odd(laidOut)]).toEqual([[], []])
      if (!lead) return
      const { n, d } = leadBy(lathe, given as SetUp)
      const found = exact(lead.lead)
      expect(n * found.d).toBe(d * found.n)
    }),
    share(4),
  )
})
