import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import {
  laptop,
  note,
  nothingWrong,
  phone,
  reload,
  text,
  thread,
  titleBlock,
  tooSmall,
  usePage,
  wait,
} from './visit.js'

const visit = usePage()

const at = (field: string) => `#f-lathe-banjo-${field}`
const fill = async (page: Page, entries: Record<string, string>) => {
  for (const [field, entry] of Object.entries(entries)) await page.fill(at(field), entry)
}
const fold = (page: Page, name: string) => page.locator(`[data-fold=${name}] > summary`)
const choose = (page: Page, group: string, label: string) =>
  page.click(`fieldset:has(legend:text-is("${group}")) label:has-text("${label}")`)
/** What stands on the drawing of the banjo. */
const words = (page: Page) => page.locator('.banjo-drawing .words').allTextContents()

/** Opens the lathe's banjo, as measured. */
async function measured(page: Page): Promise<void> {
  if (!(await page.locator('[data-fold=banjo]').isVisible())) await fold(page, 'lathe').click()
  await fold(page, 'banjo').click()
  await choose(page, 'The banjo is', 'Measured')
  await wait(page, '.banjo-drawing')
}

/** Swing −5° to 60°, one slot that points at the pivot: the train 24:72 48:80 stands on it. */
const good = {
  'slots-0-near': '38',
  'slots-0-far': '104',
  'stops-0-toStud': '11.1',
  'stops-1-toStud': '107.1',
}

/** A good banjo whose first stop lies to the other side. */
async function goodBanjo(page: Page): Promise<void> {
  await measured(page)
  await fill(page, good)
  await page.click('fieldset:has(input[name=f-lathe-banjo-stops-0-lies]) label:has-text("Right")')
  await wait(page, '.set-along')
}

test('a banjo is measured, drawn as it is typed, and used once it is whole', async () => {
  const { page, errors } = await visit(phone)
  await measured(page)
  expect((await words(page)).sort()).toEqual(
    ['centres: 110', 'near 1: ?', 'far 1: ?', 'length 1', 'stop 1: ?', 'stop 2: ?'].sort(),
  )
  expect(await text(page.locator('.banjo-said').first())).toContain('Not used yet: 4 figures are still to come')
  expect(await tooSmall(page)).toEqual([])
  await nothingWrong(page, errors)

  await page.fill(at('slots-0-near'), '38')
  expect(await words(page)).toContain('near 1: 38')
  // Until the last figure is there the answer stands, without the banjo.
  expect(await page.locator('.verdict').getAttribute('data-state')).toBe('current')
  expect(await page.locator('.set-along').count()).toBe(0)
  await fill(page, good)
  await page.click('fieldset:has(input[name=f-lathe-banjo-stops-0-lies]) label:has-text("Right")')
  await page.fill(at('collars'), '20, 23')

  await wait(page, '.set-along')
  const said = await text(page.locator('.banjo-said').first())
  expect(said).toContain('Used')
  expect(said).toContain('Slot 1: 38.00 mm to 104.00 mm along, pointing at the pivot.')
  expect(said).toMatch(/Swing: −5\.0° to 60\.0° anticlockwise/)
  expect(said).toContain('Shaft clearance 12 mm; what is typed in its own field, 12, counts')
  expect(await titleBlock(page)).toContain('24 → 72, 48 → 80')
  expect(await text(page.locator('.set-along'))).toBe('slot 1 at 64.00 mm')
  const desc = await page.locator('tw-drawing desc').textContent()
  expect(desc).toMatch(/Banjo swung to .*Least clearance/)
  await nothingWrong(page, errors)
})

test('what cannot be is told beside its field, and the drawing goes on with the rest', async () => {
  const { page, errors } = await visit(laptop)
  await goodBanjo(page)
  await page.click('text=+ Add a slot')
  await fill(page, { 'slots-1-near': '90', 'slots-1-far': '60', 'slots-1-fromFirst': '400' })
  await page.fill(at('slots-0-length'), '10')
  await page.locator(at('slots-0-length')).blur()
  await note(page, 'lathe-banjo-slots-1-near').waitFor()
  await note(page, 'lathe-banjo-slots-0-length').waitFor()
  expect(await text(page.locator('.verdict'))).toContain('Old answer')
  expect(await text(page.locator('.banjo-said').first())).toContain('Not used until what is marked is corrected.')
  expect(await words(page)).toEqual(expect.arrayContaining(['near 1: 38', 'between 2: ?', 'length 1']))
  await nothingWrong(page, errors)
  await fill(page, { 'slots-0-length': '', 'slots-1-near': '45', 'slots-1-far': '100', 'slots-1-fromFirst': '70' })
  await wait(page, '.verdict[data-state=current]')
  expect(await page.locator('.wrong').count()).toBe(0)
  expect(await words(page)).toContain('between 2: 70')
})

test('a banjo off a drawing, about the input shaft; going to and fro loses nothing, a reload neither', async () => {
  const { page, errors } = await visit(phone)
  await measured(page)
  await page.fill(at('slots-0-near'), 'near enough')
  await choose(page, 'The banjo is', 'From a drawing')
  await choose(page, 'It swings about the', 'Input shaft')
  await page.click('text=+ Add a slot')
  await page.click('text=+ Add a casting or bolt')
  await fill(page, { 'slots-0-from': '30', 'slots-0-to': '90', 'slots-0-offset': '-6' })
  await fill(page, { 'slots-1-from': '35', 'slots-1-to': '85', 'slots-1-angle': '−32' })
  await fill(page, { 'swing-0': '-70', 'swing-1': '60' })
  await fill(page, { 'keepOut-0-x': '-20', 'keepOut-0-y': '70', 'keepOut-0-radius': '1/2 in' })
  await wait(page, '.set-along')
  expect(await words(page)).toEqual(
    expect.arrayContaining(['offset 1: -6', 'angle 2: −32', 'swing 1: -70', 'x 1: -20', 'radius 1: 1/2 in']),
  )
  expect(await page.locator('tw-drawing .keep-out').count()).toBe(1)
  expect(await tooSmall(page)).toEqual([])
  await nothingWrong(page, errors)

  await choose(page, 'The banjo is', 'Measured')
  expect(await page.inputValue(at('slots-0-near'))).toBe('near enough')
  await choose(page, 'The banjo is', 'Not told')
  expect(await page.locator('.banjo-drawing').count()).toBe(0)
  await choose(page, 'The banjo is', 'From a drawing')
  await reload(page)
  await wait(page, '.set-along')
  await page.locator('[data-fold=banjo]').evaluate((one) => {
    for (let fold = one as Element | null; fold; fold = fold.parentElement!.closest('details')) {
      ;(fold as HTMLDetailsElement).open = true
    }
  })
  await wait(page, '.banjo-drawing')
  expect(await page.inputValue(at('slots-1-angle'))).toBe('−32')
  expect(await page.inputValue(at('keepOut-0-radius'))).toBe('1/2 in')
})

test('where nothing reaches, it says by how much, and draws what would cut it as not fitting', async () => {
  const { page, errors } = await visit(laptop)
  await measured(page)
  await fill(page, { ...good, 'slots-0-far': '45', 'stops-0-toStud': '70', 'stops-1-toStud': '90' })
  await wait(page, '.why')
  const rows = page.locator('.why .train-row')
  expect(await text(page.locator('.why ul'))).toMatch(/would have to/)
  const misfit = rows.filter({ hasText: 'does not fit' })
  expect(await text(misfit)).toMatch(/Cuts it, but does not fit\. The train does not stand on the banjo: .*\d/)
  await misfit.click()
  expect(await text(page.locator('.stamp'))).toBe('Does not fit')
  expect(await titleBlock(page)).toContain(await text(misfit.locator('.train-gears')))
  expect(await page.locator('tw-drawing .train-drawing').count()).toBe(1)
  await nothingWrong(page, errors)
})

test('what is on the lathe now: what it cuts, how it stands, and what the others change', async () => {
  const { page, errors } = await visit(phone)
  await goodBanjo(page)
  await fold(page, 'mounted').click()
  const said = page.locator('tw-mounted .banjo-said')
  await page.fill('#f-mounted-gears', '32:72 36:80')
  await said.locator('text=Stands on the banjo').waitFor()
  expect(await text(said)).toMatch(
    /^Cuts lead 0\.635 mm \(40 tpi\), right hand\. Stands on the banjo: stud 1 in slot 1/,
  )
  // Among equals the one with fewer changes comes first.
  await wait(page, '.train-row .train-change:text-is("on the lathe now")')
  expect(await titleBlock(page)).toContain('32 → 72, 36 → 80')
  expect(await page.locator('.train-change').allTextContents()).toContain('on 24, 48; off 32, 36')
  expect(await tooSmall(page)).toEqual([])
  await nothingWrong(page, errors)

  await page.fill('#f-mounted-gears', '32:72 36')
  await page.locator('#f-mounted-gears').blur()
  await note(page, 'mounted-gears').waitFor()
  // The answer does not rest on it.
  await wait(page, '.verdict[data-state=current]')
  await nothingWrong(page, errors)

  await thread(page, 'Tangent screw')
  await wait(page, '.block-hand dd:text-is("left")')
  await page.click('text=The train shown is on the lathe now')
  await wait(page, '.train-change:text-is("on the lathe now")')
  expect(await page.inputValue('#f-mounted-gears')).toMatch(/^\d+[:-]\d+/)
  expect(await text(said)).toContain('left hand')
  await page.click('text=Clear the line')
  await page.locator('.train-change').first().waitFor({ state: 'detached' })
})

test('the keyboard alone puts a banjo in', async () => {
  const { page } = await visit()
  const focus = () => page.evaluate(() => document.activeElement?.id || document.activeElement?.textContent?.trim())
  const tabTo = async (what: RegExp) => {
    for (let i = 0; i < 60 && !what.test((await focus()) ?? ''); i++) await page.keyboard.press('Tab')
    expect(await focus()).toMatch(what)
  }
  await page.locator('#f-lathe-shaftClearance').focus()
  await tabTo(/^Banjo/)
  await page.keyboard.press('Enter')
  await wait(page, 'tw-banjo fieldset')
  await page.keyboard.press('Tab')
  await page.keyboard.press('ArrowRight')
  await wait(page, '.banjo-drawing')
  for (const [field, entry] of Object.entries(good)) {
    await tabTo(new RegExp(`^f-lathe-banjo-${field}$`))
    await page.keyboard.type(entry)
  }
  await page.locator('.banjo-said:has-text("Used")').waitFor()
})

test('forced colours keep the lines and words of the banjo to be seen', async () => {
  const { page, errors } = await visit()
  await page.emulateMedia({ forcedColors: 'active' })
  await measured(page)
  const canvas = await page.evaluate(() => getComputedStyle(document.body).backgroundColor)
  for (const [part, property] of [
    ['measure', 'stroke'],
    ['words', 'fill'],
    ['slot', 'stroke'],
  ] as const) {
    const colour = await page
      .locator(`.banjo-drawing .${part}`)
      .first()
      .evaluate((one, property) => getComputedStyle(one)[property], property)
    expect(colour, part).not.toBe(canvas)
  }
  await nothingWrong(page, errors)
})
