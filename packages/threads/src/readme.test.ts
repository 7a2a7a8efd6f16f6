import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import * as threads from './index.js'

const text = readFileSync(new URL('../README.md', import.meta.url), 'utf8')
const blocks = [...text.matchAll(/```ts\n(.*?)```/gs)].map(([, code]) => code)

/**
 * Runs a block with the package in reach. A line `expression // value` has to give that value: the properties that are
 * written, and of a number ending in ... the digits that are written.
 */
function run(code: string): void {
  const body = code
    .replace(/^import (\{.*\}) from '@trainwright\/threads'$/gm, 'const $1 = threads')
    .replace(/^(?!const )(\S.*) \/\/ (.*)$/gm, (_, value, written) => `check(${value}, ${JSON.stringify(written)})`)
  const check = (value: unknown, written: string): void => {
    if (/^[\d.]+\.\.\.$/.test(written)) expect(String(value).startsWith(written.slice(0, -3))).toBe(true)
    else expect({ value }).toMatchObject({ value: new Function(`return (${written})`)() })
  }
  new Function('threads', 'check', body)(threads, check)
}

describe('README', () => {
  it.each(blocks)('says what happens: %s', (code) => {
    expect(code).toMatch(/ \/\/ /)
    run(code)
  })

  it('names every function', () => {
    for (const name of Object.keys(threads)) expect(text).toContain(`\`${name}\``)
  })

  it('reaches a result in ten lines', () => {
    expect(blocks[0].split('\n').findIndex((line) => line.includes(' // '))).toBeLessThan(10)
  })
})
