import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { printed, squeezed } from './pdf.js'
import {
  laptop,
  note,
  nothingWrong,
  phone,
  reload,
  screens,
  tabTo,
  text,
  thread,
  titleBlock,
  unfold,
  usePage,
  wait,
} from './visit.js'

const visit = usePage()

const part = (page: Page, name: string) => page.locator(`.part-${name}`)
const sheetHolds = (page: Page, name: string, words: string) => wait(page, `.part-${name}:has-text("${words}")`)
/** Opens the folds that a person has to open to come to an element. */
const openFold = (page: Page, ...names: string[]) =>
  page.evaluate((names) => {
    for (const name of names) document.querySelector<HTMLDetailsElement>(`[data-fold=${name}]`)!.open = true
  }, names)

test.each(screens)('from the exact train to the printed sheet, on a %s', async (_, size) => {
  const { page, errors } = await visit(size)
  await sheetHolds(page, 'sizes', '28.000 mm')
  expect(await text(part(page, 'lead'))).toContain('The lead is right')
  expect(await part(page, 'checks').locator('li').count()).toBeGreaterThan(7)
  expect(await page.locator('.parts > section').first().getAttribute('class')).toContain('part-cautions')
  await nothingWrong(page, errors)
  const [only, ...others] = await printed(page)
  expect(others).toEqual([])
  for (const words of ['Eyepiece cell', '24 → 72, 48 → 80', '28.000 mm', 'clockwise'])
    expect(only).toContain(squeezed(words))
})

test('a thread is picked from a series by its name', async () => {
  const { page, errors } = await visit(laptop)
  await page.click('.ticket.add')
  await page.fill('#f-finder', '4 ba')
  await wait(page, '[role=option]')
  await nothingWrong(page, errors)
  await page.click('[role=option]:has-text("4 BA")')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('0.66 mm')
  expect(await text(page.locator('tw-thread .ticket[aria-pressed=true]'))).toBe('4 BA 0.66 mm')
  await sheetHolds(page, 'sizes', 'BA, 47.5°, BS 93')
  expect(await text(part(page, 'sizes'))).toContain('3.600 mm')
  await page.fill('#f-finder', 'nonesuch')
  await wait(page, '#f-finder-note:has-text("No published thread is called that.")')
  // What is left there is not taken, and says so; but to go on from an exact name takes it.
  await page.fill('#f-finder', 'M6')
  await wait(page, '[role=option]')
  await page.focus('#f-wanted-name')
  await wait(page, '#f-finder-note :text("Not taken: choose it from the list.")')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('0.66 mm')
  await page.focus('#f-finder')
  await wait(page, '[role=option]')
  await page.keyboard.press('Tab')
  await wait(page, '.block-thread dd:has-text("1 mm")')
  expect(await page.inputValue('#f-finder')).toBe('')
  // The slide set over for one form is past another: the sheet is not old, it lacks something.
  await thread(page, 'Tripod head')
  await page.fill('#f-finder', 'Tr16x4')
  await page.keyboard.press('Enter')
  await wait(page, '.sheet-state:has-text("No blank and passes until “Compound slide at” is corrected.")')
  expect(await text(part(page, 'lead'))).toContain('4 mm')
})

test.each(screens)('a thread is recognised from a worn sample, on a %s', async (_, size) => {
  const { page, errors } = await visit(size)
  await page.click('.ticket.add')
  await openFold(page, 'measured')
  await page.fill('#f-measured-major-value', '3.54 mm')
  await page.fill('#f-measured-pitch-value', '0.66 mm')
  await page.fill('#f-measured-angle-value', '48')
  await page.fill('#f-measured-angle-doubt', '3')
  await wait(page, '.candidate')
  const first = await text(page.locator('.candidate').first())
  expect(first).toContain('4 BA')
  expect(first).toContain('over the crests 0.06 mm under, as made or worn screws are')
  expect(first).toContain('angle 0.5° over, within your doubt')
  await nothingWrong(page, errors)
  await page.click('text=Take 4 BA')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('0.66 mm')
  await sheetHolds(page, 'sizes', '3.600 mm')
  await page.fill('#f-measured-pitch-value', '0.93 mm')
  await wait(page, 'tw-measured :text("No published thread fits: treat it as your own.")')
  await page.click('text=Treat it as my own')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('0.93 mm')
  expect(await page.inputValue('#f-work-own-angle')).toBe('48')
  await note(page, 'work-own-crest').waitFor()
  await page.fill('#f-work-own-crest', '0.15')
  await page.fill('#f-work-own-root', '0.15')
  await sheetHolds(page, 'sizes', '3.540 mm')
  expect(await text(part(page, 'sizes'))).toContain('48°')
  await nothingWrong(page, errors)
})

test('a left-hand screw: which way to travel, and where to start', async () => {
  const { page, errors } = await visit(phone)
  await thread(page, 'Tangent screw')
  await sheetHolds(page, 'run-out', 'towards the tailstock')
  expect(await text(part(page, 'mate'))).toContain('Core between 3 flutes')
  await nothingWrong(page, errors)
})

test('what cannot be read of the thread is told beside its field, the train stands, the sheet is old', async () => {
  const { page, errors } = await visit(laptop)
  await sheetHolds(page, 'sizes', '28.000 mm')
  await unfold(page)
  await page.fill('#f-work-engagement', 'long')
  await page.fill('#f-work-diameter', 'thick')
  await page.fill('#f-lathe-speeds', 'fast')
  await page.fill('#f-lathe-dial-lines', '')
  await page.fill('#f-wires', '0.3 thin')
  await page.locator('#f-wires').blur()
  for (const field of ['work-engagement', 'work-diameter', 'lathe-speeds', 'lathe-dial-lines', 'wires'])
    await note(page, field).waitFor()
  await wait(page, '.sheet-state.wrong')
  expect(await text(part(page, 'sizes'))).toContain('28.000 mm')
  expect(await page.locator('.verdict').getAttribute('data-state')).toBe('current')
  expect(await text(page.locator('.stamp'))).toBe('Exact')
  await nothingWrong(page, errors)
})

test('the class of the thread sets the lead tolerance in one tap', async () => {
  const { page } = await visit()
  await thread(page, 'Foot screws')
  await openFold(page, 'work')
  await page.click('text=Set the lead tolerance by this')
  await page.waitForFunction(() => document.querySelector('#f-wanted-tolerance-over'))
  expect(await page.inputValue('#f-wanted-tolerance-over')).toBe('12 mm')
  expect(await page.inputValue('#f-wanted-tolerance-error')).toMatch(/^0\.03\d+ mm$/)
  await page.fill('#f-work-engagement', '')
  await page.click('text=Set the lead tolerance by this')
  await wait(page, '.wrong:has-text("Give the length of engagement first.")')
})

test('lengths stand in the unit that the person reads, and stay so', async () => {
  const { page, errors } = await visit()
  await sheetHolds(page, 'sizes', '28.000 mm')
  await page.click('tw-sheet .options label:has-text("inch")')
  await sheetHolds(page, 'sizes', '1.1024 in')
  // A lead is said both ways, whichever comes first.
  expect(await text(page.locator('.parts'))).toMatch(/Lead wanted ?40 tpi, 0\.635 mm/)
  for (const name of ['gears', 'sizes', 'passes', 'checks', 'run-out', 'mate'])
    expect(await text(part(page, name)), name).not.toMatch(/\d (mm|µm)/)
  expect(await titleBlock(page)).toMatch(/Lead 40 tpi/)
  expect(await text(page.locator('.train-drawing'))).toContain('Distances in inches')
  await nothingWrong(page, errors)
  await reload(page)
  await sheetHolds(page, 'sizes', '1.1024 in')
  await thread(page, 'Foot screws')
  await sheetHolds(page, 'lead', '125 µin long over 1 in')
  for (const where of ['.part-lead .figures', '.train-drawing'])
    expect((await text(page.locator(where))).replace(/1\.?\d* mm/g, ''), where).not.toMatch(/mm|µm/)
})

test('the keyboard alone recognises a thread', async () => {
  const { page, errors } = await visit()
  await tabTo(page, '[data-fold=measured] summary')
  await page.keyboard.press('Enter')
  await tabTo(page, '#f-measured-major-value')
  await page.keyboard.type('3.54 mm')
  await tabTo(page, '#f-measured-pitch-value')
  await page.keyboard.type('0.66 mm')
  await wait(page, '.candidate:has-text("4 BA")')
  await tabTo(page, '.candidate button')
  await page.keyboard.press('Enter')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('0.66 mm')
  await wait(page, '.block-thread dd:has-text("0.66 mm")')
  expect(errors).toEqual([])
})

test('the keyboard alone looks a thread up', async () => {
  const { page } = await visit()
  const focus = () => page.evaluate(() => document.activeElement?.id)
  for (let i = 0; i < 20 && (await focus()) !== 'f-finder'; i++) await page.keyboard.press('Tab')
  await page.keyboard.type('1/4 bs')
  await wait(page, '[role=option]')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  const active = page.locator('[role=option][aria-selected=true]')
  expect(await page.getAttribute('#f-finder', 'aria-activedescendant')).toBe(await active.getAttribute('id'))
  const name = await text(active.locator('.finder-name'))
  await page.keyboard.press('Escape')
  expect(await page.locator('[role=option]').count()).toBe(0)
  expect(await page.inputValue('#f-finder')).toBe('')
  await page.keyboard.type('1/4 bs')
  await page.keyboard.press('Enter')
  await wait(page, '.block-thread')
  expect(name).toContain('1/4')
  expect(await page.inputValue('#f-finder')).toBe('')
  expect(await page.inputValue('#f-work-diameter')).toBe('6.35 mm')
})

test('everything to press is a thumb wide, and nothing is wider than the page', async () => {
  const { page } = await visit(phone)
  await page.fill('#f-finder', 'M')
  await unfold(page)
  await page.click('.options label:has-text("By class")')
  await page.fill('#f-measured-pitch-value', '1 mm')
  await page.focus('#f-finder')
  await wait(page, '.candidate')
  const small = await page
    .locator('tw-finder input, [role=option], tw-measured button, tw-work :is(button, select, label:has(> input))')
    .evaluateAll((all) =>
      all
        .map((one) => ({ box: one.getBoundingClientRect(), what: one.outerHTML.slice(0, 120) }))
        .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
        .map(({ what }) => what),
    )
  expect(small).toEqual([])
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
})

test('nothing above the sheet moves when it comes, or when another thread is in hand', async () => {
  const { page } = await visit()
  const place = () =>
    page
      .locator('.trains-head')
      .first()
      .evaluate((one) => one.getBoundingClientRect().top)
  const before = await place()
  await wait(page, '.parts')
  expect(await place()).toBe(before)
})
