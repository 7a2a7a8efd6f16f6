import { describe, expect, test } from 'vitest'
import { note, nothingWrong, screens, text, thread, titleBlock, unfold, usePage, wait } from './visit.js'

const visit = usePage()

describe.each(screens)('on a %s', (_, size) => {
  test('a first visit shows a job solved: the exact train', async () => {
    const { page, errors } = await visit(size)
    expect(await page.title()).toContain('Trainwright')
    const block = await titleBlock(page)
    expect(block).toContain('0.635 mm')
    expect(block).toContain('24 → 72, 48 → 80')
    expect(await text(page.locator('.stamp'))).toBe('Exact')
    expect(await page.locator('.set-up tbody').count()).toBe(3)
    expect(await text(page.locator('.set-up'))).toContain('Stud 1 72 1 ↺ anticlockwise 48 2')
    await nothingWrong(page, errors)
  })

  test('a thread within tolerance: the error in ppm and as it is met', async () => {
    const { page, errors } = await visit(size)
    await thread(page, 'Foot screws')
    await wait(page, '.stamp[data-stamp="Within tolerance"]')
    const block = await titleBlock(page)
    expect(block).toContain('+125 ppm')
    expect(block).toContain('3.13 µm long over 25 mm')
    await nothingWrong(page, errors)
  })

  test('a left-hand thread: an idler, drawn and named', async () => {
    const { page, errors } = await visit(size)
    await thread(page, 'Tangent screw')
    await wait(page, '.block-hand dd:text-is("left")')
    expect(await page.locator('.set-gear:has-text("idler")').count()).toBe(1)
    // An uneven number of meshes: the output shaft turns against the spindle.
    expect(await text(page.locator('.set-up tbody').last())).toContain('anticlockwise')
    await page.click('.trains + .quiet-actions button')
    expect(await page.locator('.train-row').count()).toBe(50)
    const third = page.locator('.train-row').nth(2)
    await third.click()
    const gears = await text(third.locator('.train-gears'))
    expect(await titleBlock(page)).toContain(gears)
    await nothingWrong(page, errors)
  })

  test('a thread that the box cannot cut: why, and the closest', async () => {
    const { page, errors } = await visit(size)
    await thread(page, 'Tripod head')
    await wait(page, '.why')
    expect(await page.locator('.why li').count()).toBeGreaterThan(0)
    expect(await text(page.locator('.stamp'))).toBe('Out of tolerance')
    expect(await titleBlock(page)).toContain('−481 ppm')
    // At a glance it is not told like a train that goes on.
    const glance = page.locator('.glance')
    expect(await text(glance)).toBe('No train goes on within tolerance.')
    expect(await glance.getAttribute('data-state')).toBe('old')
    await page.fill('#f-wanted-pitch', '0.7 mm')
    await page.locator('.why li').nth(3).waitFor()
    expect(await text(page.locator('.why'))).toContain('Each of these stops a different train')
    expect(await page.locator('.train-drawing').count()).toBe(1)
    await nothingWrong(page, errors)
  })

  test('bad input: every problem beside its field, the last answer kept and marked as old', async () => {
    const { page, errors } = await visit(size)
    await unfold(page)
    await page.fill('#f-wanted-pitch', '26 tpx')
    await page.fill('#f-lathe-leadscrew-pitch', '0')
    await page.fill('#f-lathe-studs', '99')
    await page.fill('#f-lathe-centreDistance', 'far')
    await page.fill('#f-kinds-0-size', '-1')
    await page.fill('#f-kinds-0-line', '20x2 24 abc')
    await page.locator('#f-kinds-0-line').blur()
    for (const field of [
      'wanted-pitch',
      'lathe-leadscrew-pitch',
      'lathe-studs',
      'lathe-centreDistance',
      'kinds-0-line',
    ]) {
      await note(page, field).waitFor()
    }
    expect(await text(page.locator('.verdict'))).toContain('Old answer')
    expect(await text(page.locator('.stamp'))).toBe('Old')
    expect(await titleBlock(page)).toContain('24 → 72, 48 → 80')
    expect(await page.inputValue('#f-wanted-pitch')).toBe('26 tpx')
    await nothingWrong(page, errors)
    await page.fill('#f-kinds-0-line', '20x2 24 48 60 72 80')
    await note(page, 'kinds-0-size').waitFor()
    await page.fill('#f-kinds-0-size', '1')
    await page.fill('#f-wanted-pitch', '40 tpi')
    await page.fill('#f-lathe-leadscrew-pitch', '8 tpi')
    await page.fill('#f-lathe-studs', '2')
    await page.fill('#f-lathe-centreDistance', '110')
    await wait(page, '.stamp[data-stamp="Exact"]')
    expect(await page.locator('.wrong').count()).toBe(0)
  })
})

test('an empty thread and an empty box ask for what is needed', async () => {
  const { page, errors } = await visit()
  await page.click('.ticket.add')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('f-wanted-pitch')
  await page.fill('#f-kinds-0-line', '')
  await page.locator('#f-kinds-0-line').blur()
  await note(page, 'kinds-0-line').waitFor()
  expect(await text(note(page, 'wanted-pitch'))).toContain('Needed')
  expect(await text(note(page, 'kinds-0-line'))).toContain('box is empty')
  await nothingWrong(page, errors)
})

test('the keyboard alone does the whole job', async () => {
  const { page } = await visit()
  const focus = () => page.evaluate(() => document.activeElement?.id || document.activeElement?.className)
  // The way to the answer, undo and redo come first.
  for (let i = 0; i < 4; i++) await page.keyboard.press('Tab')
  expect(await focus()).toBe('ticket')
  for (let i = 0; i < 2; i++) await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await wait(page, '.block-hand dd:text-is("left")')
  for (let i = 0; i < 10 && (await focus()) !== 'f-wanted-pitch'; i++) await page.keyboard.press('Tab')
  await page.keyboard.press('Control+A')
  await page.keyboard.type('36 tpi')
  await wait(page, '.block-thread dd:has-text("36 tpi")')
  const name = () => page.evaluate(() => (document.activeElement as HTMLInputElement).name)
  for (let i = 0; i < 80 && (await name()) !== 'train'; i++) await page.keyboard.press('Tab')
  const before = await titleBlock(page)
  await page.keyboard.press('ArrowDown')
  await page.waitForFunction(
    (old) => document.querySelector('.title-block')!.textContent!.replace(/\s+/g, ' ').trim() !== old,
    before,
  )
  expect(await page.locator('.train-row').nth(1).locator('input').isChecked()).toBe(true)
})

test('the answer is said to those who listen, once', async () => {
  const { page } = await visit()
  await thread(page, 'Foot screws')
  const said = page.locator('tw-app > [role=status]')
  await page.waitForFunction(() => document.querySelector('tw-app > [role=status]')!.textContent!.includes('125 ppm'))
  expect(await text(said)).toBe('Train: 24 → 80, 63 → 60. Lead 1.000125 mm, ≈ 25.3968 tpi, +125 ppm, right hand.')
})
