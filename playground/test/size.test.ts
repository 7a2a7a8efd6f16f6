import { readdirSync, readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'

const assets = new URL('../dist/assets/', import.meta.url)

// 60 kB is the aim. The first answer loads about half of this; the sheets for thread, gear and chart, the tables of threads
// and the DXF writer come when they are first looked at, and all of them are counted here.
test('all JavaScript of the page, worker and late parts included, is under 160 kB gzipped', () => {
  const sizes = readdirSync(assets)
    .filter((file) => file.endsWith('.js'))
    .map((file) => gzipSync(readFileSync(new URL(file, assets))).length)
  const total = sizes.reduce((a, b) => a + b, 0)
  console.info(`page: ${total} of 160000 bytes`)
  expect(total).toBeGreaterThan(10_000)
  expect(total).toBeLessThan(160_000)
})
