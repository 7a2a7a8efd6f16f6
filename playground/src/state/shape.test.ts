import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fill, listOf, oneOf, type Shape } from './shape.js'

interface Thing {
  name: string
  size: number
  on: boolean
  hand: 'right' | 'left'
  parts: { teeth: string }[]
  shafts: string[]
  also: object
}

const shape: Shape<Thing> = {
  name: '',
  size: 90,
  on: false,
  hand: oneOf('right', 'left'),
  parts: [{ teeth: '1' }],
  shafts: listOf('', ['stud']),
  also: {},
}
const blank: Thing = { name: '', size: 90, on: false, hand: 'right', parts: [], shafts: ['stud'], also: {} }

function read(x: unknown, bounds?: { text: number; list: number }): { thing: Thing; wrong: string[] } {
  const wrong: string[] = []
  return { thing: fill<Thing>(shape, x, wrong, '', bounds), wrong }
}

describe('fill', () => {
  it('gives the blank where nothing is', () => {
    expect(read(undefined)).toEqual({ thing: blank, wrong: [] })
    expect(read({})).toEqual({ thing: blank, wrong: [] })
  })

  it('fills in what is missing and leaves the rest alone', () => {
    const x = { name: 'a', hand: 'left', parts: [{ teeth: '20' }, {}], shafts: [], also: { deep: [1] } }
    const parts = [{ teeth: '20' }, { teeth: '1' }]
    expect(read(x)).toEqual({ thing: { ...blank, ...x, parts }, wrong: [] })
  })

  it.each<[string, unknown, string]>([
    ['a number for a text', { name: 3 }, 'name'],
    ['a text for a number', { size: '3' }, 'size'],
    ['no finite number', { size: Number.NaN }, 'size'],
    ['a word for yes or no', { on: 'yes' }, 'on'],
    ['a word that is none of the few', { hand: 'both' }, 'hand'],
    ['the name of a method for a word', { hand: 'toString' }, 'hand'],
    ['an object for a list', { parts: { length: 1 } }, 'parts'],
    ['a list for an object', { also: [] }, 'also'],
    ['null for an object', { also: null }, 'also'],
    ['a wrong item', { parts: [{ teeth: '1' }, 7] }, 'parts[1]'],
    ['a wrong part of an item', { parts: [{ teeth: null }] }, 'parts[0].teeth'],
    ['nothing but a text', 'thing', ''],
  ])('makes blank, and names, %s', (_, x, path) => {
    const { thing, wrong } = read(x)
    expect(wrong).toEqual([path])
    expect(read(thing).wrong).toEqual([])
  })

  it('loses nothing else beside what is wrong', () => {
    expect(read({ name: 'kept', size: 'no', parts: [{ teeth: '20' }] }).thing).toEqual({
      ...blank,
      name: 'kept',
      parts: [{ teeth: '20' }],
    })
  })

  it('keeps what a newer page has added', () => {
    const x = { ...blank, colour: 'brass', parts: [{ teeth: '20', worn: true }] }
    expect(read(x)).toEqual({ thing: x, wrong: [] })
  })

  it('takes no name from a prototype', () => {
    const x = JSON.parse('{"__proto__":{"name":"inherited"},"parts":[{"__proto__":{"teeth":"9"}}]}')
    expect(read(x).thing).toMatchObject({ name: '', parts: [{ teeth: '1' }] })
    expect(Object.getPrototypeOf(read(x).thing)).toBe(Object.prototype)
    expect(read(Object.create({ name: 'inherited' })).thing.name).toBe('')
  })

  it('refuses more than the bounds', () => {
    const bounds = { text: 3, list: 2 }
    expect(read({ name: 'four', parts: [{}, {}, {}] }, bounds).wrong).toEqual(['name', 'parts'])
    expect(read({ name: 'tri', parts: [{}, {}] }, bounds).wrong).toEqual([])
  })

  it('makes something readable of any junk, in one go', () => {
    fc.assert(
      fc.property(fc.anything(), (x) => {
        const { thing } = read(x)
        expect(read(thing)).toEqual({ thing, wrong: [] })
      }),
    )
  })
})
