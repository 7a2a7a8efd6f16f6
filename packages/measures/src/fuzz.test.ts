import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { share, texts, values } from '../../../test-data/fuzz.js'
import { parseLength } from './length.js'
import { LONGEST_TEXT } from './number-text.js'
import { INCH, PI, parsePitch } from './pitch.js'
import { InputError } from './problems.js'
import { parseRatio } from './ratio.js'
import { type Rational, toFractionText, toNumber } from './rational.js'

/*
 * Whatever text comes in: one InputError, or the value that a second reader, which shares no code with the first, finds
 * in the text too.
 */

type Exact = { n: bigint; d: bigint }

const VULGAR: Record<string, string> = {
  ...{ '¼': '1/4', '½': '1/2', '¾': '3/4', '⅐': '1/7', '⅑': '1/9', '⅒': '1/10', '⅓': '1/3', '⅔': '2/3', '⅕': '1/5' },
  ...{ '⅖': '2/5', '⅗': '3/5', '⅘': '4/5', '⅙': '1/6', '⅚': '5/6', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' },
  ...{ '⅟': '1/', '↉': '0/3' },
}
const SAME: Record<string, string> = {
  '″': '"',
  '“': '"',
  '”': '"',
  '⁄': '/',
  '∕': '/',
  µ: 'u',
  μ: 'u',
  '㎜': 'mm',
  '㏌': 'in',
}

/** Plain letters, digits and signs. */
function plain(text: string): string {
  let out = ''
  for (const c of text) {
    const code = c.codePointAt(0)!
    if (VULGAR[c]) out += ` ${VULGAR[c]} `
    else if (SAME[c]) out += SAME[c]
    else if (code > 0xff00 && code < 0xff5f) out += String.fromCharCode(code - 0xfee0)
    else if (c.trim() === '') out += ' '
    else out += c
  }
  return out
    .replaceAll("''", '"')
    .replaceAll('′′', '"')
    .replaceAll('’’', '"')
    .split(' ')
    .filter((part) => part !== '')
    .join(' ')
}

/** A decimal, digit by digit; throws when it is none. */
function decimal(text: string): Exact {
  let [n, d, digits] = [0n, 0n, 0]
  for (const c of text) {
    if (c === '.' || c === ',') {
      if (d > 0n) throw new Error(`two points in ${text}`)
      d = 1n
    } else if (c >= '0' && c <= '9') {
      n = n * 10n + BigInt(c)
      d *= 10n
      digits++
    } else throw new Error(`${c} in ${text}`)
  }
  if (digits === 0) throw new Error('no digits')
  return { n, d: d || 1n }
}

function number(text: string): Exact {
  const bare = text.startsWith('+') ? text.slice(1) : text
  const [top, below, ...more] = bare.split('/')
  if (more.length > 0) throw new Error('two strokes')
  if (below === undefined) return decimal(bare.trim())
  const parts = top!.trim().split(/ - | |-/)
  const { n, d } = decimal(parts.pop()!)
  const under = decimal(below.trim())
  const whole = parts.length > 0 ? decimal(parts.pop()!) : { n: 0n, d: 1n }
  if (parts.length > 0) throw new Error('too many parts')
  const low = d * under.n
  return { n: whole.n * low + whole.d * n * under.d, d: low * whole.d }
}

const UNITS: Record<string, (x: Exact) => Exact> = (() => {
  const times = ({ n, d }: Exact, by: Exact): Exact => ({ n: n * by.n, d: d * by.d })
  const pi = { n: BigInt(PI.n), d: BigInt(PI.d) }
  const inch = { n: BigInt(INCH.n), d: BigInt(INCH.d) }
  const mm = (x: Exact) => x
  const inches = (x: Exact) => times(x, inch)
  const tpi = ({ n, d }: Exact) => inches({ n: d, d: n })
  const module = (x: Exact) => times(x, pi)
  const dp = (x: Exact) => module(tpi(x))
  const micrometre = (x: Exact) => times(x, { n: 1n, d: 1000n })
  const all: [string, (x: Exact) => Exact][] = [
    [' mm millimetre millimetres millimeter millimeters', mm],
    ['in inch inches "', inches],
    ['tpi threadsperinch', tpi],
    ['module modules mod', module],
    ['dp diametralpitch', dp],
    ['thou', (x) => inches(times(x, { n: 1n, d: 1000n }))],
    ['um micron microns', micrometre],
  ]
  return Object.fromEntries(all.flatMap(([names, read]) => names.split(' ').map((name) => [name, read])))
})()

/** The value in mm (or, where no unit may be, as it is). */
function second(text: string): Exact {
  const signs = plain(text)
  const isUnit = (c: string) => /[a-z"]/i.test(c)
  const letters = [...signs]
    .filter((c) => isUnit(c))
    .join('')
    .toLowerCase()
  const first = [...signs].findIndex(isUnit)
  const ends = [...signs].findLastIndex(isUnit)
  // The unit stands in one piece: behind the number or before it.
  const [before, after] = first < 0 ? [signs, ''] : [signs.slice(0, first), signs.slice(ends + 1)]
  const between = first < 0 ? '' : signs.slice(first, ends + 1)
  if ([...between].some((c) => !isUnit(c) && c !== ' ' && c !== '.')) throw new Error('a number inside the unit')
  const rest = [before, after]
    .map((part) => part.trim())
    .filter((part) => part !== '' && !(part === after.trim() && /^[. ]*$/.test(part)))
  if (rest.length !== 1) throw new Error('not one number')
  return UNITS[letters]!(number(rest[0]!))
}

const digits = fc.integer({ min: 0, max: 99_999 })
const separator = fc.constantFrom('.', ',')
const typed = fc.oneof(
  fc.tuple(digits, separator, digits).map((parts) => parts.join('')),
  digits.map(String),
  fc
    .tuple(fc.nat(40), fc.constantFrom('/', ' / ', '⁄'), fc.integer({ min: 1, max: 128 }))
    .map((parts) => parts.join('')),
  fc
    .tuple(fc.nat(12), fc.constantFrom(' ', '-', ' - '), fc.constantFrom('1/2', '3/4', '5/16', '½', '⅞'))
    .map((parts) => parts.join('')),
)
const units = [
  ...Object.keys(UNITS),
  ' threads per inch',
  't.p.i.',
  '″',
  "''",
  'Mm',
  'TPI',
  'D.P.',
  'µm',
  '㎜',
  ' microns',
]
const measure = fc.oneof(
  fc.tuple(typed, fc.constantFrom('', ' '), fc.constantFrom(...units)).map((parts) => parts.join('')),
  fc
    .tuple(fc.constantFrom('module', 'mod', 'dp', 'tpi'), fc.constantFrom('', ' '), typed)
    .map((parts) => parts.join('')),
)

function taken(read: () => Rational): Rational | null {
  try {
    return read()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    expect(error.problems).toHaveLength(1)
    expect(error.message.length).toBeLessThan(400)
    return null
  }
}
const same = ({ n, d }: Rational, exact: Exact): boolean => BigInt(n) * exact.d === BigInt(d) * exact.n

const parsers = [
  ['parsePitch', (x: never) => parsePitch(x).mm, measure, 12],
  ['parseLength', (x: never) => parseLength(x).mm, measure, 12],
  ['parseRatio', (x: never) => parseRatio(x), typed, 6],
] as const

describe.each(parsers)('%s', (_, parse, valid, percent) => {
  test('refuses a text, or reads what a second reader reads', () => {
    let taking = 0
    fc.assert(
      fc.property(texts(valid), (text) => {
        const value = taken(() => parse(text as never))
        if (!value) return
        taking++
        expect(same(value, second(text)), `${JSON.stringify(text)} as ${toFractionText(value)}`).toBe(true)
        const printed = toFractionText(value)
        if (printed.length <= LONGEST_TEXT) expect(parse(printed as never)).toEqual(value)
      }),
      share(percent),
    )
    expect(taking).toBeGreaterThan(50)
  })

  test('refuses what is no text, or reads the number that it is', () => {
    fc.assert(
      fc.property(values, (given) => {
        const value = taken(() => parse(given as never))
        if (!value || typeof given === 'string') return
        expect(typeof given).toBe('number')
        expect(toNumber(value)).toBe(given)
      }),
      share(3),
    )
  })
})
