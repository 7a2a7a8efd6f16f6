import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { page, shop } from '../../test/arbitraries.js'
import { FIRST_VERSION, readNow } from '../../test/first-version.js'
import { demo } from '../demo.js'
import { splitTyped } from './kept.js'
import { documentOf, fileName, fileText, LARGEST, readFile } from './workshop-file.js'

const ours = splitTyped(demo())
const written = () => JSON.parse(fileText(ours.shop, ours.page))
/** The demonstration's file with something else at the end of a way. */
function withAt(way: string, value: unknown): string {
  const x = written()
  const keys = way.split('.')
  const last = keys.pop()!
  keys.reduce((part, key) => part[key], x)[last] = value
  return JSON.stringify(x)
}

describe('a workshop file', () => {
  it('gives back exactly what was typed, readable or not', () => {
    fc.assert(
      fc.property(shop, page, (shop, page) => {
        // What the page only passes on may have any names but one.
        const text = fileText(shop, page).replaceAll('"__proto__":', '"proto":')
        const { trainwright: _, ...parts } = JSON.parse(text)
        expect(readFile(text)).toEqual(parts)
      }),
    )
  })

  it('keeps what a newer page of the same version has added', () => {
    const x = { ...written(), colour: 1 }
    x.shop.picture = 'none'
    x.shop.workshop.lathe.weight = '40 kg'
    x.page.threads[0].depth = '1 mm'
    expect(readFile(JSON.stringify(x))).toEqual({ shop: x.shop, page: x.page })
  })

  it('fills in what an older page did not know yet', () => {
    const x = written()
    delete x.shop.workshop.lathe.gearbox
    delete x.shop.view
    delete x.page.order
    delete x.page.threads[1].tolerance
    expect(readFile(JSON.stringify(x))).toMatchObject({
      shop: { workshop: { lathe: { gearbox: [] } }, view: { rotate: 90, mirror: false } },
      page: { order: 'fewest gears', threads: [{}, { pitch: '1 mm', tolerance: { by: 'ppm', ppm: '500' } }, {}, {}] },
    })
  })

  it('migrates the first version', () => {
    expect(readFile(FIRST_VERSION)).toEqual(splitTyped(readNow()))
  })

  it('reads a file without threads as one with a blank thread', () => {
    const { shop } = ours
    expect(readFile(JSON.stringify({ trainwright: 2, shop }))).toMatchObject({
      shop,
      page: { threads: [{ pitch: '' }] },
    })
  })

  it('has a name of its own, of the name of the workshop', () => {
    const named = (name: string) => fileName({ ...ours.shop, workshop: { ...ours.shop.workshop, name } })
    expect(fileName(ours.shop)).toBe('bench-lathe-the-level-job.trainwright.json')
    expect(named('../../etc/pass wd')).toBe('etc-pass-wd.trainwright.json')
    expect(named('Drehbank für Ösen 2')).toBe('drehbank-für-ösen-2.trainwright.json')
    expect(named(' ?! ')).toBe('workshop.trainwright.json')
  })
})

describe('a broken file is refused', () => {
  const deep = (open: string, close: string, times: number) => open.repeat(times) + close.repeat(times)
  it.each<[string, string, string]>([
    ['empty', '', 'unreadable'],
    ['no JSON', 'lathe, 8 tpi', 'unreadable'],
    ['cut short', fileText(ours.shop, ours.page).slice(0, 500), 'unreadable'],
    ['bytes of a picture', '\u0089PNG\r\n\u001a\n', 'unreadable'],
    ['deep lists', deep('[', ']', 100_000), 'unreadable'],
    ['deep objects', deep('{"a":', '}', 5_000).replace(':}', ':1}'), 'unreadable'],
    ['deep in a part passed on', withAt('shop.workshop.also', JSON.parse(deep('[', ']', 100))), 'unreadable'],
    ['null', 'null', 'not-ours'],
    ['a text', '"trainwright"', 'not-ours'],
    ['a list', '[{"trainwright":2}]', 'not-ours'],
    ['something else', '{"version":"1.0","name":"a package"}', 'not-ours'],
    ['no number of a version', withAt('trainwright', 'two'), 'not-ours'],
    ['a version before the first', withAt('trainwright', 0), 'not-ours'],
    ['no workshop in it', '{"trainwright":2,"page":{}}', 'not-ours'],
    ['a first version without a workshop', '{"version":1}', 'not-ours'],
    ['its names in a prototype', '{"__proto__":{"trainwright":2,"shop":{"workshop":{}}}}', 'not-ours'],
    ['a newer version', withAt('trainwright', 3), 'newer'],
    ['huge', ' '.repeat(LARGEST) + fileText(ours.shop, ours.page), 'too-big'],
  ])('%s', (_, text, code) => {
    expect(readFile(text)).toEqual({ refusal: { code } })
  })

  it.each<[string, unknown]>([
    ['shop.workshop.name', 7],
    ['shop.workshop.lathe', []],
    ['shop.workshop.lathe.studs', 2],
    ['shop.workshop.lathe.leadscrew.hand', 'up'],
    ['shop.workshop.lathe.drives', { length: 3 }],
    ['shop.workshop.kinds', []],
    ['shop.workshop.kinds.0.shafts', ['spindle']],
    ['shop.view.rotate', '90'],
    ['page.threads', {}],
    ['page.threads.2.pitch', null],
    ['page.thread', 9],
    ['page.thread', 0.5],
    ['page.order', 'nicest'],
    ['shop.workshop.name', 'n'.repeat(5001)],
    ['page.threads', Array(201).fill({})],
    ['shop.workshop.kinds', Array(51).fill({})],
    ['shop.workshop.kinds', Array(3).fill({ line: '20 '.repeat(1500) })],
  ])('damaged at %s', (way, value) => {
    const place = way.replace(/^\w+\./, '').replace(/\.(\d+)/g, '[$1]')
    const opened = readFile(withAt(way, value))
    expect(opened).toMatchObject({ refusal: { code: 'damaged' } })
    expect(JSON.stringify(opened)).toContain(place)
  })

  it('any junk, without throwing', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.json(),
          fc.json().map((x) => `{"trainwright":2,"shop":${x}}`),
        ),
        (text) => {
          expect(Object.keys(readFile(text))).toEqual(expect.arrayContaining([]))
        },
      ),
    )
  })

  it('any part replaced by junk is refused, or read back as it is', () => {
    const ways = ['shop', 'page', 'shop.workshop', 'shop.workshop.lathe', 'shop.workshop.kinds', 'page.threads']
    fc.assert(
      fc.property(fc.constantFrom(...ways), fc.jsonValue(), (way, junk) => {
        const opened = readFile(withAt(way, junk))
        if ('refusal' in opened) return
        const again = readFile(JSON.stringify(documentOf(opened.shop, opened.page)))
        expect(again).toEqual(opened)
      }),
    )
  })
})

it('a prototype in a file is nothing', () => {
  const text = fileText(ours.shop, ours.page).replaceAll('"name"', '"__proto__": {"polluted": true}, "name"')
  const opened = readFile(text)
  expect(opened).toEqual(ours)
  expect(JSON.stringify(opened)).not.toContain('polluted')
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
})
