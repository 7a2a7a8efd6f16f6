import { join } from 'node:path'
import type { Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect } from 'vitest'
import { violations } from './axe.js'
import { type BuiltPage, serveBuiltPage } from './built-page.js'

export const phone = { width: 390, height: 844 }
export const laptop = { width: 1280, height: 900 }
/** For what has to hold on both. */
export const screens = [
  ['phone', phone],
  ['laptop', laptop],
] as const

/** Serves the page for the tests of a file; the answer opens it with its first answer on it. */
export function usePage() {
  let built: BuiltPage
  beforeAll(async () => {
    built = await serveBuiltPage()
  })
  afterEach(async () => {
    for (const context of built.browser.contexts()) await context.close()
  })
  afterAll(() => built?.close())
  return async (size = laptop, link = '') => {
    const opened = await built.open(size, link)
    await opened.page.waitForSelector('.train-drawing')
    await drawn(opened.page)
    return { ...opened, url: built.url }
  }
}

/** What stands there, without the white space of its source. */
export const text = async (locator: Locator): Promise<string> =>
  (await locator.textContent())!.replace(/\s+/g, ' ').trim()
export const titleBlock = (page: Page): Promise<string> => text(page.locator('.title-block'))
export const wait = (page: Page, selector: string): Promise<void> => page.locator(selector).first().waitFor()
/** What is wrong beside a field. */
export const note = (page: Page, field: string): Locator => page.locator(`#f-${field}-note strong`)
/** Puts text into a field in one go, as pasting does: `fill` writes line by line. */
export const paste = (page: Page, field: string, text: string): Promise<void> =>
  page.locator(field).evaluate((entry, text) => {
    ;(entry as HTMLTextAreaElement).value = text
    entry.dispatchEvent(new InputEvent('input', { bubbles: true, inputType: 'insertFromPaste' }))
  }, text)
export const thread = (page: Page, name: string): Promise<void> => page.click(`.ticket:has-text("${name}")`)
/** Settles when every part of the page is drawn: what is folded away comes after the first answer. */
async function drawn(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const parts = [...document.querySelectorAll('tw-app, tw-app *')].filter((one) => 'hasUpdated' in one)
    return parts.length > 0 && parts.every(({ hasUpdated }) => hasUpdated)
  })
}
export async function reload(page: Page): Promise<void> {
  await page.reload()
  await drawn(page)
}
export async function unfold(page: Page): Promise<void> {
  await drawn(page)
  await page.locator('details').evaluateAll((all) => {
    for (const one of all) (one as HTMLDetailsElement).open = true
  })
}

/** Goes on by the keyboard alone to the next element of a kind. */
export async function tabTo(page: Page, what: string): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab')
    if (await page.evaluate((what) => document.activeElement?.matches(what), what)) return
  }
  throw new Error(`no ${what} by the keyboard`)
}

/** Where pictures of the page in its states are kept for people to look at; none are taken when it is not set. */
const pictures = process.env.PICTURES
let taken = 0
async function takePicture(page: Page): Promise<void> {
  if (!pictures) return
  const { currentTestName = '' } = expect.getState()
  const name = `${currentTestName.replace(/\W+/g, '-')}-${++taken}`
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme })
    await page.screenshot({ path: join(pictures, `${name}-${colorScheme}.png`), fullPage: true })
  }
}

/** Neither axe nor the page itself has anything to complain of. */
export async function nothingWrong(page: Page, errors: string[]): Promise<void> {
  await takePicture(page)
  expect(await violations(page)).toEqual([])
  expect(errors).toEqual([])
}

/** What is there to press and is not a thumb wide; nothing of the page is wider than the window. */
export async function tooSmall(page: Page): Promise<string[]> {
  const [page_, window_] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth])
  expect(page_).toBeLessThanOrEqual(window_!)
  return page.locator('button, summary, select, label:has(> input), input[type=text], textarea').evaluateAll((all) =>
    all
      .map((one) => ({ box: one.getBoundingClientRect(), what: one.outerHTML.slice(0, 120) }))
      .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
      .map(({ box, what }) => `${box.width} x ${box.height}: ${what}`),
  )
}
