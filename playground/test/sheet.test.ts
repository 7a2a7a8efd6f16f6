import { readFile } from 'node:fs/promises'
import { describe, expect, test } from 'vitest'
import { printed } from './pdf.js'
import { nothingWrong, screens, tooSmall, unfold, usePage, wait } from './visit.js'

const visit = usePage()

describe.each(screens)('on a %s', (_, size) => {
  test('nothing is wider than the page, and everything to press is a thumb wide', async () => {
    const { page } = await visit(size)
    await unfold(page)
    await page.locator('.tally').first().click()
    expect(await tooSmall(page)).toEqual([])
  })
})

test('the drawing turns, and is saved as a file that stands alone', async () => {
  const { page } = await visit()
  const labels = () => page.locator('.train-drawing .shaft text').first().getAttribute('x')
  const before = await labels()
  await page.click('button[aria-label="Turn clockwise"]')
  expect(await labels()).not.toBe(before)
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('text=Save SVG')])
  expect(download.suggestedFilename()).toBe('train-24-72-48-80.svg')
  const svg = await readFile(await download.path(), 'utf8')
  const parsed = await page.evaluate((text) => {
    const root = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement
    return [root.nodeName, root.querySelector('desc')?.textContent]
  }, svg)
  expect(parsed[0]).toBe('svg')
  expect(parsed[1]).toContain('A, input shaft: 24 teeth in plane 1')
})

test('it prints on one page, and the card does not', async () => {
  const { page } = await visit()
  await wait(page, '.part-cautions')
  expect(await printed(page)).toHaveLength(1)
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('.card').isVisible()).toBe(false)
  // What to mind stands in the sheet by then, and the short note beside the drawing is left out.
  for (const part of ['.title-block', '.train-drawing', '.set-up', '.part-cautions']) {
    expect(await page.locator(part).isVisible(), part).toBe(true)
  }
})

test('nothing leaves the page or comes from elsewhere, and a hostile name is text', async () => {
  const { page, errors, url } = await visit()
  const asked: string[] = []
  page.on('request', (request) => asked.push(request.url()))
  await page.reload()
  await page.fill('#f-wanted-name', '<img src=x onerror="document.title=1">')
  await wait(page, '.block-thread dd:has-text("<img src=x")')
  expect(await page.title()).toContain('Trainwright')
  const origin = new URL(url).origin
  expect(asked.filter((one) => new URL(one).origin !== origin)).toEqual([])
  const policy = await page.locator('meta[http-equiv=Content-Security-Policy]').getAttribute('content')
  expect(policy).toContain("default-src 'none'")
  expect(policy).not.toContain('unsafe')
  expect(errors).toEqual([])
})

test('forced colours keep the drawing and what is chosen to be seen', async () => {
  const { page, errors } = await visit()
  await page.emulateMedia({ forcedColors: 'active' })
  const stroke = await page
    .locator('.train-drawing .tip')
    .first()
    .evaluate((one) => getComputedStyle(one).stroke)
  const canvas = await page.evaluate(() => getComputedStyle(document.body).backgroundColor)
  expect(stroke).not.toBe(canvas)
  expect(
    await page.locator('tw-thread .ticket[aria-pressed=true]').evaluate((one) => getComputedStyle(one).backgroundColor),
  ).not.toBe(
    await page
      .locator('tw-thread .ticket[aria-pressed=false]')
      .first()
      .evaluate((one) => getComputedStyle(one).backgroundColor),
  )
  await nothingWrong(page, errors)
})
