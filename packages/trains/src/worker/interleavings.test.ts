import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ChannelWorker } from './channel-worker.fake.js'
import { makeClient, type TrainWorker } from './client.js'
import type { Engine } from './serve.js'

/*
 * Two clients ask, take back, finish and lose workers in any order. A model says how each question must end; it knows
 * nothing of messages or timing: a question ends by an answer of its own, by abort, by being superseded, by its client's
 * closing, or by the second death of its worker.
 */

const kinds = ['findTrains', 'makeChart'] as const
type Kind = (typeof kinds)[number]
type End = 'open' | 'answered' | 'AbortError' | 'TrainWorkerError'

interface Asked {
  id: number
  kind: Kind
  controller: AbortController
  deaths: number
  end: End
  outcome: Promise<string>
}

/** One client, its workers, its model. Jobs wait at gates, by the question's number. */
class Side {
  readonly gates = new Map<number, () => void>()
  readonly workers: { worker: ChannelWorker; kind: Kind | null }[] = []
  readonly asked: Asked[] = []
  readonly client: TrainWorker
  closed = false
  #spawning: Kind | null = null

  constructor() {
    const job = (_: unknown, { id }: { id: number }) =>
      this.gates.has(id) ? `answer ${id}` : new Promise((resolve) => this.#waiting(id, resolve))
    const engine: Engine = { findTrains: job, makeChart: job }
    this.client = makeClient(() => {
      const worker = new ChannelWorker(engine)
      this.workers.push({ worker, kind: this.#spawning })
      return worker
    })
  }

  #waiters = new Map<number, ((answer: string) => void)[]>()
  #waiting(id: number, resolve: (answer: string) => void) {
    this.#waiters.set(id, [...(this.#waiters.get(id) ?? []), resolve])
  }

  /** What is done for one kind; workers that are started meanwhile are that kind's. */
  #as(kind: Kind, act: () => void) {
    this.#spawning = kind
    act()
    this.#spawning = null
  }

  openOf = (kind: Kind) => this.asked.find((one) => one.kind === kind && one.end === 'open')

  ask(kind: Kind, id: number) {
    const controller = new AbortController()
    const superseded = this.openOf(kind)
    if (superseded) superseded.end = 'AbortError'
    this.#as(kind, () => {
      const outcome = (this.client[kind] as (...args: unknown[]) => Promise<unknown>)({}, { id }, {}, controller).then(
        String,
        (error: Error) => error.name,
      )
      this.asked.push({ id, kind, controller, deaths: 0, end: this.closed ? 'AbortError' : 'open', outcome })
    })
  }

  abort(nth: number) {
    const one = this.asked[nth % (this.asked.length || 1)]
    if (!one) return
    if (one.end === 'open') one.end = 'AbortError'
    this.#as(one.kind, () => one.controller.abort())
  }

  kill(kind: Kind) {
    const living = this.workers.find((one) => one.kind === kind && !one.worker.ended)
    if (!living) return
    const one = this.openOf(kind)
    if (one && ++one.deaths === 2) one.end = 'TrainWorkerError'
    this.#as(kind, () => living.worker.die(new Error('killed')))
  }

  /** Lets the open question of a kind be answered, and waits for that. */
  async finish(kind: Kind) {
    const one = this.openOf(kind)
    if (!one) return
    one.end = 'answered'
    this.gates.set(one.id, () => {})
    for (const resolve of this.#waiters.get(one.id) ?? []) resolve(`answer ${one.id}`)
    await one.outcome
  }

  close() {
    this.closed = true
    for (const one of this.asked) if (one.end === 'open') one.end = 'AbortError'
    this.client.close()
  }

  async check() {
    for (const { outcome, end, id } of this.asked) expect(await outcome).toBe(end === 'answered' ? `answer ${id}` : end)
    for (const kind of kinds) {
      const living = this.workers.filter((one) => one.kind === kind && !one.worker.ended)
      expect(living.length).toBeLessThanOrEqual(this.closed ? 0 : 1)
    }
  }
}

const step = fc.record({
  side: fc.nat(1),
  kind: fc.constantFrom(...kinds),
  act: fc.oneof(
    { weight: 6, arbitrary: fc.constant('ask' as const) },
    { weight: 3, arbitrary: fc.constant('finish' as const) },
    { weight: 3, arbitrary: fc.constant('abort' as const) },
    { weight: 3, arbitrary: fc.constant('kill' as const) },
    { weight: 3, arbitrary: fc.constant('turn' as const) },
    { weight: 1, arbitrary: fc.constant('close' as const) },
  ),
  nth: fc.nat(20),
})

const numRuns = Number(process.env.RUNS ?? 300)

test('whatever two clients ask, abort, lose and close, in any order, each question ends as it must', async () => {
  const ends = new Set<End>()
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 30 }), async (steps) => {
      const sides = [new Side(), new Side()]
      for (const [id, { side, kind, act, nth }] of steps.entries()) {
        const one = sides[side]
        if (act === 'ask') one.ask(kind, id)
        else if (act === 'abort') one.abort(nth)
        else if (act === 'kill') one.kill(kind)
        else if (act === 'close') one.close()
        else if (act === 'finish') await one.finish(kind)
        // Messages come and go: questions begin, or are caught between two messages.
        else for (let i = 0; i < nth % 4; i++) await new Promise((resolve) => setImmediate(resolve))
      }
      for (const one of sides) for (const kind of kinds) await one.finish(kind)
      for (const one of sides) await one.check()
      for (const one of sides) {
        for (const { end } of one.asked) ends.add(end)
        one.close()
        await one.check()
      }
    }),
    { numRuns },
  )
  // A few runs need not come to every end.
  if (numRuns >= 100) expect([...ends].sort()).toEqual(['AbortError', 'TrainWorkerError', 'answered'])
})
