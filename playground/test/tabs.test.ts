import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { nothingWrong, reload, text, thread, unfold, usePage, wait } from './visit.js'

const visit = usePage()

/** The page twice in one browser, both looked at. */
async function two() {
  const { page: a, errors, url } = await visit()
  const b = await a.context().newPage()
  b.on('pageerror', (error) => errors.push(String(error)))
  await b.goto(url)
  await wait(b, '.train-drawing')
  return { a, b, errors, url }
}

const pitch = (page: Page) => page.inputValue('#f-wanted-pitch')
const said = (page: Page) => text(page.locator('.strip-said'))
const until = (page: Page, field: string, value: string) =>
  page.waitForFunction(
    ([field, value]) => document.querySelector<HTMLInputElement>(field!)!.value === value,
    [field, value],
  )
const undo = (page: Page) => page.locator('.strip .key', { hasText: 'Undo' }).click()

test('what one tab types shows in the other, which is told and can undo it', async () => {
  const { a, b, errors } = await two()
  await a.fill('#f-wanted-pitch', '1 mm')
  await until(b, '#f-wanted-pitch', '1 mm')
  expect(await said(b)).toContain('Changed in another tab')
  await nothingWrong(b, errors)
  await undo(b)
  expect(await pitch(b)).toBe('40 tpi')
  await until(a, '#f-wanted-pitch', '40 tpi')
  expect(await said(a)).toContain('Changed in another tab')
  await undo(a)
  await until(b, '#f-wanted-pitch', '1 mm')
})

test('two tabs that type in turn, in one part and in several, overwrite nothing', async () => {
  const { a, b, url } = await two()
  for (const page of [a, b]) await unfold(page)
  await a.fill('#f-lathe-shaftClearance', '13')
  await b.fill('#f-wanted-name', 'Both')
  await a.fill('#f-wanted-pitch', '1 mm')
  await b.fill('#f-kinds-0-line', '20 24 60 63 80')
  await until(a, '#f-kinds-0-line', '20 24 60 63 80')
  await until(b, '#f-wanted-pitch', '1 mm')
  const c = await a.context().newPage()
  await c.goto(url)
  await wait(c, '.card')
  for (const page of [a, b, c]) {
    expect(await page.inputValue('#f-lathe-shaftClearance')).toBe('13')
    expect(await page.inputValue('#f-wanted-name')).toBe('Both')
    expect(await pitch(page)).toBe('1 mm')
    expect(await page.inputValue('#f-kinds-0-line')).toBe('20 24 60 63 80')
  }
})

test('two tabs hold two workshops and two threads side by side, and each comes back to its own', async () => {
  const { a, b } = await two()
  await unfold(a)
  await a.click('text=Make a copy')
  await thread(a, 'Foot screws')
  await a.fill('#f-lathe-studs', '1')
  expect(await pitch(b)).toBe('40 tpi')
  expect(await b.inputValue('#f-lathe-studs')).toBe('2')
  await b.fill('#f-lathe-studs', '3')
  await reload(a)
  expect(await a.inputValue('#f-name')).toBe('Bench lathe, the level job (copy)')
  expect(await a.inputValue('#f-lathe-studs')).toBe('1')
  expect(await pitch(a)).toBe('1 mm')
  await reload(b)
  expect(await b.inputValue('#f-lathe-studs')).toBe('3')
  expect(await pitch(b)).toBe('40 tpi')
})

test('a workshop removed in another tab stays where it is open', async () => {
  const { a, b, errors } = await two()
  for (const page of [a, b]) await unfold(page)
  await a.fill('#f-name', 'Shared')
  await until(b, '#f-name', 'Shared')
  await a.locator('tw-workshops .key', { hasText: 'Remove' }).click()
  await b.waitForFunction(() => document.querySelector('.strip-said')!.textContent!.includes('removed'))
  expect(await b.inputValue('#f-name')).toBe('Shared')
  await b.fill('#f-lathe-studs', '4')
  await a.locator('tw-workshops .ticket', { hasText: 'Shared' }).click()
  expect(await a.inputValue('#f-lathe-studs')).toBe('4')
  expect(errors).toEqual([])
})
