/**
 * Counts a test run from vitest's JSON report.
 * @param {() => string} report reads the report; may throw when the run ended before it wrote one
 * @param {boolean} fine whether the run itself ended without an error
 * @returns {{ passed: number, failed: number }} a run that broke, or ran nothing, is at least one failure
 */
export function countTests(report, fine) {
  let passed = 0
  let failed = 0
  try {
    for (const file of JSON.parse(report()).testResults) {
      const of = (status) => file.assertionResults.filter((test) => test.status === status).length
      passed += of('passed')
      // A file that fails without a failed test did not load.
      failed += of('failed') || (file.status === 'failed' ? 1 : 0)
    }
  } catch {
    failed = 1
  }
  return passed + failed === 0 || (!fine && failed === 0) ? { passed, failed: 1 } : { passed, failed }
}
