import { readdirSync, readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'

const assets = new URL('../dist/assets/', import.meta.url)

test('all JavaScript of the page, worker included, is under 60 kB gzipped', () => {
  const sizes = readdirSync(assets)
    .filter((file) => file.endsWith('.js'))
    .map((file) => gzipSync(readFileSync(new URL(file, assets))).length)
  const total = sizes.reduce((a, b) => a + b, 0)
  console.info(`page: ${total} of 60000 bytes`)
  expect(total).toBeGreaterThan(10_000)
  expect(total).toBeLessThan(60_000)
})
