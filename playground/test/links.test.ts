import { deflateRawSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { nothingWrong, reload, screens, text, thread, titleBlock, unfold, usePage, wait } from './visit.js'

const visit = usePage()

const said = (page: Page) => text(page.locator('.strip-said'))
const press = (page: Page, name: string) => page.locator('.strip .key', { hasText: name }).click()
const kept = (page: Page) => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()))
const packed = (text: string): string => `#question=${deflateRawSync(text).toString('base64url')}`

/** A link as the page makes it, of a workshop of its own. */
async function linkFrom(page: Page): Promise<string> {
  await unfold(page)
  await page.fill('#f-name', 'A friend’s lathe')
  await thread(page, 'Foot screws')
  await page.fill('#f-lathe-leadscrew-pitch', '6 tpi')
  // Where the clipboard is not allowed, the link stands there to be copied.
  await page.evaluate(() => {
    navigator.clipboard.writeText = () => Promise.reject(new Error('not allowed'))
  })
  await page.click('text=Copy a link')
  await wait(page, '#f-link')
  return page.inputValue('#f-link')
}

test.each(screens)(
  'a link shows the whole question to a visitor and touches nothing of their own until they keep it, on a %s',
  async (_, size) => {
    const { page: friend, errors: friendErrors } = await visit(size)
    const link = await linkFrom(friend)
    await nothingWrong(friend, friendErrors)
    await wait(friend, '.verdict[data-state=current]')
    const block = await titleBlock(friend)
    await friend.fill('#f-wanted-name', 'Other screws')
    await friend.locator('#f-link').waitFor({ state: 'detached' })

    const { page, errors } = await visit(size)
    await page.fill('#f-wanted-name', 'Mine')
    const before = await kept(page)
    await page.goto(link)
    await reload(page)
    await wait(page, '.verdict[data-state=current]')
    expect(await said(page)).toContain('came with a link')
    expect(await titleBlock(page)).toBe(block)
    expect(await text(page.locator('tw-thread .ticket').first())).toContain('Foot screws')
    expect(await kept(page)).toBe(before)
    await nothingWrong(page, errors)

    await page.fill('#f-wanted-pitch', '0.9 mm')
    await reload(page)
    await wait(page, '.card')
    expect(await page.inputValue('#f-wanted-pitch')).toBe('0.9 mm')
    expect(await kept(page)).toBe(before)

    await press(page, 'Back to mine')
    expect(await page.inputValue('#f-wanted-name')).toBe('Mine')
    expect(new URL(page.url()).hash).toBe('')

    // The same link in the address of the open page.
    await page.evaluate((hash) => {
      location.hash = hash
    }, new URL(link).hash)
    await page.waitForFunction(() => document.querySelector('.strip-said')!.textContent!.includes('came with a link'))
    await press(page, 'Keep it')
    expect(await said(page)).toBe('Opened: A friend’s lathe.')
    await unfold(page)
    expect(await page.locator('tw-workshops .ticket-name').allTextContents()).toEqual([
      'Bench lathe, the level job',
      'A friend’s lathe',
    ])
    expect(await page.inputValue('#f-wanted-pitch')).toBe('1 mm')
    await nothingWrong(page, errors)
    await press(page, 'Undo')
    expect(await page.locator('tw-workshops .ticket-name').allTextContents()).toEqual(['Bench lathe, the level job'])
    expect(await page.inputValue('#f-wanted-name')).toBe('Mine')
  },
)

test('a visitor who has nothing of their own yet keeps the question alone', async () => {
  const { page: friend } = await visit()
  const link = await linkFrom(friend)
  const { page } = await visit()
  await page.goto(link)
  await reload(page)
  await wait(page, '.strip .key:has-text("Keep it")')
  await press(page, 'Keep it')
  await reload(page)
  await wait(page, '.card')
  await unfold(page)
  expect(await page.locator('tw-workshops .ticket-name').allTextContents()).toEqual(['A friend’s lathe'])
  expect(await page.locator('tw-thread .ticket-name').allTextContents()).toEqual(['Foot screws'])
})

test('where it may, the page puts the link on the clipboard and says so', async () => {
  const { page } = await visit()
  await unfold(page)
  await page.evaluate(() => {
    navigator.clipboard.writeText = async (text) => {
      document.title = text
    }
  })
  await page.click('text=Copy a link')
  await wait(page, '.strip-said:has-text("Link copied")')
  expect(await page.title()).toMatch(/^http.*\/#question=[\w-]+$/)
})

test('hostile links are refused in a sentence, in time, and change nothing', async () => {
  const { page, errors, url } = await visit()
  await page.fill('#f-wanted-name', 'Mine')
  await unfold(page)
  const before = await kept(page)
  const own = JSON.parse(JSON.parse(before).find(([key]: [string]) => key.endsWith('/first'))[1])
  const doc = (shop: unknown, more = {}) => packed(JSON.stringify({ trainwright: 2, shop, page: {}, ...more }))
  const links: [name: string, hash: string, sentence: RegExp][] = [
    ['nothing', '#question=', /cannot be read/],
    ['markup', '#question=<script>document.title=1</script>', /cannot be read/],
    ['noise', `#question=${'aZ09_-'.repeat(500)}`, /cannot be read/],
    ['too long', `#question=${'A'.repeat(100_000)}`, /too big/],
    ['huge once unpacked', packed('0'.repeat(10_000_000)), /cannot be read/],
    ['deep', packed(`${'['.repeat(49_000)}${']'.repeat(49_000)}`), /cannot be read/],
    ['no workshop', packed('{"trainwright":2}'), /holds no workshop/],
    ['newer', doc(own, { trainwright: 3 }), /newer version/],
    ['damaged', doc({ workshop: { lathe: 5 } }), /damaged \(lathe\)/],
    ['many gears', doc({ workshop: { kinds: Array(99).fill({ line: '20 21 '.repeat(100) }) } }), /damaged \(kinds\)/],
  ]
  for (const [name, hash, sentence] of links) {
    await page.evaluate((hash) => {
      location.hash = hash
    }, hash)
    await page.waitForFunction(() => document.querySelector('.strip-said')!.textContent!.includes('This link'))
    expect(await said(page), name).toMatch(sentence)
    expect(await said(page), name).toMatch(/^✗ This link .*Nothing was changed\.$/)
    expect(await kept(page), name).toBe(before)
    await press(page, 'OK')
    await page.waitForFunction(() => !document.querySelector('.strip-said')!.textContent!.includes('This link'))
  }
  await page.goto(`${url}${links[4]![1]}`)
  await reload(page)
  await wait(page, '.train-drawing')
  expect(await said(page)).toMatch(/^✗ This link cannot be read/)
  expect(await page.inputValue('#f-wanted-name')).toBe('Mine')
  await nothingWrong(page, errors)
})

test('a name in a link is text', async () => {
  const { page, errors, url } = await visit()
  await page.fill('#f-wanted-name', 'Mine')
  const name = '<img src=x onerror="document.title=1">'
  const shop = { workshop: { name, lathe: { leadscrew: { pitch: '8 tpi' } }, kinds: [{ line: '20 40 50' }] } }
  await page.goto(
    `${url}${packed(JSON.stringify({ trainwright: 2, shop, page: { threads: [{ name, pitch: '1/16 in' }] } }))}`,
  )
  await reload(page)
  await wait(page, '.ticket-name:has-text("<img src=x")')
  expect(await page.title()).toContain('Trainwright')
  expect(await page.locator('img[src=x]').count()).toBe(0)
  expect(errors).toEqual([])
})
