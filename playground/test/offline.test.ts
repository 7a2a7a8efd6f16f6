import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { violations } from './axe.js'
import { type BuiltPage, serveBuiltPage } from './built-page.js'
import { laptop, nothingWrong, screens, text, thread, titleBlock, wait } from './visit.js'

/*
 * The page without network, and newer versions of it: served from a copy, in which a newer version can appear.
 */

let folder: string
let built: BuiltPage

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'trainwright-'))
  await cp(new URL('../dist', import.meta.url).pathname, join(folder, 'dist'), { recursive: true })
  built = await serveBuiltPage(folder)
})
afterAll(async () => {
  await built?.close()
  await rm(folder, { recursive: true, force: true })
})

/** Opened once with a network, and ready for a day without. */
async function visited(size = laptop) {
  const { page, errors } = await built.open(size)
  await wait(page, '.train-drawing')
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.waitForFunction(() => navigator.serviceWorker.controller)
  return { page, errors }
}

const pitch = (page: Page) => page.inputValue('#f-wanted-pitch')
const said = (page: Page) => text(page.locator('.strip-said'))
const version = (page: Page) => page.locator('meta[name=description]').getAttribute('content')

/** Puts another version in the place of the one that is served, with other names of its files. */
async function publish(name: string): Promise<void> {
  const dist = join(folder, 'dist')
  const index = await readFile(join(dist, 'index.html'), 'utf8')
  await writeFile(
    join(dist, 'index.html'),
    index.replace(/name="description" content="[^"]*"/, `name="description" content="${name}"`),
  )
  const worker = await readFile(join(dist, 'sw.js'), 'utf8')
  const next = worker.replace(/(url:"index\.html",revision:")[^"]*/, `$1${name}`)
  expect(next).not.toBe(worker)
  await writeFile(join(dist, 'sw.js'), next)
}

const lookForUpdate = (page: Page) =>
  page.evaluate(async () => {
    await (await navigator.serviceWorker.getRegistration())!.update()
  })

test.each(screens)('tomorrow, without network: page, worker and what was typed are there, on a %s', async (_, size) => {
  const { page, errors } = await visited(size)
  await thread(page, 'Foot screws')
  await page.fill('#f-wanted-pitch', '1.25 mm')
  await page.context().setOffline(true)
  const tomorrow = await page.context().newPage()
  await page.close()
  tomorrow.on('pageerror', (error) => errors.push(String(error)))
  await tomorrow.goto(built.url)
  await wait(tomorrow, '.train-drawing')
  expect(await pitch(tomorrow)).toBe('1.25 mm')
  expect(await titleBlock(tomorrow)).toContain('1.25 mm')
  // The rest by the keyboard. A question that is taken back ends its worker: the next one is loaded without network, too.
  await tomorrow.locator('.ticket:has-text("Eyepiece cell")').focus()
  await tomorrow.keyboard.press('Enter')
  await wait(tomorrow, '.stamp[data-stamp=Exact]')
  await tomorrow.locator('#f-wanted-pitch').focus()
  await tomorrow.keyboard.press('Control+A')
  await tomorrow.keyboard.type('0.75 mm', { delay: 1 })
  await wait(tomorrow, '.block-thread dd:has-text("0.75 mm")')
  await tomorrow.reload()
  await wait(tomorrow, '.train-drawing')
  expect(await pitch(tomorrow)).toBe('0.75 mm')
  // The set-up sheet comes from what was laid by.
  await wait(tomorrow, '.parts')
  await nothingWrong(tomorrow, errors)
})

test('a link opens without network as well', async () => {
  const { page } = await visited()
  await page.context().setOffline(true)
  await page.goto(`${built.url}#question=nothing`)
  await page.reload()
  await wait(page, '.train-drawing')
  expect(await said(page)).toContain('This link cannot be read')
})

test('a newer version waits until the person agrees, and breaks no open page', async () => {
  const { page, errors } = await visited()
  await page.fill('#f-wanted-pitch', '1.5 mm')
  const other = await page.context().newPage()
  await other.goto(built.url)
  await wait(other, '.train-drawing')
  await publish('second')
  await lookForUpdate(page)
  await wait(page, '.strip-said:has-text("A newer version")')
  expect(await violations(page)).toEqual([])
  // Nothing has changed yet, for the open pages or for one opened now.
  await page.fill('#f-wanted-pitch', '1.75 mm')
  await wait(page, '.block-thread dd:has-text("1.75 mm")')
  await page.reload()
  await wait(page, '.train-drawing')
  expect(await version(page)).not.toBe('second')
  await wait(page, '.strip-said:has-text("A newer version")')
  await page.locator('.strip .key', { hasText: 'Take it' }).click()
  for (const one of [page, other]) {
    await one.waitForFunction(() => document.querySelector('meta[name=description][content=second]'))
    await wait(one, '.train-drawing')
    expect(await pitch(one)).toBe('1.75 mm')
    expect(await said(one)).not.toContain('newer version')
  }
  expect(errors).toEqual([])
})

test('a newer version is not forced upon a page whose typing cannot be kept', async () => {
  const { page } = await visited()
  const other = await page.context().newPage()
  await other.goto(built.url)
  await wait(other, '.train-drawing')
  await other.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException('full', 'QuotaExceededError')
    }
  })
  await other.fill('#f-wanted-pitch', '0.55 mm')
  await publish('third')
  await lookForUpdate(page)
  await wait(page, '.strip-said:has-text("A newer version")')
  expect(await said(other)).toContain('Not kept')
  await page.locator('.strip .key', { hasText: 'Take it' }).click()
  await page.waitForFunction(() => document.querySelector('meta[name=description][content=third]'))
  expect(await pitch(other)).toBe('0.55 mm')
  expect(await version(other)).not.toBe('third')
})

test('it can be installed: a manifest with icons of the sizes they say', async () => {
  const { page } = await visited()
  const manifest = await page.evaluate(async () => {
    const { href } = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!
    const { icons, ...rest } = await (await fetch(href)).json()
    const sizes = await Promise.all(
      icons.map(async ({ src }: { src: string }) => {
        const image = new Image()
        image.src = new URL(src, href).href
        await image.decode()
        return `${image.naturalWidth}x${image.naturalHeight}`
      }),
    )
    return { icons, sizes, rest }
  })
  expect(manifest.rest).toMatchObject({
    short_name: 'Trainwright',
    start_url: './',
    scope: './',
    display: 'standalone',
  })
  expect(manifest.icons.slice(1).map(({ sizes }: { sizes: string }) => sizes)).toEqual(manifest.sizes.slice(1))
  const client = await page.context().newCDPSession(page)
  const { installabilityErrors } = await client.send('Page.getInstallabilityErrors')
  // A window without a profile, as tests open it, may not install anything.
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([])
})

test('nothing is asked of another origin, by the page or by what works for it offline; the first version is no update', async () => {
  const context = await built.browser.newContext()
  const asked: string[] = []
  context.on('request', (request) => asked.push(request.url()))
  const page = await context.newPage()
  await page.addInitScript(() => {
    const offers: string[] = []
    Object.assign(window, { offers })
    new MutationObserver(() => {
      const said = document.querySelector('.strip-said')?.textContent ?? ''
      if (said.includes('newer version')) offers.push(said)
    }).observe(document, { subtree: true, childList: true, characterData: true })
  })
  await page.goto(built.url)
  await wait(page, '.train-drawing')
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.waitForFunction(() => navigator.serviceWorker.controller)
  expect(await page.evaluate(() => (window as unknown as { offers: string[] }).offers)).toEqual([])
  await page.fill('#f-wanted-pitch', '1 mm')
  await page.reload()
  await wait(page, '.train-drawing')
  const origin = new URL(built.url).origin
  expect(asked.length).toBeGreaterThan(5)
  expect(asked.some((url) => url.endsWith('/sw.js'))).toBe(true)
  expect(asked.filter((url) => new URL(url).origin !== origin)).toEqual([])
  await context.close()
})
