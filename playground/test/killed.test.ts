import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { nothingWrong, text, titleBlock, usePage, wait } from './visit.js'

const visit = usePage()

/** From now on the first `lives` questions kill their worker, as a browser short of memory does it. */
const mortalWorkers = () => {
  const fate = { left: 0, deaths: 0 }
  const Real = Worker
  class Mortal extends Real {
    // Comlink speaks with the worker through this alone; a question has a name in its path, a sign of life has not.
    override postMessage(message: unknown, ...rest: never[]): void {
      super.postMessage(message, ...rest)
      if (fate.left === 0 || !JSON.stringify(message).includes('answer')) return
      fate.left--
      fate.deaths++
      this.terminate()
      setTimeout(() => this.dispatchEvent(new ErrorEvent('error', { message: 'out of memory', cancelable: true })))
    }
  }
  Object.assign(window, { fate, Worker: Mortal })
}
type Fated = Window & { fate: { left: number; deaths: number } }

async function mortal() {
  const { page, errors } = await visit()
  await page.addInitScript(mortalWorkers)
  await page.reload()
  await wait(page, '.train-drawing')
  return { page, errors }
}
const doom = (page: Page, questions: number) =>
  page.evaluate((questions) => {
    ;(window as unknown as Fated).fate.left = questions
  }, questions)
const deaths = (page: Page) => page.evaluate(() => (window as unknown as Fated).fate.deaths)

test('a worker that is killed in the middle of a question is replaced, and the answer comes', async () => {
  const { page, errors } = await mortal()
  await doom(page, 1)
  await page.fill('#f-wanted-pitch', '1 mm')
  await wait(page, '.block-thread dd:has-text("1 mm")')
  expect(await deaths(page)).toBe(1)
  expect(await titleBlock(page)).toContain('+125 ppm')
  await nothingWrong(page, errors)
})

test('a question that kills two workers: it is told, nothing typed is lost, and the next one is answered', async () => {
  const { page, errors } = await mortal()
  await doom(page, 2)
  await page.fill('#f-wanted-pitch', '1 mm')
  await wait(page, '.verdict:has-text("The search failed")')
  expect(await deaths(page)).toBe(2)
  expect(await text(page.locator('.stamp'))).toBe('Old')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('1 mm')
  await nothingWrong(page, errors)
  await page.fill('#f-wanted-pitch', '1.25 mm')
  await wait(page, '.verdict[data-state=current]')
  await page.reload()
  await wait(page, '.train-drawing')
  expect(await page.inputValue('#f-wanted-pitch')).toBe('1.25 mm')
})
