import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { oneModule } from './one-module.js'

/**
 * What a page pays for each public name: everything it exports, minified and gzipped, with its dependencies; sheet
 * without the other packages, which have ceilings of their own. Raise a ceiling only in the commit that needs
 * it, and say there what for.
 */
const ceilings: Record<string, number> = {
  '@trainwright/measures': 6000,
  // The aim is 14000: not reached. Search, banjo, obstacles, proposals and what bad input is told share this entry.
  '@trainwright/trains': 28000,
  '@trainwright/trains/worker': 5000,
  '@trainwright/threads': 14000,
  '@trainwright/gearcutting': 10000,
  '@trainwright/gearcutting/dxf': 30000,
  '@trainwright/sheet': 14000,
  '@trainwright/sheet/svg': 5000,
  '@trainwright/sheet/gear': 4000,
  '@trainwright/sheet/banjo': 6000,
}

const countedApart: [RegExp, RegExp][] = [[/^@trainwright\/sheet/, /^@trainwright\/(?!sheet)/]]

const gzipped = async (name: string): Promise<number> => {
  const external = countedApart.flatMap(([of, others]) => (of.test(name) ? [others] : []))
  return gzipSync(await oneModule(`export * from ${JSON.stringify(name)}`, { source: true, external })).length
}

describe('gzipped size', () => {
  test.each(Object.entries(ceilings))('%s stays under %i bytes', async (name, ceiling) => {
    const size = await gzipped(name)
    console.info(`${name}: ${size} of ${ceiling} bytes`)
    expect(size).toBeLessThanOrEqual(ceiling)
  })
})
