import { parsePitch } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import {
  checked,
  list,
  number,
  object,
  oneOf,
  optional,
  parsed,
  positive,
  type Read,
  Reader,
  text,
  two,
  whole,
  yesNo,
} from './reader.js'

/** What is read, or what is refused as 'path code: detail in the sentence'. */
function read<T>(reader: Read<T>, x: unknown): T | string[] | undefined {
  const r = new Reader()
  const value = reader(r, x, 'x')
  if (r.problems.length === 0) return value
  return r.problems.map(({ path, code, message }) => `${path} ${code}: ${message}`)
}
const refused = (code: string, detail = '') => [expect.stringMatching(new RegExp(`^x ${code}: .*${detail}`))]

describe('numbers', () => {
  it('within a range, both ends included', () => {
    const range = number(-2, 7.5)
    expect([-2, 0, 7.5].map((x) => read(range, x))).toEqual([-2, 0, 7.5])
    expect(read(range, -2.01)).toEqual(refused('range', '-2 to 7.5'))
    expect(read(range, 7.51)).toEqual(refused('range', '-2 to 7.5'))
    expect(Object.is(read(range, -0), 0)).toBe(true)
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY, '5', null]) expect(read(range, x)).toEqual(refused('number'))
  })

  it('above zero', () => {
    const some = positive(10)
    expect([Number.MIN_VALUE, 10].map((x) => read(some, x))).toEqual([Number.MIN_VALUE, 10])
    for (const x of [0, -1, 10.01]) expect(read(some, x)).toEqual(refused('positive', '10'))
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY, '5', true]) expect(read(some, x)).toEqual(refused('number'))
  })

  it('whole', () => {
    const count = whole(0, 8)
    expect([0, 8].map((x) => read(count, x))).toEqual([0, 8])
    expect(Object.is(read(count, -0), 0)).toBe(true)
    for (const x of [-1, 9, 1.5, '5', Number.NaN]) expect(read(count, x)).toEqual(refused('whole', '0 to 8'))
  })
})

describe('words', () => {
  it('of a length', () => {
    expect(['', 'abc'].map((x) => read(text(3), x))).toEqual(['', 'abc'])
    expect(read(text(3), 'abcd')).toEqual(refused('too-long', '3'))
    expect(read(text(3), ['a'])).toEqual(refused('text'))
  })

  it('out of some', () => {
    expect(read(oneOf('left', 'right'), 'right')).toBe('right')
    expect(read(oneOf('left', 'right'), 'up')).toEqual(refused('one-of', 'left, right'))
  })

  it('of truth', () => {
    expect([true, false].map((x) => read(yesNo, x))).toEqual([true, false])
    expect(read(yesNo, 0)).toEqual(refused('yes-no'))
  })
})

describe('lists', () => {
  it('of a length, with the place of what is refused', () => {
    const some = list(whole(1, 5), 1, 3)
    expect([[1], [1, 2, 3]].map((x) => read(some, x))).toEqual([[1], [1, 2, 3]])
    expect(read(some, [])).toEqual(refused('too-few', '1'))
    expect(read(some, [1, 2, 3, 4])).toEqual(refused('too-long', '3'))
    expect(read(some, [1, 9, 0])).toEqual([1, 2].map((i) => expect.stringMatching(`^x\\[${i}\\] whole: `)))
    expect(read(two(yesNo), [true])).toEqual(refused('too-few', '2'))
    expect(read(two(yesNo), [true, false, true])).toEqual(refused('too-long', '2'))
  })

  it('and nothing like them', () => {
    for (const x of [{ length: 2 }, 'ab', null, undefined, new Set([1])])
      expect(read(list(whole(1, 5), 1, 3), x)).toEqual(refused('list'))
    // A list that tells no length is none.
    const endless = new Proxy([1], { getOwnPropertyDescriptor: () => undefined })
    expect(read(list(whole(1, 5), 1, 3), new Proxy(endless, { get: () => undefined }))).toEqual(refused('list'))
  })
})

describe('objects', () => {
  const point = object<{ x: number; y?: number }>({ x: number(0, 9), y: optional(number(0, 9)) })

  it('hold what was asked for, absent keys left out', () => {
    expect(read(point, { x: 1, y: 2, z: 3 })).toEqual({ x: 1, y: 2 })
    expect(Object.keys(read(point, { x: 1, y: undefined }) as object)).toEqual(['x'])
  })

  it('name every problem by its path, at the root too', () => {
    const r = new Reader()
    expect(point(r, { x: 'a', y: 10 }, '')).toBeUndefined()
    expect(r.problems.map(({ path, code }) => `${path} ${code}`)).toEqual(['x number', 'y range'])
  })

  it('are unharmed by problems elsewhere', () => {
    const r = new Reader()
    r.refuse('before', 'text')
    expect(point(r, { x: 1 }, 'p')).toEqual({ x: 1 })
    expect(list(point, 1, 1)(r, [{ x: 1 }], 'p')).toEqual([{ x: 1 }])
  })

  it('are no lists, functions or texts', () => {
    for (const x of [[], null, undefined, 'x', () => 1]) expect(read(point, x)).toEqual(refused('object'))
  })
})

it('checks what was read, and only that', () => {
  const even = checked(whole(0, 9), (x) => x % 2 === 1 && ['range', 'even'])
  expect([0, 4].map((x) => read(even, x))).toEqual([0, 4])
  expect(read(even, 3)).toEqual(refused('range', 'even'))
  expect(read(even, 'x')).toEqual(refused('whole'))
})

it('gives nothing of what is refused in part', () => {
  const r = new Reader()
  expect(list(yesNo, 1, 3)(r, [true, 1], 'x')).toBeUndefined()
  expect(parsed(parsePitch)(r, 'soon', 'x')).toBeUndefined()
  expect(parsed(parsePitch)(r, '1 mm', 'x')).toBe('1 mm')
  expect(r.problems.map(({ path, code }) => `${path} ${code}`)).toEqual(['x[1] yes-no', 'x not-a-number'])
})
