import { inject, vi } from 'vitest'

// A mutant that is found is found by few cases: no property runs more often than RUNS says, and none is shrunk.
const most = Number(process.env.RUNS ?? 20)

vi.mock('fast-check', async (original) => {
  const real = await original<typeof import('fast-check')>()
  const assert: typeof real.assert = (property, parameters) =>
    real.assert(property, { ...parameters, numRuns: Math.min(parameters?.numRuns ?? most, most), endOnFailure: true })
  return { ...real, assert, default: { ...real.default, assert } }
})

// The thread still holds the mutant before this one while the sources are loaded anew. Only a mutant of what runs on
// loading must be active then, and Stryker's own set-up has seen to that.
const stryker = globalThis as { __stryker__?: { activeMutant?: string } }
const given = inject as (key: string) => unknown
if (stryker.__stryker__ && given('mutantActivation') !== 'static') delete stryker.__stryker__.activeMutant
