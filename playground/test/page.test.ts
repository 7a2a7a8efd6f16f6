import { afterAll, beforeAll, expect, test } from 'vitest'
import { type BuiltPage, serveBuiltPage } from './built-page.js'

let built: BuiltPage
beforeAll(async () => {
  built = await serveBuiltPage()
})
afterAll(() => built?.close())

test('the built page opens without an error', async () => {
  const { page, errors } = await built.open()
  expect(await page.title()).toContain('Trainwright')
  expect(errors).toEqual([])
})
