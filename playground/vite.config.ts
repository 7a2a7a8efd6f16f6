import { defineConfig } from 'vite'

export default defineConfig({
  // The search runs in a module worker, which becomes a chunk of its own.
  worker: { format: 'es' },
})
