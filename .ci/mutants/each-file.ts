import { beforeEach, inject, vi } from 'vitest'

// A mutant that is found is found by few cases: no property runs more often than RUNS says, and none is shrunk.
const most = Number(process.env.RUNS ?? 20)

vi.mock('fast-check', async (original) => {
  const real = await original<typeof import('fast-check')>()
  const assert = ((property: never, parameters?: import('fast-check').Parameters<unknown>) => {
    const asked = parameters?.numRuns ?? most
    return real.assert(property, { ...parameters, numRuns: Math.min(asked, most), endOnFailure: true })
  }) as typeof real.assert
  return { ...real, assert, default: { ...real.default, assert } }
})

// A kept thread would go back, after each file, to the configuration that the first file to set its own was run with, and so to
// the tests that were asked for then. All files have time enough.
vi.setConfig = () => {}
vi.resetConfig = () => {}

// These take longer than most others together, and others find what they find.
const slow = [
  'and with the gears that may be made, of a thread that is not cut yet',
  'are answered at once even where no table would hold them',
  'are counted over owned gears, and those with a gear made on either side',
  'are reckoned from a part of a large box, and then are too many',
  'are reckoned from the owned ones where no table would hold them',
  'are refused with the pairs counted, and the stages that would do',
  'answers as the plain calls do, whatever was asked before',
  'holds the same threads, each with one of its first trains',
  'level in part: the first few are the first of all',
  'level with each other: the first few are the first of all',
  'may be huge',
  'silently is found out before it is asked',
]

// This runs before each file of tests. Sources are loaded anew for each mutant, so that nothing that the one before left
// behind in them is found, and in the first run, which notes what is reached from where, for each file. While they load,
// the thread still holds the mutant before this one; only one of what runs on loading must be active then, and
// Stryker's own set-up, which ran just now, has seen to that.
const given = inject as (key: string) => unknown
const thread = globalThis as {
  __stryker__?: { activeMutant?: string }
  loadedFor?: unknown
  foundFor?: unknown
}
const mutant = given('activeMutant')
// Vitest would load all other files to say of each that it is left out.
if (mutant !== undefined && mutant === thread.foundFor) throw new Error('found already')
beforeEach(({ task, skip, onTestFailed }) => {
  skip(slow.includes(task.name))
  onTestFailed(() => {
    thread.foundFor = mutant
  })
})
if (mutant === undefined || mutant !== thread.loadedFor) vi.resetModules()
thread.loadedFor = mutant
if (thread.__stryker__ && given('mutantActivation') !== 'static') delete thread.__stryker__.activeMutant
