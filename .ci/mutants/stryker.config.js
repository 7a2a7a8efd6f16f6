import { readdirSync, readFileSync } from 'node:fs'

const name = process.env.MUTATED
const src = `packages/${name}/src`

const apart = (process.env.MUTATED_APART ?? '')
  .split(' ')
  .filter(Boolean)
  .map((file) => `${src}/${file}`)
const files = `${src}/${process.env.MUTATED_FILES ?? '**/*.ts'}`

/** A seeded sample for a hurried look: of every file some stretches of ten lines, one in SAMPLE. */
function stretches() {
  const { SAMPLE = '1', SEED = '20260101' } = process.env
  if (SAMPLE === '1' || !files.includes('*')) return [files]
  const [folder, rest] = files.split('*', 1).concat(files.includes('**') ? '.*' : '[^/]*')
  const wanted = new RegExp(`^${folder}${rest}(?<!\\.(test|fake))\\.ts$`)
  let state = Number(SEED)
  const found = []
  for (const name of readdirSync(src, { recursive: true, encoding: 'utf8' }).sort()) {
    const file = `${src}/${name}`
    if (!wanted.test(file) || apart.includes(file)) continue
    const lines = readFileSync(file, 'utf8').split('\n').length
    for (let line = 1; line <= lines; line += 10) {
      state = (state * 48271) % 2147483647
      if (state % Number(SAMPLE) === 0) found.push(`${file}:${line}-${Math.min(line + 9, lines)}`)
    }
  }
  return found
}

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
    ...stretches(),
    ...apart.map((file) => `!${file}`),
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
  timeoutMS: 3500,
  timeoutFactor: 0.25,
}
