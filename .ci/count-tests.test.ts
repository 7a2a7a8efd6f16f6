import { expect, test } from 'vitest'
import { countTests } from './count-tests.js'

const report =
  (...files: [string, string[]][]) =>
  () =>
    JSON.stringify({
      testResults: files.map(([status, tests]) => ({ status, assertionResults: tests.map((status) => ({ status })) })),
    })

test('adds up the tests of all files, and skipped ones count as neither', () => {
  const files = report(['passed', ['passed', 'passed', 'skipped']], ['failed', ['failed', 'passed']])
  expect(countTests(files, false)).toEqual({ passed: 3, failed: 1 })
})

test('a file that did not load is one failure', () => {
  expect(countTests(report(['passed', ['passed']], ['failed', []]), false)).toEqual({ passed: 1, failed: 1 })
})

test.each([
  ['nothing ran', report(), true, { passed: 0, failed: 1 }],
  ['the run broke after its tests', report(['passed', ['passed']]), false, { passed: 1, failed: 1 }],
  ['the report is cut short', () => '{', false, { passed: 0, failed: 1 }],
])('a run is a failure when %s', (_, read, fine, counts) => {
  expect(countTests(read, fine)).toEqual(counts)
})

test('a report that cannot be read is a failure', () => {
  const read = (): string => {
    throw new Error('no such file')
  }
  expect(countTests(read, true)).toEqual({ passed: 0, failed: 1 })
})
