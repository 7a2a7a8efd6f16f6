import { describe, expect, it } from 'vitest'
import { memory } from '../../test/memory.js'
import { Drawer } from './drawer.js'

describe('Drawer', () => {
  it('tells what others put there and took away, once', () => {
    const storage = memory()
    const [mine, theirs] = [new Drawer(() => storage), new Drawer(() => storage)]
    theirs.put('a', { x: 1 })
    theirs.put('b', 2)
    expect(mine.news()).toEqual(
      new Map<string, unknown>([
        ['a', { x: 1 }],
        ['b', 2],
      ]),
    )
    expect(mine.news()).toEqual(new Map())
    theirs.put('a', undefined)
    theirs.put('b', 3)
    expect(mine.news()).toEqual(
      new Map<string, unknown>([
        ['b', 3],
        ['a', undefined],
      ]),
    )
  })

  it('has no news of its own doing', () => {
    const drawer = new Drawer(() => memory())
    const storage = memory()
    const mine = new Drawer(() => storage)
    expect(mine.put('a', 1)).toBe(true)
    expect(mine.put('b', undefined)).toBe(true)
    expect(mine.news()).toEqual(new Map())
    expect(mine.holds('a')).toBe(true)
    expect(drawer.holds('a')).toBe(false)
  })

  it('leaves alone what others keep in the same storage', () => {
    const storage = memory([
      ['else', '1'],
      ['trainwright/1/page', '2'],
    ])
    expect(new Drawer(() => storage).news()).toEqual(new Map())
  })

  it('says no when it is full, and leaves what was there', () => {
    const storage = memory([], 40)
    const drawer = new Drawer(() => storage)
    expect(drawer.put('a', 'short')).toBe(true)
    expect(drawer.put('a', 'long'.repeat(20))).toBe(false)
    expect(new Drawer(() => storage).news()).toEqual(new Map([['a', 'short']]))
    expect(drawer.news()).toEqual(new Map())
  })

  it('says no when the browser allows nothing', () => {
    const drawer = new Drawer(() => {
      throw new Error('no storage here')
    })
    expect(drawer.put('a', 1)).toBe(false)
    expect(drawer.news()).toEqual(new Map())
    expect(drawer.first()).toBeUndefined()
    expect(() => drawer.dropFirst()).not.toThrow()
  })
})
