import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  findTrains,
  type Lathe,
  layOut,
  makeChart,
  proposeGears,
  type SetUp,
  type ThreadWanted,
  type Workshop,
} from '@trainwright/trains'
import type { Page } from 'playwright-core'
import { build } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type BuiltPage, serveBuiltPage } from './built-page.js'
import type {} from './worker-page/main.js'

/*
 * The public worker in a browser, from a page that vite built of the packages as they are published: real workers, real
 * messages, a chunk of its own.
 */

const workshop = (counts: number[], studs: number): Workshop => ({
  lathe: { leadscrew: { pitch: '1 mm' }, studs },
  gears: counts.map((teeth) => ({ teeth })),
})
const small = workshop([20, 30, 40, 50, 60, 65], 1)
const wanted: ThreadWanted = { pitch: '1.5 mm' }
const big = workshop(
  Array.from({ length: 48 }, (_, i) => 20 + i),
  3,
)
/** Millions of sets of gears each, so that nobody waits for the end. */
const endless = Array.from({ length: 500 }, (_, i): ThreadWanted => ({ pitch: `${1000 + i}/777` }))

let folder: string
let built: BuiltPage
let page: Page
let errors: string[]

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'trainwright-'))
  const root = new URL('worker-page', import.meta.url).pathname
  const worker = { format: 'es' } as const
  await build({ configFile: false, root, worker, logLevel: 'warn', build: { outDir: folder, emptyOutDir: true } })
  built = await serveBuiltPage(root, folder)
  ;({ page, errors } = await built.open())
  await page.waitForFunction(() => 'tools' in globalThis)
})
afterAll(async () => {
  await built?.close()
  await rm(folder, { recursive: true, force: true })
})

test('the worker is a chunk of its own', async () => {
  const chunks = (await readdir(join(folder, 'assets'))).filter((name) => name.endsWith('.js'))
  expect(chunks).toHaveLength(2)
})

test('answers as the functions do', async () => {
  const threads = ['1.5 mm', '1.1 mm', '1.3 mm', '0.7 mm'].map((pitch) => ({ pitch }))
  const lathe: Lathe = {
    ...small.lathe,
    centreDistance: 90,
    banjo: { swing: [0, 120], slots: [{ from: 30, to: 120 }] },
  }
  const setUp: SetUp = { stages: [{ driver: { teeth: 60 }, driven: { teeth: 40 }, idlers: [{ teeth: 50 }] }] }
  const answers = await page.evaluate(
    async ([workshop, threads, lathe, setUp]) => {
      const worker = tools.createTrainWorker()
      const found = await worker.findTrains(workshop, threads[0])
      const heard: string[] = []
      const onProgress = (done: number, total: number) => heard.push(`${done}/${total}`)
      const proposed = await worker.proposeGears(workshop, threads, {}, { onProgress }).finally(() => heard.push('end'))
      const charted: string[] = []
      const chart = await worker.makeChart(
        workshop,
        threads,
        {},
        { onProgress: (done, total) => charted.push(`${done}/${total}`) },
      )
      const laid = await worker.layOut(lathe, setUp)
      worker.close()
      return { found, proposed, chart, laid, heard, charted }
    },
    [small, threads, lathe, setUp] as const,
  )
  const { heard, charted, ...rest } = answers
  expect(rest).toEqual({
    found: findTrains(small, threads[0]),
    proposed: proposeGears(small, threads),
    chart: makeChart(small, threads),
    laid: layOut(lathe, setUp),
  })
  expect(rest.laid.ok).toBe(true)
  expect(heard.slice(-2)).toEqual([expect.stringMatching(/^(\d+)\/\1$/), 'end'])
  expect(charted.at(-1)).toBe('4/4')
  expect(errors).toEqual([])
})

test('bad input crosses whole', async () => {
  const refusal = await page.evaluate(async () => {
    const worker = tools.createTrainWorker()
    const bad = { lathe: { leadscrew: { pitch: 'soon' } }, gears: [{ teeth: 3.5 }] }
    const error = await worker.findTrains(bad, { pitch: '0' }).catch((caught) => caught)
    const whole = error instanceof tools.WorkshopError && error instanceof tools.InputError
    return { whole, name: error.name, paths: error.problems.map((one: { path: string }) => one.path) }
  })
  expect(refusal).toMatchObject({ whole: true, name: 'WorkshopError' })
  expect(refusal.paths).toEqual(expect.arrayContaining(['lathe.leadscrew.pitch', 'gears[0].teeth']))
})

test('abort and newer questions cut a long search off; other clients and kinds are not disturbed', async () => {
  const ends = await page.evaluate(
    async ([small, wanted, big, endless]) => {
      const order: string[] = []
      const told = (name: string, asked: Promise<unknown>) =>
        asked.then(
          () => order.push(`${name} answered`),
          (error) => order.push(`${name} ${error.name}`),
        )
      const aMoment = () => new Promise((resolve) => setTimeout(resolve, 50))
      const [one, other] = [tools.createTrainWorker(), tools.createTrainWorker()]
      // Load the workers first, so that the long searches begin at once.
      await Promise.all([one.makeChart(small, [wanted]), other.makeChart(small, [wanted])])
      const undisturbed = told('other client', other.makeChart(big, endless.slice(0, 2)))
      const first = told('superseded', one.makeChart(big, endless))
      await aMoment()
      const controller = new AbortController()
      const second = told('aborted', one.makeChart(big, endless, {}, { signal: controller.signal }))
      await Promise.all([first, told('other kind', one.findTrains(small, wanted))])
      await aMoment()
      controller.abort()
      await second
      await told('next', one.makeChart(small, [wanted]))
      await undisturbed
      one.close()
      other.close()
      return order
    },
    [small, wanted, big, endless] as const,
  )
  expect(ends).toContain('other client answered')
  expect(ends.filter((end) => end !== 'other client answered')).toEqual([
    'superseded AbortError',
    'other kind answered',
    'aborted AbortError',
    'next answered',
  ])
  expect(errors).toEqual([])
})

test('a worker that cannot be loaded is told', async () => {
  const { page: offline } = await built.open()
  await offline.waitForFunction(() => 'tools' in globalThis)
  await offline.route('**/assets/entry-*', (route) => route.abort())
  const failure = await offline.evaluate(
    async ([workshop, wanted]) => {
      const worker = tools.createTrainWorker()
      const error = await worker.findTrains(workshop, wanted).catch((caught) => caught)
      return [error instanceof tools.TrainWorkerError, error.message]
    },
    [small, wanted] as const,
  )
  expect(failure).toEqual([true, expect.stringContaining('stopped again on the same question')])
})
