import { readFile } from 'node:fs/promises'
import { gearSheet } from '@trainwright/sheet/gear'
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { printed, squeezed } from './pdf.js'
import {
  note,
  nothingWrong,
  paste,
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

/** No train for 11 tpi: on to the gear to make. */
async function toTheGear(page: Page): Promise<void> {
  await thread(page, 'Tripod head')
  await page.click('text=Which gear should I make?')
  await wait(page, '.gear-sheet')
}
const gearBlock = (page: Page) => text(page.locator('.gear-sheet .title-block'))
const current = (page: Page) => wait(page, '#sheet-gear .search-line[data-state=current]')
const tooSmall = (page: Page) =>
  page.locator('button, summary, select, label:has(> input), input[type=text], textarea').evaluateAll((all) =>
    all
      .map((one) => ({ box: one.getBoundingClientRect(), what: one.outerHTML.slice(0, 120) }))
      .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
      .map(({ box, what }) => `${box.width} x ${box.height}: ${what}`),
  )

describe.each(screens)('on a %s', (_, size) => {
  test('no train, so a gear is made, and the train appears', async () => {
    const { page, errors } = await visit(size)
    await toTheGear(page)
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('sheet-gear')
    await current(page)
    const { top } = await page.locator('#tab-gear').evaluate((tab) => tab.getBoundingClientRect())
    expect(top).toBeGreaterThanOrEqual(0)
    expect(top).toBeLessThan(100)
    // 11 tpi on a leadscrew of 8 tpi: 8/11, and 44 is the smallest of these gears that the head divides.
    expect(await text(page.locator('#sheet-gear .search-line'))).toContain(
      '44 teeth: with it the box cuts 11 tpi Tripod head.',
    )
    const block = await gearBlock(page)
    for (const figure of [
      '44 teeth',
      '46.000 mm',
      '1.8110 in',
      '2.250 mm',
      '0.0886 in',
      '35 to 54',
      '30 spaces of the 33 circle',
    ])
      expect(block).toContain(figure)
    const sheet = await text(page.locator('.gear-sheet'))
    // Over 5 teeth, m = 1, z = 44, 20 degrees: cos a (pi (5 - 1/2) + 44 inv a) = 13.9009.
    for (const figure of ['Over 5 teeth', '13.901 mm', '0.5473 in', 'No undercut (from 17 teeth on)', 'Contact ratio'])
      expect(sheet).toContain(figure)
    expect(sheet).toContain("The machine's own manual")
    expect(await page.locator('.outline [role=img]').getAttribute('aria-label')).toContain('44 involute teeth')
    const [all, seen] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth])
    expect(all).toBeLessThanOrEqual(seen!)
    expect(await tooSmall(page)).toEqual([])
    await nothingWrong(page, errors)

    await page.click('text=I have made it')
    await wait(page, '.stamp[data-stamp=Exact]')
    expect(await page.inputValue('#f-kinds-0-line')).toMatch(/ 80 44$/)
    expect(await titleBlock(page)).toContain('44')
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('sheet-train')
    await page.click('#tab-gear')
    await wait(page, '#sheet-gear .search-line:has-text("The box cuts 11 tpi Tripod head now.")')
    await nothingWrong(page, errors)
    await page.locator('.strip .key', { hasText: 'Undo' }).click()
    await wait(page, '#sheet-gear .search-line:has-text("44 teeth: with it")')
    expect(await page.inputValue('#f-kinds-0-line')).toMatch(/ 80$/)
  })
})

describe('what the owner has', () => {
  test.each(screens)(
    'says what can be made: limits are kept to, slips are told beside their fields, on a %s',
    async (_, size) => {
      const { page, errors } = await visit(size)
      await toTheGear(page)
      await page.click('text=Limits:')
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('SUMMARY')
      await wait(page, '#f-making-worm')
      expect(await page.inputValue('#f-making-worm')).toBe('40')
      await unfold(page)
      await page.fill('#f-making-least', '90')
      await page.fill('#f-making-most', '20')
      await page.fill('#f-making-worm', '0')
      await page.fill('#f-making-plates', '15 16\n-')
      await page.fill('#f-making-module', '-1')
      await page.fill('#f-making-keywayDepth', '2')
      await page.fill('#f-making-cutters', '35-54')
      await page.locator('#f-making-cutters').blur()
      for (const field of ['most', 'worm', 'plates', 'module', 'bore', 'keywayWidth', 'cutters'])
        await note(page, `making-${field}`).waitFor()
      expect(await text(note(page, 'making-most'))).toContain('write the smaller count first')
      expect(await text(note(page, 'making-plates'))).toContain('has no circles')
      expect(await text(page.locator('#sheet-gear .search-line'))).toContain('Old answer')
      expect(await page.locator('.gear-sheet').count()).toBe(1)
      expect(await tooSmall(page)).toEqual([])
      await nothingWrong(page, errors)

      await page.fill('#f-making-least', '60')
      await page.fill('#f-making-most', '110')
      await page.fill('#f-making-worm', '1')
      await page.fill('#f-making-plates', '66')
      await page.fill('#f-making-module', '')
      await page.fill('#f-making-bore', '12')
      await page.fill('#f-making-keywayWidth', '4')
      await page.fill('#f-making-cutters', 'module 2: 55-134')
      await current(page)
      await wait(page, '.gear-sheet .title-block:has-text("66 teeth")')
      const block = await gearBlock(page)
      expect(block).toContain('1 space of the 66 circle')
      const sheet = await text(page.locator('.gear-sheet'))
      expect(sheet).toContain('12.000 mm')
      expect(sheet).toContain('get the module 1 cutter stamped 55 to 134')
      expect(await page.locator('.card .wrong').count()).toBe(0)
      // Teeth, bore and keyway: two closed lines.
      expect((await page.locator('.outline path').getAttribute('d'))!.match(/Z/g)).toHaveLength(2)
      await nothingWrong(page, errors)
    },
  )

  test.each(screens)(
    'a wish list, typed or from a series: what a gear opens, what it cannot, on a %s',
    async (_, size) => {
      const { page, errors } = await visit(size)
      await toTheGear(page)
      await page.click('text=Wish list:')
      await wait(page, '#f-wishes-list')
      await page.fill('#f-wishes-list', 'soon\n4 BA')
      await page.locator('#f-wishes-list').blur()
      expect(await text(note(page, 'wishes-list'))).toContain('Line 1, “soon”')
      await page.fill('#f-wishes-list', '')
      await page.selectOption('#f-wishes-series', 'BA')
      await page.click('text=Add all')
      expect(await page.inputValue('#f-wishes-list')).toMatch(/^1 mm 0 BA\n0\.9 mm 1 BA\n/)
      expect((await page.inputValue('#f-wishes-list')).split('\n')).toHaveLength(26)
      await wait(page, '.rest:has-text("0 BA")')
      await current(page)
      expect(await text(page.locator('.rest'))).toContain('No gear opens')
      expect(await text(page.locator('.gears'))).toContain('For the whole list')
      const best = page.locator('.gear-row:below(h3:text("For the whole list"))').first()
      await best.click()
      const opened = Number.parseInt(await text(best.locator('.gear-error')), 10)
      expect(opened).toBeGreaterThan(1)
      await wait(page, '.opened')
      expect(await page.locator('.opened tbody tr').count()).toBe(opened)
      await page.click('.options label:has-text("A pair")')
      await wait(page, '.gear-sheet h3:has-text(" and ")')
      await current(page)
      await page.locator('.gear-sheet .options label').nth(1).click()
      await nothingWrong(page, errors)
      await page.click('text=I have made them')
      expect(await page.inputValue('#f-kinds-0-line')).toMatch(/ 80 \d+ \d+$|x2/)
      await reload(page)
      await unfold(page)
      await wait(page, '#f-wishes-list')
      expect(await page.inputValue('#f-wishes-list')).toMatch(/^1 mm 0 BA\n/)
    },
  )
})

test('the keyboard alone: no train, the gear, its sheet, into the box', async () => {
  const { page } = await visit()
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('To the answer')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('tab-train')
  await thread(page, 'Tripod head')
  await wait(page, '.go')
  await page.locator('tw-thread .ticket[aria-pressed=true]').focus()
  await tabTo(page, '.go')
  await page.keyboard.press('Enter')
  await wait(page, '.gear-sheet')
  await tabTo(page, 'input[name=gear]')
  await page.keyboard.press('ArrowDown')
  await wait(page, '.gear-sheet .title-block:has-text("55 teeth")')
  await tabTo(page, '.gear-sheet .more summary')
  await page.keyboard.press('Enter')
  expect(await page.locator('.places li:visible').count()).toBe(55)
  await page.keyboard.press('Shift+Tab')
  await page.locator('#tab-gear').focus()
  await page.keyboard.press('ArrowRight')
  await wait(page, '.chart')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('tab-chart')
  await page.keyboard.press('ArrowLeft')
  await wait(page, '.gear-sheet')
  await tabTo(page, '.gear-sheet .go')
  await page.keyboard.press('Enter')
  await wait(page, '.stamp[data-stamp=Exact]')
  expect(await page.inputValue('#f-kinds-0-line')).toMatch(/ 55$/)
})

test('the sheet prints on one page, the table of a large gear with it', async () => {
  const { page } = await visit()
  await thread(page, 'Foot screws')
  await page.fill('#f-wanted-tolerance-ppm', '1')
  await page.click('text=Which gear should I make?')
  await page.click('text=Limits:')
  await wait(page, '#f-making-least')
  await page.fill('#f-making-least', '127')
  await page.fill('#f-making-plates', '37 39 41 43 47 49')
  await page.click('label:has-text("Only counts that it divides exactly")')
  await wait(page, '.gear-sheet .title-block:has-text("127 teeth")')
  // 127 by 15/49 of a turn each would be 38.9 turns of the crank, not 40.
  expect(await gearBlock(page)).toContain('From tooth to tooth no equal step: by the table')
  // Folded on the screen, and on the paper all the same.
  expect(await page.locator('.places').isVisible()).toBe(false)
  expect(await page.locator('.places li').count()).toBe(127)
  expect(await text(page.locator('.indexing'))).toContain('Approximate')
  const [only, ...others] = await printed(page)
  expect(others).toEqual([])
  const head = { worm: 40, plates: [[37, 39, 41, 43, 47, 49]] }
  const sheet = gearSheet({ gear: { teeth: 127, module: 1 }, head })
  const { baseTangent, chordal, blank, depth, cutter, indexing, undercut, cautions } = sheet
  const figures = [baseTangent.length, chordal.thickness, chordal.height, blank.diameter, depth, sheet.rootDiameter]
  const texts = [
    ...figures.flatMap(({ text, inch }) => [text, inch]),
    `${baseTangent.teeth} teeth`,
    cutter.range!,
    cutter.text,
    undercut.text,
    indexing!.text,
    ...indexing!.reminders.map(({ message }) => message),
    ...indexing!.table.map(({ at }) => at.join(', ')),
    ...cautions.map(({ message }) => message),
  ]
  expect(texts.filter((text) => !only!.includes(squeezed(text)))).toEqual([])
  await page.emulateMedia({ media: 'print' })
  for (const part of [
    '.gear-sheet .title-block',
    '.gear-sheet summary',
    '.outline',
    '.measures',
    '.indexing',
    '.places',
    '.safety',
  ])
    expect(await page.locator(`#sheet-gear ${part}`).first().isVisible(), part).toBe(true)
  for (const part of ['.card', '.tabs', '.gears', '.go', '#sheet-train'])
    expect(await page.locator(part).first().isVisible(), part).toBe(false)
})

test('a gear whose form gearcutting does not know has no sheet, and the page says why', async () => {
  const { page, errors } = await visit()
  await toTheGear(page)
  await unfold(page)
  await page.fill('#f-kinds-0-angle', '8')
  await wait(page, '#sheet-gear .wrong:has-text("No sheet: ")')
  expect(await text(page.locator('#sheet-gear .wrong'))).toContain('10 to 30')
  await page.fill('#f-kinds-0-angle', '14.5')
  await wait(page, '.gear-sheet')
  await nothingWrong(page, errors)
})

test('outline files: SVG that stands alone, DXF whose library comes on demand', async () => {
  const { page, errors } = await visit()
  const asked: string[] = []
  page.on('request', (request) => asked.push(new URL(request.url()).pathname))
  await toTheGear(page)
  const saved = async (key: string) => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.click(`.outline >> text=${key}`)])
    return [download.suggestedFilename(), await readFile(await download.path(), 'utf8')] as const
  }
  const [svgName, svg] = await saved('Save SVG')
  expect(svgName).toBe('gear-44-module-1.svg')
  expect(svg).toContain('width="48mm"')
  expect(asked.some((path) => path.includes('dxf'))).toBe(false)
  const [dxfName, dxf] = await saved('Save DXF')
  expect(dxfName).toBe('gear-44-module-1.dxf')
  expect(dxf).toContain('LWPOLYLINE')
  expect(asked.some((path) => path.includes('dxf'))).toBe(true)
  expect(errors).toEqual([])
})

const many = (least: number, most: number) => Array.from({ length: most - least + 1 }, (_, i) => least + i).join(' ')

test('a long search for trains shows how far it is, and is stopped at once; too long a one is refused', async () => {
  const { page, errors } = await visit()
  await page.fill('#f-kinds-0-line', many(20, 79))
  await page.fill('#f-lathe-studs', '3')
  await page.fill('#f-wanted-pitch', '0.7 mm')
  await page.click('#sheet-train .search-line button:has-text("Stop")')
  await wait(page, '#sheet-train .search-line:has-text("The search was stopped.")')
  expect(await page.locator('progress').count()).toBe(0)
  expect(await page.evaluate(() => document.activeElement === document.body)).toBe(false)
  await nothingWrong(page, errors)
  await page.click('text=Search again')
  await page.locator('progress').waitFor()
  await page.fill('#f-wanted-tolerance-ppm', '20000')
  await wait(page, '#sheet-train .search-line:has-text("Too many trains to look through")')
  expect(await page.locator('text=Which gear should I make?').count()).toBe(0)
  expect(await text(page.locator('.why'))).toContain('is the bound')
  for (const sheet of ['gear', 'chart']) {
    await page.click(`#tab-${sheet}`)
    await wait(page, `#sheet-${sheet} .search-line:has-text("Too many trains to look through")`)
  }
  await nothingWrong(page, errors)
})

test('a long search shows how far it is, and is stopped at once', async () => {
  const { page, errors } = await visit()
  await page.fill('#f-kinds-0-line', many(20, 59))
  await page.fill('#f-lathe-studs', '3')
  await thread(page, 'Tripod head')
  await page.fill('#f-wanted-pitch', '0.6543217 mm')
  await page.fill('#f-wanted-tolerance-error', '0.000001 mm')
  await page.click('#tab-gear')
  await page.click('text=Wish list:')
  await wait(page, '#f-wishes-list')
  await paste(page, '#f-wishes-list', Array.from({ length: 200 }, (_, i) => `0.${700001 + 7 * i} mm`).join('\n'))
  await page.fill('#f-wishes-ppm', '0.0001')
  await page.click('.options label:has-text("A pair")')
  await page.locator('progress').waitFor()
  await nothingWrong(page, errors)
  await page.click('#sheet-gear .search-line button:has-text("Stop")')
  await wait(page, 'text=The search was stopped.')
  expect(await page.locator('progress').count()).toBe(0)
  await page.click('text=Search again')
  await page.locator('progress').waitFor()
})

test('forced colours: what is on top and what leads on can be told', async () => {
  const { page, errors } = await visit()
  await toTheGear(page)
  await page.emulateMedia({ forcedColors: 'active' })
  const ground = (what: string) => page.locator(what).evaluate((one) => getComputedStyle(one).backgroundColor)
  expect(await ground('.tab[aria-selected=true]')).not.toBe(await ground('#tab-chart'))
  const canvas = await ground('body')
  expect(await page.locator('.outline path').evaluate((one) => getComputedStyle(one).stroke)).not.toBe(canvas)
  await nothingWrong(page, errors)
})

test('a part that cannot be fetched is said, and fetched when it can be', async () => {
  const { page: kept, url } = await visit()
  // Whoever has been here before has it at hand: this one has not.
  const context = await kept.context().browser()!.newContext({ serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.route('**/late-parts-*', (route) => route.abort())
  await page.goto(url)
  await page.click('#tab-gear')
  await wait(page, '#sheet-gear >> text=This part of the page could not be loaded')
  await page.unroute('**/late-parts-*')
  await page.click('#sheet-gear button:has-text("Try again")')
  await wait(page, '.gears')
  // Enter waits for the list of threads, when that is slow.
  await page.route('**/late-parts-*', (route) => void setTimeout(() => void route.continue(), 500))
  await page.reload()
  await page.fill('#f-finder', 'M6')
  await page.press('#f-finder', 'Enter')
  await wait(page, '.ticket:has-text("1 mm"):has-text("Eyepiece")')
})
