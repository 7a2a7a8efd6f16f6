const name = process.env.MUTATED
const src = `packages/${name}/src`

export default {
  packageManager: 'npm',
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner', import.meta.resolve('./wording.js')],
  ignorers: ['wording'],
  vitest: { configFile: '.ci/mutants/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  disableTypeChecks: false,
  incremental: false,
  concurrency: Number(process.env.CONCURRENCY ?? 1),
  mutate: [
    `${src}/${process.env.MUTATED_FILES ?? '**/*.ts'}`,
    '!**/*.test.ts',
    '!**/*.fake.ts',
    '!**/testing/**',
    '!**/index.ts',
    // Shapes only.
    '!**/{contract,*-contract}.ts',
    // Published values, each checked against its source by the tests of what reads them.
    '!**/tables/**',
  ],
  reporters: ['json', 'progress-append-only'],
  jsonReporter: { fileName: `reports/mutants/${name}.json` },
  ignorePatterns: ['dist', 'reports', 'playground/public'],
  tempDirName: '.stryker-tmp',
  timeoutMS: 4000,
  timeoutFactor: 2,
}
