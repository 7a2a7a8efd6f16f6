import fc from 'fast-check'

/*
 * Texts and values that nobody means, for what reads texts and files. Mutated ones are near enough to what is meant to
 * get far; junk is from anywhere.
 */

/** Cases of all fuzzing together: ten thousand, or CASES=1000000. */
const CASES = Number(process.env.CASES ?? 10_000)

/** Runs of one property that gets `percent` of all cases. */
export const share = (percent: number): { numRuns: number } => ({ numRuns: Math.ceil((CASES * percent) / 100) })

const DIGITS = [...'0123456789']
/** Digits, signs and letters that look like others, are written from the right, join, or are no character at all. */
const ODD = [
  ...'０９٣५௧²₂½⅓⅛⅞↉⁄∕／－−–—＋±×✕＊，、。．·٫٬′″“”„\'"`´μµΜ㎜㏌ǆﬁßİı̸',
  ...[
    '\u0000',
    '\u00a0',
    '\u2007',
    '\u2028',
    '\u200b',
    '\u200f',
    '\ufeff',
    '\ud800',
    '\udc00',
    '𝟙𝟚',
    '1️⃣',
    '\r\n',
    '\t',
  ],
]
const WORDS = [
  ...[
    'mm',
    'tpi',
    'in',
    'inch',
    'module',
    'dp',
    'thou',
    'µm',
    'x',
    'X',
    '*',
    ',',
    ';',
    '.',
    '..',
    '-',
    '+',
    '/',
    '//',
    ' ',
    '  ',
  ],
  ...[
    'e9',
    'E-9',
    '0x10',
    '0b1',
    'Infinity',
    'NaN',
    'null',
    '__proto__',
    'constructor',
    'toString',
    '1e999',
    '-0',
    '00',
    '9'.repeat(30),
  ],
  ...['M6', 'UNC', 'BSF', 'BA', '1/4', '1 1/8', '20x2', '127', '{', '}', '[', ']', ':', '"', '\\', '\\u0000'],
]
const piece = fc.oneof(
  fc.constantFrom(...DIGITS),
  fc.constantFrom(...ODD),
  fc.constantFrom(...WORDS),
  fc.string({ unit: 'binary', maxLength: 3 }),
)

/** Far too much of something: long, or deep. */
const HUGE = [
  '9'.repeat(100_000),
  `1${'0'.repeat(50_000)}/3`,
  '20 '.repeat(50_000),
  '20x2,'.repeat(4000),
  ' '.repeat(200_000),
  `20${' '.repeat(9_000)}x`,
  `${'1 '.repeat(30_000)}x`,
  '-'.repeat(70_000),
  '['.repeat(100_000),
  '{"a":'.repeat(20_000),
  '½'.repeat(30_000),
  `${'\u0301'.repeat(50_000)}1`,
]

type Edit = { at: number; cut: number; put: string }
const edit: fc.Arbitrary<Edit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.constantFrom(0, 0, 0, 1, 1, 2, 5),
  put: fc.oneof({ weight: 5, arbitrary: piece }, { weight: 1, arbitrary: fc.constant('') }),
})
const edited = (text: string, edits: readonly Edit[]): string =>
  edits.reduce((now, { at, cut, put }) => {
    const here = Math.floor(at * (now.length + 1))
    return now.slice(0, here) + put + now.slice(here + cut)
  }, text)

/** Valid texts, as they are, with some letters changed, or two run together; and junk. */
export const texts = (valid: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 2, arbitrary: valid },
    {
      weight: 8,
      arbitrary: fc.tuple(valid, fc.array(edit, { minLength: 1, maxLength: 4 })).map(([a, b]) => edited(a, b)),
    },
    { weight: 1, arbitrary: fc.tuple(valid, piece, valid).map((parts) => parts.join('')) },
    { weight: 2, arbitrary: fc.array(piece, { maxLength: 8 }).map((parts) => parts.join('')) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 70 }) },
    { weight: 1, arbitrary: fc.constantFrom(...HUGE.slice(0, 8)) },
  )

/** The same for files, where what is huge or deep may be a tree. */
export const files = (valid: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 12, arbitrary: texts(valid) },
    { weight: 1, arbitrary: fc.constantFrom(...HUGE) },
    { weight: 1, arbitrary: fc.json() },
  )

const circle = (): unknown => {
  const x: Record<string, unknown> = { teeth: 20 }
  x.lathe = x
  x.gears = [x]
  return x
}
const fail = (): never => {
  throw new Error('do not touch')
}
const untouchable = (): unknown => new Proxy({}, { get: fail, ownKeys: fail, getOwnPropertyDescriptor: fail })
const thrower = (): unknown => ({
  get teeth(): never {
    throw new Error('do not look')
  },
  toString: () => {
    throw new Error('do not print')
  },
})

/** Values as files and forms hold them, and numbers that they cannot. */
export const plain: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom(undefined, null, true, false, 0, -0, 1, -1, 0.5, 2 ** 53, 1e308, 5e-324),
  fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
  fc.double(),
  piece,
  fc.jsonValue({ maxDepth: 3 }),
)

const makers: (() => unknown)[] = [
  circle,
  untouchable,
  thrower,
  () => new Array(1e6),
  () => 7n,
  () => Symbol('x'),
  () => () => 1,
  () => new Date(0),
  () => new Map([[1, 2]]),
  () => Object.create({ teeth: 20 }),
  () => JSON.parse('{"__proto__":{"teeth":20}}'),
]
/** Those, and values of a program that are no data: circles, prototypes, what must not be touched. */
export const values: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 3, arbitrary: plain },
  { weight: 1, arbitrary: fc.constantFrom(...makers).map((make) => make()) },
)

type Way = readonly number[]
type Change = { way: Way; what: 'replace' | 'remove' | 'double' | 'rename'; value: unknown }
const change = (value: fc.Arbitrary<unknown>): fc.Arbitrary<Change> =>
  fc.record({
    way: fc.array(fc.nat(40), { minLength: 1, maxLength: 7 }),
    what: fc.constantFrom('replace', 'replace', 'replace', 'remove', 'double', 'rename'),
    value,
  })

/** What is not to be touched has no parts to be changed. */
function partsOf(x: object): [string, unknown][] {
  try {
    return Object.entries(x)
  } catch {
    return []
  }
}

/** A tree with something else at the end of a way. */
function changed(tree: unknown, { way, what, value }: Change): unknown {
  if (typeof tree !== 'object' || tree === null) return value
  const entries = partsOf(tree)
  if (entries.length === 0) return value
  const at = way[0]! % entries.length
  const [key, part] = entries[at]!
  const list = Array.isArray(tree)
  if (way.length > 1 && typeof part === 'object' && part !== null) {
    entries[at] = [key, changed(part, { way: way.slice(1), what, value })]
  } else if (what === 'remove') entries.splice(at, 1)
  else if (what === 'double') entries.splice(at, 0, list ? [key, part] : [`${key}2`, part])
  else if (what === 'rename' && !list) entries[at] = [String(value === null ? '__proto__' : typeof value), part]
  else entries[at] = [key, value]
  return list ? entries.map(([, one]) => one) : Object.fromEntries(entries)
}

/** Valid trees with some of their parts changed, and junk. */
export const trees = (valid: fc.Arbitrary<unknown>, value: fc.Arbitrary<unknown> = values): fc.Arbitrary<unknown> =>
  fc.oneof(
    {
      weight: 10,
      arbitrary: fc
        .tuple(valid, fc.array(change(value), { maxLength: 3 }))
        .map(([tree, changes]) => changes.reduce(changed, tree)),
    },
    { weight: 1, arbitrary: value },
  )
