import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { nothingWrong, phone, text, unfold, usePage, wait } from './visit.js'

const visit = usePage()

const said = (page: Page) => text(page.locator('.strip-said'))
const undo = (page: Page) => page.locator('.strip .key', { hasText: 'Undo' }).click()
const kept = (page: Page) => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()))

async function save(page: Page): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('tw-workshops .key', { hasText: 'Save as a file' }).click(),
  ])
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') }
}

async function open(page: Page, content: string | Buffer, name = 'a.trainwright.json'): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.click('text=Open a file')])
  await chooser.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) })
}

test('a workshop goes out as a file and comes into another browser exactly as it was typed', async () => {
  const { page, errors } = await visit()
  await unfold(page)
  await page.fill('#f-name', 'Drehbank <b>Österreich</b>')
  await page.fill('#f-wanted-pitch', '26 tp')
  await page.fill('#f-kinds-0-line', '20 24,  30; x')
  const file = await save(page)
  expect(file.name).toBe('drehbank-b-österreich-b.trainwright.json')

  const { page: other, errors: otherErrors } = await visit(phone)
  await other.fill('#f-wanted-name', 'Mine')
  await unfold(other)
  const before = await kept(other)
  await open(other, file.text)
  await wait(other, '.strip-said:has-text("Opened: Drehbank <b>Österreich</b>.")')
  expect(await other.inputValue('#f-wanted-pitch')).toBe('26 tp')
  expect(await other.inputValue('#f-kinds-0-line')).toBe('20 24,  30; x')
  expect(await other.locator('tw-workshops .ticket b').count()).toBe(0)
  // What cannot be read is marked beside its field, as if it were typed here.
  await wait(other, '#f-kinds-0-line-note strong')
  expect((await save(other)).text.replace(/"threads"[\s\S]*?\],\s*"thread": \d+/, '')).toBe(
    file.text.replace(/"threads"[\s\S]*?\],\s*"thread": \d+/, ''),
  )
  await nothingWrong(other, otherErrors)
  await undo(other)
  expect(await other.inputValue('#f-wanted-name')).toBe('Mine')
  expect(await other.locator('tw-workshops .ticket').count()).toBe(2)
  expect(JSON.parse(await kept(other)).length).toBe(JSON.parse(before).length)
  expect(errors).toEqual([])
})

test('a file of the first version is migrated', async () => {
  const { page } = await visit()
  await unfold(page)
  const { shop, page: own } = JSON.parse((await save(page)).text)
  shop.workshop.name = 'Old times'
  await open(page, JSON.stringify({ version: 1, typed: { ...own, ...shop } }))
  await wait(page, '.strip-said:has-text("Opened: Old times.")')
  await wait(page, '.stamp[data-stamp=Exact]')
})

test('broken and hostile files are refused in a sentence and change nothing', async () => {
  const { page, errors } = await visit()
  await page.fill('#f-wanted-name', 'Mine')
  await unfold(page)
  const good = (await save(page)).text
  const damaged = (from: string | RegExp, to: string) => good.replace(from, to)
  const files: [name: string, content: string | Buffer, sentence: RegExp][] = [
    ['empty', '', /cannot be read/],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 0xff]), /cannot be read/],
    ['cut short', good.slice(0, good.length / 2), /cannot be read/],
    ['other JSON', '{"name":"a package","version":"1.0.0"}', /holds no workshop/],
    ['huge', `${good}${' '.repeat(1_500_000)}`, /too big/],
    ['deep', `${'['.repeat(200_000)}${']'.repeat(200_000)}`, /cannot be read/],
    ['deep within', damaged('"studs"', `"x": ${'['.repeat(500)}${']'.repeat(500)}, "studs"`), /cannot be read/],
    ['from a newer version', damaged(/"trainwright": \d+/, '"trainwright": 99'), /newer version/],
    ['a number for a text', damaged('"studs": "2"', '"studs": 2'), /damaged \(lathe\.studs\)/],
    ['a word that is none of the few', damaged('"by": "module"', '"by": "inch"'), /damaged \(kinds\[0\]\.by\)/],
    ['a thousand threads', damaged('"threads": [', `"threads": [${'{},'.repeat(1000)}`), /damaged \(threads/],
    ['no gears', damaged(/"kinds": \[[\s\S]*?\]\s*\}\s*\]/, '"kinds": []'), /damaged \(kinds\)/],
    ['a prototype for a workshop', '{"trainwright":2,"__proto__":{"shop":{"workshop":{}}}}', /holds no workshop/],
  ]
  const before = await kept(page)
  for (const [name, content, sentence] of files) {
    expect(content, name).not.toBe(good)
    await open(page, content)
    await page.waitForFunction(() => document.querySelector('.strip-said')!.textContent!.includes('This file'))
    expect(await said(page), name).toMatch(sentence)
    expect(await said(page), name).toMatch(/^✗ This file .*Nothing was changed\.$/)
    expect(await kept(page), name).toBe(before)
    expect(await page.inputValue('#f-wanted-name')).toBe('Mine')
    await page.locator('.strip .key', { hasText: 'OK' }).click()
    await page.waitForFunction(() => !document.querySelector('.strip-said')!.textContent!.includes('This file'))
  }
  await open(page, 'no JSON at all')
  await page.waitForFunction(() => document.querySelector('.strip-said')!.textContent!.includes('This file'))
  await nothingWrong(page, errors)
})

test('names and tricks in a file that is taken are text', async () => {
  const { page, errors } = await visit()
  await unfold(page)
  const { text: good } = await save(page)
  const name = '<img src=x onerror=\\"document.title=1\\">'
  await open(
    page,
    good
      .replace('"name": "Bench lathe, the level job"', `"name": "${name}"`)
      .replace('"studs"', '"__proto__": {"polluted": 1}, "constructor": {"prototype": {"polluted": 1}}, "studs"'),
  )
  await wait(page, 'tw-workshops .ticket-name:has-text("<img src=x")')
  expect(await page.title()).toContain('Trainwright')
  expect(await page.locator('img[src=x]').count()).toBe(0)
  expect(await page.evaluate(() => ({}) as { polluted?: number }).then((x) => x.polluted)).toBeUndefined()
  expect(errors).toEqual([])
})

test('the fullest files that are taken leave the page alive', async () => {
  const { page } = await visit()
  await unfold(page)
  const saved = (await save(page)).text
  const full = (kinds: number, line: (i: number) => string) => {
    const x = JSON.parse(saved)
    const [kind] = x.shop.workshop.kinds
    x.shop.workshop.kinds = Array.from({ length: kinds }, (_, i) => ({ ...kind, line: line(i), size: `${i + 1}` }))
    x.page.threads = Array.from({ length: 200 }, (_, i) => ({ ...x.page.threads[0], name: `${i} `.repeat(200) }))
    return JSON.stringify(x)
  }
  for (const content of [
    full(50, (i) => Array.from({ length: 60 }, (_, k) => 20 + i + k).join(' ')),
    full(50, () => 'y '.repeat(99)),
    full(2, () => 'y '.repeat(2500)),
  ]) {
    await open(page, content)
    await wait(page, '.strip-said:has-text("Opened")')
    await page.fill('#f-wanted-pitch', '1 mm')
    await wait(page, '.verdict[data-state=none]')
    await undo(page)
    await undo(page)
    await wait(page, '.verdict[data-state=current]')
  }
})
