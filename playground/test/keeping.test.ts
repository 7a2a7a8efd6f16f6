import { expect, test } from 'vitest'
import { nothingWrong, reload, screens, text, thread, titleBlock, unfold, usePage, wait } from './visit.js'

const visit = usePage()
type Visit = Awaited<ReturnType<typeof visit>>
type Page = Visit['page']

const said = (page: Page) => text(page.locator('.strip-said'))
const key = (page: Page, name: string) => page.locator('.strip .key', { hasText: name })
const shop = (page: Page, name: string) => page.locator('tw-workshops .ticket', { hasText: name })
const pitch = (page: Page) => page.inputValue('#f-wanted-pitch')

test.each(screens)('undo and redo take back and bring again what was typed and tapped, on a %s', async (_, size) => {
  const { page, errors } = await visit(size)
  expect(await said(page)).toBe('Kept in this browser as you type.')
  expect(await key(page, 'Undo').getAttribute('aria-disabled')).toBe('true')
  await page.fill('#f-wanted-pitch', '1 mm')
  await unfold(page)
  await page.click('.tally[data-teeth="24"]')
  await page.click('button[aria-label="One 24 more"]')
  await wait(page, '.tally[data-teeth="24"] .tally-count')
  await key(page, 'Undo').click()
  expect(await said(page)).toBe('Undone: box of gears.')
  expect(await page.locator('.tally[data-teeth="24"] .tally-count').count()).toBe(0)
  await nothingWrong(page, errors)
  await key(page, 'Undo').click()
  expect(await pitch(page)).toBe('40 tpi')
  await wait(page, '.stamp[data-stamp=Exact]')
  await key(page, 'Redo').click()
  await key(page, 'Redo').click()
  expect(await said(page)).toBe('Done again: box of gears.')
  expect(await pitch(page)).toBe('1 mm')
  await wait(page, '.tally[data-teeth="24"] .tally-count')
  await nothingWrong(page, errors)
})

test.each(screens)(
  'several workshops: new, named, copied, opened, removed with undo; threads stay, on a %s',
  async (_, size) => {
    const { page, errors } = await visit(size)
    await unfold(page)
    await page.click('text=+ New workshop')
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('f-name')
    // Nothing of another lathe stands there as an answer, old or not.
    await wait(page, '.verdict[data-state=none]')
    expect(await page.locator('.train-drawing').count()).toBe(0)
    await nothingWrong(page, errors)
    await page.keyboard.type('Club lathe')
    await page.fill('#f-lathe-leadscrew-pitch', '3 mm')
    await page.fill('#f-kinds-0-line', '20 30 40 45 50 60')
    await wait(page, '.verdict[data-state=current]')
    await page.click('text=Make a copy')
    await shop(page, 'Club lathe (copy)').waitFor()
    expect(await page.locator('tw-workshops .ticket[aria-pressed=true]').count()).toBe(1)
    await shop(page, 'Bench lathe').click()
    await wait(page, '.stamp[data-stamp=Exact]')
    expect(await titleBlock(page)).toContain('24 → 72, 48 → 80')
    expect(await pitch(page)).toBe('40 tpi')
    await shop(page, '(copy)').click()
    await page.locator('tw-workshops .key', { hasText: 'Remove' }).click()
    expect(await said(page)).toBe('Removed: Club lathe (copy). Undo brings it back.')
    expect(await shop(page, '(copy)').count()).toBe(0)
    await nothingWrong(page, errors)
    await key(page, 'Undo').click()
    expect(await shop(page, '(copy)').getAttribute('aria-pressed')).toBe('true')
    await reload(page)
    expect(await page.locator('tw-workshops .ticket').count()).toBe(4)
    expect(await page.inputValue('#f-name')).toBe('Club lathe (copy)')
  },
)

test.each(screens)(
  'no room in the browser: it says so, typing goes on, and a file can still be saved, on a %s',
  async (_, size) => {
    const { page, errors } = await visit(size)
    await page.fill('#f-wanted-pitch', '1 mm')
    await page.evaluate(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException('full', 'QuotaExceededError')
      }
    })
    await page.fill('#f-wanted-pitch', '0.75 mm')
    expect(await said(page)).toContain('✗ Not kept: the browser has no room')
    await wait(page, '.block-thread dd:has-text("0.75 mm")')
    await nothingWrong(page, errors)
    await page.click('.options label:has-text("Left") >> nth=0')
    await page.fill('#f-wanted-pitch', '0.7 mm')
    await key(page, 'Undo').click()
    expect(await pitch(page)).toBe('0.75 mm')
    await key(page, 'Redo').click()
    expect(await pitch(page)).toBe('0.7 mm')
    const [download] = await Promise.all([page.waitForEvent('download'), key(page, 'Save as a file').click()])
    expect(download.suggestedFilename()).toBe('bench-lathe-the-level-job.trainwright.json')
    await reload(page)
    expect(await pitch(page)).toBe('1 mm')
  },
)

test('no storage allowed at all: the page works, and says that nothing is kept', async () => {
  const { page, errors } = await visit()
  await page.addInitScript(() => {
    for (const name of ['localStorage', 'sessionStorage']) {
      Object.defineProperty(window, name, {
        get: () => {
          throw new DOMException('denied', 'SecurityError')
        },
      })
    }
  })
  await reload(page)
  await wait(page, '.train-drawing')
  expect(await said(page)).toContain('Not kept')
  await page.fill('#f-wanted-pitch', '1 mm')
  await wait(page, '.block-thread dd:has-text("1 mm")')
  expect(await said(page)).toContain('Not kept')
  expect(errors).toEqual([])
})

test('the keys of the keyboard undo and redo in fields and out of them', async () => {
  const { page } = await visit()
  await page.click('#f-wanted-pitch')
  await page.keyboard.press('Control+A')
  await page.keyboard.type('1 mm')
  await page.waitForTimeout(1100)
  await page.keyboard.type('x')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Control+z')
  expect(await pitch(page)).toBe('1 mm')
  await page.keyboard.press('Control+z')
  expect(await pitch(page)).toBe('40 tpi')
  await page.keyboard.press('Control+Shift+Z')
  expect(await pitch(page)).toBe('1 mm')
  await page.keyboard.press('Control+y')
  expect(await pitch(page)).toBe('1 mmx')
  // From a field that was not typed in, too, and from no field at all.
  await page.click('#f-wanted-name')
  await page.keyboard.press('Control+z')
  expect(await pitch(page)).toBe('1 mm')
  await page.locator('#answer').focus()
  await page.keyboard.press('Control+z')
  expect(await pitch(page)).toBe('40 tpi')
  await page.keyboard.press('Control+z')
  expect(await pitch(page)).toBe('40 tpi')
})

test('a field whose text the page does not hold undoes for itself', async () => {
  const { page } = await visit()
  await page.fill('#f-wanted-pitch', '1 mm')
  await page.evaluate(() => document.querySelector('.card')!.insertAdjacentHTML('beforeend', '<input id="own" />'))
  await page.click('#own')
  await page.keyboard.type('abc')
  await page.keyboard.press('Control+z')
  expect(await page.inputValue('#own')).not.toBe('abc')
  expect(await pitch(page)).toBe('1 mm')
})

test('the keyboard alone reaches undo, workshops and files', async () => {
  const { page } = await visit()
  await page.fill('#f-wanted-pitch', '1 mm')
  await page.evaluate(() => (document.activeElement as HTMLElement).blur())
  await key(page, 'Undo').focus()
  await page.keyboard.press('Enter')
  expect(await pitch(page)).toBe('40 tpi')
  // The key stays where it is, so that the focus does.
  expect(await page.evaluate(() => document.activeElement!.textContent!.trim())).toContain('Undo')
  const name = () => page.evaluate(() => document.activeElement!.textContent!.trim())
  for (let i = 0; i < 40 && !(await name()).startsWith('Workshop'); i++) await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  const seen = new Set<string>()
  for (let i = 0; i < 10; i++) {
    await page.keyboard.press('Tab')
    seen.add(await name())
  }
  for (const one of ['+ New workshop', 'Make a copy', 'Remove', 'Open a file', 'Save as a file', 'Copy a link']) {
    expect(seen).toContain(one)
  }
})

test('what is said is said to those who listen', async () => {
  const { page } = await visit()
  expect(await page.locator('.strip-said').evaluate((one) => one.tagName)).toBe('OUTPUT')
  expect(await page.getByRole('button', { name: 'Undo' }).count()).toBe(1)
})

test('threads, lathe and box of the first version are still there', async () => {
  const { page } = await visit()
  await page.fill('#f-wanted-pitch', '0.35 mm')
  const first = await page.evaluate(() => {
    const read = (key: string) => JSON.parse(localStorage.getItem(`trainwright/2/${key}`)!)
    const typed = { ...read('page'), ...read('first') }
    localStorage.clear()
    sessionStorage.clear()
    typed.workshop.name = 'From before'
    typed.thread = 1
    return JSON.stringify({ version: 1, typed })
  })
  await page.evaluate((first) => localStorage.setItem('trainwright', first), first)
  await reload(page)
  expect(await text(page.locator('.fold-said').first())).toBe('From before')
  expect(await text(page.locator('tw-thread .ticket').first())).toContain('0.35 mm')
  await thread(page, 'Tangent screw')
  expect(await page.evaluate(() => Object.keys(localStorage).sort())).toEqual([
    'trainwright/2/first',
    'trainwright/2/open',
    'trainwright/2/page',
  ])
})
