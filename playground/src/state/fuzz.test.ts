import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { type Problem, parsePitch } from '@trainwright/measures'
import { series, seriesNames } from '@trainwright/threads'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { files, plain, share, texts, trees } from '../../../test-data/fuzz.js'
import { page, shop } from '../../test/arbitraries.js'
import { FIRST_VERSION } from '../../test/first-version.js'
import { demo } from '../demo.js'
import { splitTyped } from './kept.js'
import { linkOf, readLink } from './link.js'
import { readSetUp } from './read-set-up.js'
import { lengthTexts, number, numbers } from './read-text.js'
import { readWishes } from './wishes.js'
import { documentOf, fileText, type Opened, readFile } from './workshop-file.js'

/*
 * Files and links from anywhere: a refusal with its code, or a workshop in which every part is what stands in the file.
 */

const ours = splitTyped(demo())
const whole = fc.tuple(shop, page).map(([shop, page]) => fileText(shop, page))
const document = fc.constantFrom<unknown>(documentOf(ours.shop, ours.page), JSON.parse(FIRST_VERSION))
const written = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(fileText(ours.shop, ours.page), FIRST_VERSION) },
  { weight: 1, arbitrary: whole },
)
/** Trees as JSON can hold them. */
const file = fc.oneof(
  files(written),
  trees(document, plain).map((tree) => JSON.stringify(tree) ?? ''),
)

type Tree = Record<string, unknown>
const CODES = ['too-big', 'unreadable', 'not-ours', 'newer', 'damaged']

/** Where two trees differ at what both have. */
function differing(read: unknown, given: unknown, path = ''): string[] {
  if (given === undefined) return []
  if (typeof read !== 'object' || read === null || typeof given !== 'object' || given === null) {
    return read === given ? [] : [path]
  }
  return Object.entries(read).flatMap(([key, part]) =>
    Object.hasOwn(given, key) && key !== '__proto__' ? differing(part, (given as Tree)[key], `${path}.${key}`) : [],
  )
}

function check(opened: Opened, text: string): boolean {
  if ('refusal' in opened) {
    const { code, places = [] } = opened.refusal
    expect(CODES).toContain(code)
    expect(places.length > 0).toBe(code === 'damaged')
    return false
  }
  const given = JSON.parse(text) as { shop: unknown; page: unknown; typed?: Tree }
  const parts = given.typed ? { shop: given.typed, page: given.typed } : given
  // The view of the first version is in two by now; what stood under `also` is lifted from there.
  const strays = [...differing(opened.shop, parts.shop), ...differing(opened.page, parts.page)]
  expect(strays.filter((path) => !/\.also\b/.test(path))).toEqual([])
  const again = readFile(fileText(opened.shop, opened.page))
  expect(again).toEqual(JSON.parse(JSON.stringify(opened)))
  expect(({} as Tree).teeth).toBeUndefined()
  return true
}

test('a file is refused, or read as it was written', () => {
  let read = 0
  fc.assert(
    fc.property(file, (text) => {
      if (check(readFile(text), text)) read++
    }),
    share(10),
  )
  expect(read).toBeGreaterThan(50)
})

const START = '#question='
const packed = (text: string): string => START + deflateRawSync(text).toString('base64url')
const links = fc.oneof(
  { weight: 2, arbitrary: file.map(packed) },
  { weight: 3, arbitrary: texts(fc.constantFrom(packed(fileText(ours.shop, ours.page)), packed('{}'))) },
)

/** What is in a link, by another unpacker; null when there is nothing. */
function unpacked(link: string): string | null {
  try {
    return inflateRawSync(Buffer.from(link.slice(START.length), 'base64url'), { maxOutputLength: 100_000 })
      .toString()
      .replace(/^\ufeff/, '')
  } catch {
    return null
  }
}

test('a link is refused, or read as the file that is in it', async () => {
  let read = 0
  await fc.assert(
    fc.asyncProperty(links, async (link) => {
      const opened = await readLink(link)
      const text = unpacked(link)
      if (text === null) expect(opened).toHaveProperty('refusal')
      if (!check(opened, text ?? '')) return
      read++
      expect(opened).toEqual(readFile(text!))
      const { shop, page } = opened as Extract<Opened, { shop: unknown }>
      const again = await linkOf(shop, page)
      if (again) expect(await readLink(again)).toMatchObject({ shop: JSON.parse(JSON.stringify(shop)) })
    }),
    share(3),
  )
  expect(read).toBeGreaterThan(10)
})

/** A decimal, digit by digit, perhaps with an exponent as numbers print it; NaN for anything else. */
function decimal(text: string): number {
  const [size = '', power = '0', ...rest] = text.split(/e/i)
  const unsigned = (part: string) => (part.startsWith('+') || part.startsWith('-') ? part.slice(1) : part)
  const [whole = '', part = '', ...more] = unsigned(size).split('.')
  const digits = (part: string) => part !== '' && [...part].every((c) => c >= '0' && c <= '9')
  if (rest.length + more.length > 0 || !digits(whole + part) || !digits(unsigned(power))) return Number.NaN
  return Number.parseFloat(`${size.startsWith('-') ? '-' : ''}${whole || '0'}.${part || '0'}e${power}`)
}

const figure = fc.oneof(
  fc.integer({ min: -9, max: 999 }).map(String),
  fc.double({ min: 0, max: 99, noNaN: true }).map(String),
)

test('a field with a number is read as the decimal in it, or as none', () => {
  fc.assert(
    fc.property(texts(figure), (text) => {
      expect(number(text)).toBe(decimal(text.trim()))
    }),
    share(3),
  )
  fc.assert(
    fc.property(texts(fc.array(figure, { maxLength: 4 }).map((all) => all.join(', '))), (text) => {
      const words = text.split(/[\s,;]+/).filter((word) => word !== '')
      // Compared here: a text of a hundred thousand signs takes long to be shown.
      const alike = numbers(text).join() === words.map(decimal).join()
      const kept = lengthTexts(text).join('').replaceAll(/\s/g, '') === words.join('')
      expect({ alike, kept }).toEqual({ alike: true, kept: true })
    }),
    share(3),
  )
})

const published = new Set(seriesNames().flatMap((name) => series(name).map(({ pitch }) => pitch)))
const wish = fc
  .tuple(
    fc.constantFrom('0.7 mm', '26 tpi', '1/8 in', 'M6', '1/4 BSF', '4 BA', '0.5 mod', '1 1/2 Whitworth'),
    fc.constantFrom('', ' Foot screws', ', LH', ' left-handed', ' 2 starts', ' eyepiece 3-start'),
  )
  .map((parts) => parts.join(''))
const list = fc.array(wish, { maxLength: 5 }).map((lines) => lines.join('\n'))

test('each line of a wish list is a thread, or named as none', () => {
  let read = 0
  fc.assert(
    fc.property(texts(list), (list) => {
      const problems: Problem[] = []
      const wishes = readWishes({ list, ppm: '500' }, problems)
      const lines = list.split('\n').filter((line) => line.trim() !== '')
      expect(wishes.length + problems.length).toBe(lines.length)
      for (const { pitch, starts = 1, tolerance } of wishes) {
        read++
        expect(Number(parsePitch(pitch).mm.n)).toBeGreaterThan(0)
        // As it stands in its line, or the pitch of the published thread that is named there.
        const stands = lines.some((line) => line.replaceAll(/\s+/g, ' ').includes(pitch))
        expect(stands || published.has(pitch), JSON.stringify({ list, pitch })).toBe(true)
        expect(starts === 1 || list.includes(String(starts))).toBe(true)
        expect(tolerance).toEqual({ ppm: 500 })
      }
    }),
    share(2),
  )
  expect(read).toBeGreaterThan(50)
})

const mounted = fc
  .array(fc.constantFrom('24:72', '20-20-48', '48 → (20) → 80', '30/60m1.5', '20->65dp20', '127 – 100'), {
    maxLength: 4,
  })
  .map((stages) => stages.join(', '))

test('what is mounted is read with the teeth that stand there, in their order, or not at all', () => {
  fc.assert(
    fc.property(texts(mounted), (gears) => {
      const problems: Problem[] = []
      const setUp = readSetUp({ drive: 0, gearbox: 0, gears }, [], problems)
      if (!setUp) return
      expect(problems).toEqual([])
      const read = setUp.stages.flatMap(({ driver, idlers = [], driven }) => [driver, ...idlers, driven])
      const sizes = /(m|dp)\d+(\.\d+)?/g
      expect(read.map(({ teeth }) => teeth)).toEqual((gears.replace(sizes, '').match(/\d+/g) ?? []).map(Number))
    }),
    share(2),
  )
})
