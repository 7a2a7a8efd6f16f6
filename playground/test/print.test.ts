import { setUpSheet } from '@trainwright/sheet'
import { findTrains } from '@trainwright/trains'
import { describe, expect, test } from 'vitest'
import { demo } from '../src/demo.js'
import { ask } from '../src/state/ask.js'
import { splitTyped } from '../src/state/kept.js'
import { linkOf } from '../src/state/link.js'
import type { Typed, Units } from '../src/state/typed.js'
import { blankWork, type TypedWork } from '../src/state/typed-work.js'
import { printed, squeezed } from './pdf.js'
import { figuresOf } from './sheet-figures.js'
import { laptop, phone, thread, usePage, wait } from './visit.js'

const visit = usePage()

/** The sheet that the page has to show: made here from the same words. */
function sheetOf(typed: Typed) {
  const { workshop, wanted, options, work } = ask(typed).question
  const { trains, closest } = findTrains(workshop, wanted, options)
  return setUpSheet(workshop, wanted, (trains[0] ?? closest)!, work)
}

const withWork = (at: number, change: Partial<TypedWork>, more: Partial<Typed['threads'][0]> = {}): Typed => {
  const typed = demo()
  const threads = typed.threads.map((one, i) =>
    i === at ? { ...one, ...more, work: { ...one.work, ...change } } : one,
  )
  return { ...typed, thread: at, threads }
}

const jobs: [string, Typed, Units[]?][] = [
  ['the exact train', withWork(0, {})],
  ['the train within tolerance', withWork(1, {}), ['mm', 'inch']],
  ['the left-hand train', withWork(2, {})],
  ['the closest train, out of tolerance', withWork(3, {})],
  ['a train without the thread itself', withWork(0, blankWork())],
  [
    'a nut of four starts with its mate and a tap',
    withWork(
      1,
      { cut: 'nut', class: '6H', diameter: '24', mate: { part: true, tap: true, flutes: '3' } },
      { starts: '4' },
    ),
  ],
  ['forty passes', withWork(0, { passes: { by: 'count', count: '40', firstCut: '', spring: '' } })],
]

describe.each(jobs)('%s', (_, typed, units = ['mm']) => {
  test.each(units)('prints on one page that holds every figure of its sheet, in %s', async (units) => {
    const { shop, page: rest } = splitTyped({ ...typed, view: { ...typed.view, units } })
    const { page, errors } = await visit(laptop, (await linkOf(shop, rest))!)
    await wait(page, '.parts')
    const pages = await printed(page)
    expect(pages).toHaveLength(1)
    const figures = figuresOf(sheetOf(typed), units)
    expect(figures.length).toBeGreaterThan(30)
    expect(figures.filter((figure) => !pages[0]!.includes(squeezed(figure)))).toEqual([])
    expect(errors).toEqual([])
  })
})

test('a telephone prints the same page', async () => {
  const { page } = await visit(phone)
  await thread(page, 'Foot screws')
  await wait(page, '.parts :text("6.502 mm")')
  const [only, ...others] = await printed(page)
  expect(others).toEqual([])
  expect(only).toContain(squeezed('Foot screws'))
  expect(only).not.toContain(squeezed('Tooth counts'))
})

test('printing leaves the page as it was', async () => {
  const { page } = await visit()
  await wait(page, '.parts')
  const size = () => page.evaluate(() => [document.documentElement.scrollHeight, getComputedStyle(document.body).color])
  const before = await size()
  await printed(page)
  expect(await size()).toEqual(before)
})
