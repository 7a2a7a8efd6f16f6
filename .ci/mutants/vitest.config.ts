import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { KeptWorker } from './kept-worker.js'

const root = fileURLToPath(new URL('../..', import.meta.url))
const folder = join(root, 'packages', process.env.MUTATED ?? '', 'src')
const sources = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
  .map((name) => join(folder, name))
const conditions = ['source', 'module', 'node', 'development|production']

export default defineConfig({
  root,
  resolve: { conditions },
  ssr: { resolve: { conditions } },
  plugins: [
    {
      name: 'kept-worker',
      configureVitest({ project }) {
        project.config.pool = 'kept' as 'threads'
        project.config.poolRunner = { name: 'kept', createPoolWorker: (options) => new KeptWorker(options, sources) }
      },
    },
  ],
  test: {
    include: [`packages/${process.env.MUTATED}/src/**/*.test.ts`],
    setupFiles: ['./.ci/mutants/few-runs.ts', './vitest.setup.ts'],
    testTimeout: 60_000,
    isolate: false,
  },
})
