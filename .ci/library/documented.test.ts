import { existsSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { type Docstrings, readDocstrings } from './docstrings.js'

/*
 * Every public name says what it is; every number in what it is counted, and how far an input may go; every function
 * that refuses, with what.
 */

const root = new URL('../..', import.meta.url).pathname

let docstrings: Docstrings
beforeAll(async () => {
  docstrings = await readDocstrings(root)
})

test('nothing is left untold', () => {
  expect(docstrings.functions.length).toBeGreaterThan(80)
  expect(docstrings.missing).toEqual([])
})

test('what functions refuse with is told', async () => {
  // As they were built: entries are `threads/src` and `trains/src/worker`, both folders, or a file, `gearcutting/src/dxf`.
  const junk = [
    [undefined],
    [{}, {}],
    ['junk', {}],
    [
      { n: '1', d: '3' },
      { n: '0', d: '1' },
    ],
    [NaN, 0],
    [{}, { stages: [] }],
  ]
  const silent: string[] = []
  let refusals = 0
  for (const { module, name, throws } of docstrings.functions) {
    const built = `${root}packages/${module.replace('/src', '/dist')}`
    const known = await import(/* @vite-ignore */ existsSync(`${built}.js`) ? `${built}.js` : `${built}/index.js`)
    for (const args of junk) {
      try {
        known[name](...args)
      } catch (error) {
        const { name: kind } = error as Error
        // Anything else comes of what the types refuse already.
        if (!['InputError', 'WorkshopError', 'RangeError'].includes(kind)) continue
        refusals++
        if (!throws) silent.push(`${module}.${name} throws ${kind}`)
        else if (/\b\w+Error\b/.test(throws) && !throws.includes(kind))
          silent.push(`${module}.${name}: not ${throws} but ${kind}`)
      }
    }
  }
  expect(refusals).toBeGreaterThan(100)
  expect([...new Set(silent)]).toEqual([])
})
