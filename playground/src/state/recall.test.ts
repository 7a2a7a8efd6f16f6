import { describe, expect, it } from 'vitest'
import { FIRST_VERSION, readNow } from '../../test/first-version.js'
import { memory } from '../../test/memory.js'
import { demo } from '../demo.js'
import { Drawer } from './drawer.js'
import { pageOf, shopOf, shopsOf, typedOf } from './held.js'
import { blankShop, splitTyped } from './kept.js'
import { recall } from './recall.js'

const { shop, page } = splitTyped(demo())
const named = (name: string) => ({ ...shop, workshop: { ...shop.workshop, name } })

function recalled(kept: Record<string, unknown>, here: Record<string, unknown> = {}) {
  const texts = (all: Record<string, unknown>) =>
    Object.entries(all).map(([key, x]): [string, string] => [
      key === 'trainwright' || key.startsWith('other') ? key : `trainwright/2/${key}`,
      typeof x === 'string' ? x : JSON.stringify(x),
    ])
  return recall(new Drawer(() => memory(texts(kept))), new Drawer(() => memory(texts(here))))
}
const names = (held: NonNullable<ReturnType<typeof recalled>['held']>) =>
  shopsOf(held).map(([, { workshop }]) => workshop.name)

describe('recall', () => {
  it('gives back every workshop, and the one that was open', () => {
    const { held } = recalled({ a: named('A'), b: named('B'), c: named('C'), page, open: '"b"', 'other/a': '{}' })
    expect(names(held!)).toEqual(['A', 'B', 'C'])
    expect(shopOf(held!)).toEqual(named('B'))
    expect(pageOf(held!)).toEqual(page)
  })

  it('takes in hand what this tab had in hand', () => {
    const kept = { a: named('A'), b: named('B'), page, open: '"b"' }
    const { held } = recalled(kept, { look: { open: 'a', thread: 2 } })
    expect(shopOf(held!)).toEqual(named('A'))
    expect(pageOf(held!).thread).toBe(2)
    const astray = recalled(kept, { look: { open: 'gone', thread: 99 } }).held!
    expect(shopOf(astray)).toEqual(named('B'))
    expect(pageOf(astray).thread).toBe(page.thread)
  })

  it('migrates what the first version kept', () => {
    expect(typedOf(recalled({ trainwright: FIRST_VERSION }).held!)).toEqual(readNow())
  })

  it('looks at the first version no more once there is a newer', () => {
    const { held } = recalled({ trainwright: FIRST_VERSION, a: named('A'), page })
    expect(names(held!)).toEqual(['A'])
  })

  it.each<[string, Record<string, unknown>]>([
    ['nothing', {}],
    ['no JSON', { trainwright: '{' }],
    ['only what others keep', { 'other/page': page }],
  ])('starts afresh from %s', (_, kept) => {
    expect(recalled(kept).held).toBeNull()
  })

  it('loses nothing but the parts that cannot be read', () => {
    const lathe = { ...shop.workshop.lathe, studs: 3, fixed: 'none' }
    const broken = { workshop: { ...shop.workshop, lathe }, view: 'upright' }
    const { held } = recalled({ a: broken, b: '{"workshop":', c: named('C'), page: { threads: [{ pitch: '1' }, 7] } })
    expect(names(held!)).toEqual([shop.workshop.name, 'C'])
    expect(shopsOf(held!)[0]![1]).toEqual({
      workshop: { ...shop.workshop, lathe: { ...lathe, studs: '2', fixed: { input: '', output: '' } } },
      view: { rotate: 90, mirror: false },
    })
    expect(pageOf(held!).threads.map(({ pitch }) => pitch)).toEqual(['1', ''])
  })

  it.each<[string, unknown]>([
    ['null', null],
    ['a list', []],
    ['a number', 1],
    ['no parts', {}],
    ['its names in a prototype', '{"__proto__":{"threads":[{}]}}'],
  ])('makes a usable page of %s', (_, junk) => {
    const { held } = recalled({ a: junk, page: junk, open: '"page"', trainwright: junk }, { look: junk, visit: junk })
    expect(shopOf(held!)).toEqual(blankShop())
    expect(pageOf(held!).threads).toHaveLength(1)
  })

  it('has the visit that a reload cut short', () => {
    expect(recalled({}, { visit: { link: '#question=a', shop, page } }).visit).toEqual({
      link: '#question=a',
      shop,
      page,
    })
    expect(recalled({}).visit).toBeNull()
  })

  it('is not stopped by a browser that allows nothing', () => {
    const refused = () => {
      throw new Error('no storage here')
    }
    expect(recall(new Drawer(refused), new Drawer(refused))).toEqual({ held: null, visit: null, top: 'train' })
  })
})
