import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import { build } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeClient } from './client.js'
import type { WorkerLike } from './protocol.js'

/*
 * Real threads: a synchronous job hears nothing until it is done, so only the end of its thread can cut it off.
 * Vite bundles the worker's side, since Node cannot run its source.
 */

const source = `
  import { parentPort } from 'node:worker_threads'
  import { serve } from '${new URL('./serve.ts', import.meta.url).pathname}'

  function findTrains(shared) {
    const state = new Int32Array(shared)
    Atomics.store(state, 0, 1)
    while (true) Atomics.add(state, 1, 1)
  }
  const makeChart = () => process.exit(3)
  const layOut = (a, b) => [a, b]
  serve({ findTrains, makeChart, layOut }, parentPort)
`

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'trainwright-'))
  await build({
    configFile: false,
    logLevel: 'error',
    root: new URL('.', import.meta.url).pathname,
    ssr: { noExternal: true, resolve: { conditions: ['source'] } },
    build: {
      ssr: true,
      outDir: folder,
      rollupOptions: { input: 'virtual:entry', output: { entryFileNames: 'entry.mjs' } },
    },
    plugins: [
      {
        name: 'entry',
        resolveId: (id) => (id === 'virtual:entry' ? join(import.meta.dirname, 'entry.virtual.ts') : null),
        load: (id) => (id.endsWith('entry.virtual.ts') ? source : null),
      },
    ],
  })
})
afterAll(() => rm(folder, { recursive: true, force: true }))

const ended: Promise<number>[] = []

/** A thread of Node with the events of a browser's worker. */
class ThreadWorker extends EventTarget implements WorkerLike {
  readonly #thread = new Worker(join(folder, 'entry.mjs'))
  readonly postMessage = this.#thread.postMessage.bind(this.#thread) as WorkerLike['postMessage']

  constructor() {
    super()
    const tell = (type: string, more: object) => this.dispatchEvent(Object.assign(new Event(type), more))
    this.#thread.on('message', (data) => tell('message', { data }))
    this.#thread.once('error', (error) => tell('error', { error }))
    // A browser's worker cannot exit behind its owner's back; Node's can, and says so.
    this.#thread.once('exit', (code) => tell('error', { message: `exit ${code}` }))
    ended.push(new Promise((resolve) => this.#thread.once('exit', resolve)))
  }

  terminate() {
    return this.#thread.terminate()
  }
}
const spawn = () => new ThreadWorker()

test('abort cuts off a job that would never end, and the next question is answered', async () => {
  const client = makeClient(spawn)
  const shared = new SharedArrayBuffer(8)
  const state = new Int32Array(shared)
  const controller = new AbortController()
  const asked = client.findTrains(shared as never, {} as never, {}, { signal: controller.signal })
  while (Atomics.load(state, 0) === 0) await new Promise((resolve) => setTimeout(resolve, 1))
  controller.abort()
  await expect(asked).rejects.toMatchObject({ name: 'AbortError' })
  await ended[0]
  const reached = Atomics.load(state, 1)
  expect(reached).toBeGreaterThan(0)
  expect(await client.layOut('a' as never, 'b' as never)).toEqual(['a', 'b'])
  expect(Atomics.load(state, 1)).toBe(reached)
  client.close()
})

test('a thread that ends by itself is replaced once, then told', async () => {
  const client = makeClient(spawn)
  await expect(client.makeChart({} as never, [])).rejects.toThrow('stopped again on the same question: exit 3')
  client.close()
})
