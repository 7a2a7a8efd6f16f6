import { defineConfig } from 'vite'
import { chunks, lateWithoutHelper } from './build/chunks.js'
import { contentSecurityPolicy } from './build/content-security-policy.js'
import { offline } from './build/offline.js'
import { sentForEarly } from './build/sent-for-early.js'
import { templatesWithoutIndentation } from './build/templates-without-indentation.js'
import { workerSharesChunks } from './build/worker-shares-chunks.js'

export default defineConfig({
  // Any folder of any server will do.
  base: './',
  plugins: [
    contentSecurityPolicy,
    workerSharesChunks,
    templatesWithoutIndentation,
    lateWithoutHelper,
    sentForEarly,
    offline,
  ],
  build: {
    modulePreload: false,
    rolldownOptions: {
      // Nothing happens when a property is read, here or in what comes along.
      treeshake: { propertyReadSideEffects: false },
      output: { codeSplitting: { groups: chunks, includeDependenciesRecursively: false } },
    },
  },
  // The search runs in a module worker, which becomes a chunk of its own.
  worker: { format: 'es' },
})
