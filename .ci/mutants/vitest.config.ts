import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { KeptWorker } from './kept-worker.js'

const root = fileURLToPath(new URL('../..', import.meta.url))

const slowInTrains = ['oracle', 'laws', 'geometry', 'interleavings'].map((part) => `**/*${part}*.test.ts`)

/** Files that took least in the first run come first: most mutants are found before the slow ones are asked. */
class QuickestFirst extends BaseSequencer {
  private readonly took = new Map<string, number>()

  override async sort(files: TestSpecification[]) {
    for (const { moduleId, testModule } of files)
      if (testModule && !this.took.has(moduleId)) this.took.set(moduleId, testModule.diagnostic().duration)
    return [...files].sort((a, b) => (this.took.get(a.moduleId) ?? 0) - (this.took.get(b.moduleId) ?? 0))
  }
}

export default defineConfig({
  root,
  plugins: [
    {
      // To ask at each step whether this mutant is the one that is tried, and to count that the step was reached, costs most of
      // the time of a loop. Sources are loaded anew for each mutant, so what a step asks first is constant, and compiled away.
      name: 'ask-once',
      enforce: 'pre',
      transform: (code) =>
        code.includes('stryMutAct_9fa48')
          ? `const tried_9fa48 = globalThis.loadedFor, counts_9fa48 = tried_9fa48 === undefined;${code
              .replace(/\bstryCov_9fa48\((?=")/g, 'counts_9fa48 && $&')
              .replace(/\bstryMutAct_9fa48\(("\d+")\)/g, '(tried_9fa48 === $1 && $&)')}`
          : undefined,
    },
    {
      name: 'kept-worker',
      configureVitest({ project }) {
        project.config.pool = 'kept' as 'threads'
        project.config.poolRunner = { name: 'kept', createPoolWorker: (options) => new KeptWorker(options) }
      },
    },
  ],
  test: {
    include: [`packages/${process.env.MUTATED}/src/**/*.test.ts`],
    setupFiles: ['./.ci/mutants/each-file.ts', './vitest.setup.ts'],
    // The laws and the slow versions find what the others find, and take a hundred times as long.
    exclude: ['**/*fuzz*.test.ts', ...(process.env.MUTATED === 'trains' ? slowInTrains : [])],
    // A test that waits for ever fails by itself: for Stryker to find out, and start anew, takes ten seconds.
    testTimeout: 4000,
    isolate: false,
    // The other packages stand as they were built: they need not be loaded anew.
    server: { deps: { external: [/\/packages\/\w+\/dist\//] } },
    sequence: { sequencer: QuickestFirst },
  },
})
