import { expect, test } from 'vitest'
import { blocksOf, pairsOf, testsOf } from './readme-tests.js'

const readme = (...lines: string[]) => testsOf(lines.join('\n'), 'README.md').split('\n')

test('code keeps its lines, prose is left blank', () => {
  const lines = readme('# Title', '', '```ts', "import { a } from 'b'", '', 'a(1) // => 2', '```', 'Prose.')
  expect(lines[0]).toBe("import { expect, test } from 'vitest';")
  expect(lines[2]).toBe('test("line 3", async () => {')
  expect(lines[3]).toBe("const { a } = await import('b')")
  expect(lines[5]).toBe('expect(a(1)).toEqual(2);')
  expect(lines[7]).toBe('')
})

test('imports of several lines, renamed and of types', () => {
  const lines = readme('```ts', 'import {', '  a as b,', '  type C,', "} from 'd'", "import type { E } from 'f'", '```')
  expect(lines.slice(1, 6)).toEqual(['const {', '  a: b,', '  ', "} = await import('d')", ''])
})

test('a declaration is checked by its value, a throw by its message', () => {
  const lines = readme('```ts', 'const x = f() // => [1]', "g(x) // throws 'soon'", '```')
  expect(lines[1]).toBe('const x = f(); expect(x).toEqual([1]);')
  expect(lines[2]).toBe("await expect(async () => g(x)).rejects.toThrow('soon');")
})

test('a block without imports goes on where the last one stopped', () => {
  const lines = readme(
    '```ts',
    "import { a } from 'b'",
    '```',
    '```ts',
    'a()',
    '```',
    '```ts',
    "import { c } from 'b'",
    '```',
  )
  expect(lines.filter((line) => line.includes('test(')).length).toBe(2)
})

test('blocks in another language, or fenced for a browser, are left out', () => {
  expect(() => readme('```ts browser', 'a()', '```', '```js', 'a()', '```')).toThrow('README.md holds no block of ts')
})

test('a block that does not end is told by its line', () => {
  expect(() => readme('', '```ts', 'a()')).toThrow('README.md:2: this block does not end')
})

test('programs are what has imports, with what follows it', () => {
  const text = ['```ts', "import 'a'", '```', '```ts', 'b()', '```', '```ts browser', "import 'c'", '```', ''].join(
    '\n',
  )
  expect(blocksOf(text, ['ts'])).toEqual(["import 'a'\nb()\n"])
  expect(blocksOf(text, ['ts browser'])).toEqual(["import 'c'\n"])
})

test('what was found and what was told, side by side', () => {
  const told = pairsOf('const x = f() // => [1]\ng(x) // => 2\nh()')
  expect(told.split('\n').slice(1, -1)).toEqual([
    'const x = f(); pairs.push([x, [1]]);',
    'pairs.push([g(x), 2]);',
    'h()',
  ])
})
