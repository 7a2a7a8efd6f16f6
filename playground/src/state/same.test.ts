import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { at, difference, same } from './same.js'

describe('same', () => {
  it('holds of a value and its copy in any order of keys, and of no other', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
        expect(same(a, structuredClone(a))).toBe(true)
        const sorted = (x: unknown): unknown =>
          Array.isArray(x)
            ? x.map(sorted)
            : x instanceof Object
              ? Object.entries(x)
                  .map(([key, value]) => [key, sorted(value)])
                  .sort()
              : [x, Object.is(x, -0)]
        expect(same(a, b)).toBe(JSON.stringify([sorted(a)]) === JSON.stringify([sorted(b)]))
      }),
    )
  })

  it('tells lists from objects, and nothing from undefined', () => {
    expect(same([], {})).toBe(false)
    expect(same({ a: undefined }, { b: undefined })).toBe(false)
    expect(same(null, {})).toBe(false)
  })
})

describe('difference', () => {
  const typed = { threads: [{ pitch: '1' }, { pitch: '2' }], thread: 0 }

  it('leads to the one place that differs', () => {
    const other = { ...typed, threads: [typed.threads[0], { pitch: '3' }] }
    expect(difference(typed, other)).toEqual(['threads', '1', 'pitch'])
    expect(at(other, ['threads', '1', 'pitch'])).toBe('3')
  })

  it('ends where there are several, and leads nowhere between equals', () => {
    expect(difference(typed, { threads: [{ pitch: '1' }, { pitch: '2' }], thread: 0 })).toEqual([])
    expect(difference(typed, { threads: [{ pitch: '5' }, { pitch: '6' }], thread: 0 })).toEqual(['threads'])
    expect(difference(typed, { threads: [], thread: 1 })).toEqual([])
    expect(at(typed, ['threads', '7', 'pitch'])).toBeUndefined()
  })
})
