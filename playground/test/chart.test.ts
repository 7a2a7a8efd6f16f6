import { expect, test } from 'vitest'
import { printed, squeezed } from './pdf.js'
import { nothingWrong, paste, reload, screens, text, unfold, usePage, wait } from './visit.js'

const visit = usePage()

test.each(screens)('the chart of the wish list, with what a gear more would add, on a %s', async (_, size) => {
  const { page, errors } = await visit(size)
  await page.click('#tab-chart')
  await wait(page, '.chart tr[data-added]')
  expect(await page.locator('.chart tbody tr').count()).toBe(7)
  expect(await text(page.locator('#sheet-chart .search-line'))).toBe('The box cuts 2 of 7 threads.')
  expect(await text(page.locator('.chart tr:has-text("M6")'))).toContain('24 → 80, 63 → 60')
  expect(await text(page.locator('.chart tr:has-text("26 tpi")'))).toContain('LH')
  const added = page.locator('.chart tr[data-added]')
  expect(await text(added.first())).toContain('with 98')
  expect(await page.locator('#f-chart-added option').count()).toBeGreaterThan(2)
  await page.locator('#f-chart-added').selectOption({ index: 2 })
  await page.locator('.chart-with:has-text("with 98")').first().waitFor({ state: 'detached' })
  expect(await added.count()).toBeGreaterThan(0)
  await page.selectOption('#f-chart-added', '')
  await added.first().waitFor({ state: 'detached' })
  expect(await text(page.locator('.chart tr:has-text("M4")'))).toContain('no train')
  const [all, seen] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth])
  expect(all).toBeLessThanOrEqual(seen!)
  await nothingWrong(page, errors)
})

test('with a pair yet to be made, each row names what it needs', async () => {
  const { page, errors } = await visit()
  const added = page.locator('.chart tr[data-added]')
  await page.click('#tab-gear')
  await page.locator('.options label:has-text("A pair") input').press('Space')
  await wait(page, '.options label:has-text("A pair") input:checked')
  await page.click('#tab-chart')
  await wait(page, '.chart + .set-note:has-text(" or ")')
  await wait(page, '#sheet-chart .search-line[data-state=current]')
  const labels = await added.evaluateAll((rows) =>
    rows.map((row) =>
      ['.chart-with', '.chart-train'].map((part) => row.querySelector(part)!.textContent!.match(/\d+/g)!),
    ),
  )
  for (const [made, gears] of labels) expect(gears).toEqual(expect.arrayContaining(made!))
  expect(labels.some(([made]) => made!.length === 1)).toBe(true)
  await nothingWrong(page, errors)
})

test('a whole series, in the order that changes fewest gears; an empty list says so', async () => {
  const { page, errors } = await visit()
  await page.click('#tab-chart')
  await wait(page, '.chart')
  await page.selectOption('#f-chart-of', 'M fine')
  await wait(page, '.chart caption:has-text("ISO metric, fine")')
  await wait(page, '.chart tr:has-text("M8x1 to M30x1")')
  const order = () => page.locator('.chart tbody th[scope=row]').allTextContents()
  const given = await order()
  await page.click('.chart-asked label:has-text("fewest changes")')
  await page.waitForFunction(
    (old) => [...document.querySelectorAll('.chart tbody th[scope=row]')].map((th) => th.textContent).join() !== old,
    given.join(),
  )
  expect((await order()).sort()).toEqual(given.sort())
  await page.selectOption('#f-chart-of', '')
  await page.click('.chart-asked button:has-text("Wish list")')
  await wait(page, '#f-wishes-list')
  await page.fill('#f-wishes-list', '')
  await wait(page, 'text=The wish list is empty')
  await nothingWrong(page, errors)
  await reload(page)
  await wait(page, '#tab-chart[aria-selected=true]')
  await wait(page, 'text=The wish list is empty')
})

test.each([
  ['a few threads', 'the wish list', ''],
  ['a whole series', 'ISO metric, coarse', 'M'],
])('it prints on one page: %s', async (_, name, value) => {
  const { page } = await visit()
  await page.click('#tab-chart')
  await wait(page, '.chart')
  await page.selectOption('#f-chart-of', value)
  if (value) await wait(page, `.chart caption:has-text("${name}")`)
  await wait(page, '.chart-with')
  const [only, ...others] = await printed(page)
  expect(others).toEqual([])
  for (const row of await page.locator('.chart tbody tr').allTextContents()) expect(only).toContain(squeezed(row))
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('.chart').isVisible()).toBe(true)
  for (const part of ['.card', '.tabs', '.chart-asked', '#sheet-train'])
    expect(await page.locator(part).first().isVisible(), part).toBe(false)
})

test('sixty threads still print on one page', async () => {
  const { page } = await visit()
  await page.click('#tab-chart')
  await unfold(page)
  await wait(page, '#f-wishes-list')
  await paste(page, '#f-wishes-list', Array.from({ length: 60 }, (_, i) => `${0.5 + i / 40} mm thread ${i}`).join('\n'))
  await wait(page, '.chart tr:has-text("thread 59")')
  const [only, ...others] = await printed(page)
  expect(others).toEqual([])
  expect(only).toContain(squeezed('thread 59'))
})
