import { defineConfig } from 'vitest/config'
import { readmeTests } from './.ci/readme-tests.js'

const conditions = ['source', 'module', 'node', 'development|production']

// Tests read the packages' sources through the `source` condition: no build is needed, and coverage sees them.
const source = { resolve: { conditions }, ssr: { resolve: { conditions } } }

export default defineConfig({
  ...source,
  test: {
    projects: [
      {
        ...source,
        plugins: [readmeTests()],
        test: {
          name: 'unit',
          include: [
            'packages/*/src/**/*.test.ts',
            'bench/**/*.test.ts',
            'playground/src/**/*.test.ts',
            '.ci/*.test.ts',
            'README.md',
            'packages/*/README.md',
          ],
          setupFiles: ['./vitest.setup.ts'],
          // No test is about time: a busy machine is no failure, and a million cases take what they take.
          testTimeout: process.env.CASES ? 10_000_000 : 60_000,
          maxWorkers: 2,
          // Files share what they import: no test leaves anything behind in it.
          isolate: false,
        },
      },
      {
        // Reads what was built, as others get it: no `source` condition.
        test: {
          name: 'library',
          include: ['.ci/library/*.test.ts'],
          // Compilers and installations: on a busy machine they take what they take.
          testTimeout: 240_000,
          hookTimeout: 240_000,
          maxWorkers: 2,
        },
      },
      {
        ...source,
        test: {
          name: 'browser',
          include: ['playground/test/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          // Two at a time, each with a browser of its own: more only wait for each other.
          maxWorkers: 2,
        },
      },
    ],
  },
})
