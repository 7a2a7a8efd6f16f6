import { expect, test } from 'vitest'
import { gather, InputError, type Problem } from './problems.js'

const problem = (path: string): Problem => ({ path, code: 'x', message: `“${path}” is wrong.` })

test('an InputError names every problem and where it stands', () => {
  const error = new InputError([problem('gears[3].teeth'), { path: '', code: 'y', message: 'All is wrong.' }])
  expect(error).toBeInstanceOf(Error)
  expect(error.name).toBe('InputError')
  expect(error.message).toBe('gears[3].teeth: “gears[3].teeth” is wrong.\nAll is wrong.')
  expect(error.problems.map((p) => p.path)).toEqual(['gears[3].teeth', ''])
})

test('gather collects problems and goes on', () => {
  const problems: Problem[] = []
  const bad = gather(problems, () => {
    throw new InputError([problem('a'), problem('b')])
  })
  expect(bad).toBeUndefined()
  expect(gather(problems, () => 5)).toBe(5)
  expect(problems.map((p) => p.path)).toEqual(['a', 'b'])
})

test('gather lets other errors pass', () => {
  const other = new TypeError('broken')
  const gathering = () =>
    gather([], () => {
      throw other
    })
  expect(gathering).toThrow(other)
})
