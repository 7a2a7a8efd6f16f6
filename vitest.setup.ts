import fc from 'fast-check'

// One seed for a whole run, printed when a property fails; replay with SEED=... RUNS=... npx vitest run <file>.
const seed = Number(process.env.SEED ?? 20260101)
const runs = process.env.RUNS ? { numRuns: Number(process.env.RUNS) } : {}
fc.configureGlobal({ seed, ...runs })
