import { getEventListeners } from 'node:events'
import { InputError } from '@trainwright/measures'
import { afterEach, describe, expect, test } from 'vitest'
import type { ProgressListener, ThreadWanted, Workshop } from '../contract.js'
import { WorkshopError } from '../workshop-error.js'
import { ChannelWorker } from './channel-worker.fake.js'
import { makeClient } from './client.js'
import { TrainWorkerError } from './failure.js'
import type { Engine } from './serve.js'

const workshop: Workshop = { lathe: { leadscrew: { pitch: '1.5 mm' } }, gears: [{ teeth: 20 }, { teeth: 65 }] }
const wanted: ThreadWanted = { pitch: '26 tpi' }
const never = () => new Promise<never>(() => {})

const open: { close(): void }[] = []
afterEach(() => {
  for (const client of open.splice(0)) client.close()
})

/** A client whose n-th worker serves the n-th engine, the last one for all that follow. */
function clientOf(...engines: (Engine | null)[]) {
  const workers: ChannelWorker[] = []
  const spawn = () => {
    const worker = new ChannelWorker(engines[Math.min(workers.length, engines.length - 1)])
    workers.push(worker)
    return worker
  }
  // Only a worker meant to be silent is to be given up: on a busy machine an answer may take its time.
  const client = makeClient(spawn, engines.includes(null) ? 200 : 10_000)
  open.push(client)
  return { client, workers }
}

/** An engine that says when it has begun a question, and never answers. */
function hanging() {
  let begin!: () => void
  const begun = new Promise<void>((resolve) => {
    begin = resolve
  })
  const hang = () => {
    begin()
    return never()
  }
  return { engine: { findTrains: hang, makeChart: hang } satisfies Engine, begun }
}

const echo = (...args: unknown[]) => args
const echoing: Engine = { findTrains: echo, proposeGears: echo, makeChart: echo, layOut: echo }
const aborted = { name: 'AbortError' }

describe('a question', () => {
  test('reaches the function of its name with its arguments, and nothing else', async () => {
    const { client } = clientOf(echoing)
    const { signal } = new AbortController()
    const call = { signal }
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
    expect(await client.findTrains(workshop, wanted, { limit: 3 }, call)).toEqual([workshop, wanted, { limit: 3 }])
    expect(await client.findTrains(workshop, wanted, { limit: 3, signal })).toEqual([workshop, wanted, { limit: 3 }])
    expect(await client.makeChart(workshop, [wanted], {}, call)).toEqual([workshop, [wanted], {}])
    expect(await client.proposeGears(workshop, [wanted], { make: 2 }, call)).toEqual([workshop, [wanted], { make: 2 }])
    expect(await client.layOut(workshop.lathe, { stages: [] }, call)).toEqual([workshop.lathe, { stages: [] }])
  })

  test('carries junk to the engine, which refuses it', async () => {
    const { client } = clientOf(echoing)
    for (const junk of ['5', 5, null, [1]]) {
      const call = { onProgress: () => {} }
      expect(await client.findTrains(null as never, [] as never, junk as never, call)).toEqual([null, [], junk])
    }
  })

  test('that cannot be sent is refused, and the worker goes on', async () => {
    const { client, workers } = clientOf(echoing)
    const unsendable = { ...workshop, name: () => {} } as unknown as Workshop
    await expect(client.findTrains(unsendable, wanted)).rejects.toMatchObject({ name: 'DataCloneError' })
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
    expect(workers).toHaveLength(1)
  })

  test('that the worker does not know is refused by its name', async () => {
    const { client } = clientOf({})
    await expect(client.layOut(workshop.lathe, { stages: [] })).rejects.toThrow('does not answer layOut')
  })
})

describe('errors cross whole', () => {
  const problems = [
    { path: 'gears[3].teeth', code: 'whole', message: 'This must be a whole number, 6 to 2000.' },
    { path: '', code: 'object', message: 'This must be an object.' },
  ]
  const throwing = (error: unknown): Engine => ({
    findTrains: () => {
      throw error
    },
  })
  const thrown = (error: unknown) =>
    clientOf(throwing(error))
      .client.findTrains(workshop, wanted)
      .then(
        () => expect.unreachable(),
        (caught: Error) => caught,
      )

  test('WorkshopError with its class, message and problems', async () => {
    const original = new WorkshopError(problems)
    const error = await thrown(original)
    expect(error).toBeInstanceOf(WorkshopError)
    expect(error).toBeInstanceOf(InputError)
    expect(error).toMatchObject({ name: 'WorkshopError', message: original.message, problems })
  })

  test('InputError as no more than that', async () => {
    const error = await thrown(new InputError(problems))
    expect(error).toBeInstanceOf(InputError)
    expect(error).not.toBeInstanceOf(WorkshopError)
    expect(error).toMatchObject({ name: 'InputError', problems })
  })

  test('any other error with its name, message and stack', async () => {
    const original = new RangeError('no such place')
    const { name, message, stack } = original
    expect(await thrown(original)).toMatchObject({ name, message, stack })
    expect(await thrown('bare words')).toMatchObject({ name: 'Error', message: 'bare words' })
  })

  test('an answer that cannot be sent is an error', async () => {
    const { client } = clientOf({ findTrains: () => () => {} })
    await expect(client.findTrains(workshop, wanted)).rejects.toMatchObject({ name: 'TypeError' })
  })
})

describe('a newer question', () => {
  test('supersedes the older one of its kind, whose worker is ended', async () => {
    const { engine, begun } = hanging()
    const { client, workers } = clientOf(engine, echoing)
    const older = client.findTrains(workshop, wanted)
    await begun
    const newer = client.findTrains(workshop, { pitch: '27 tpi' })
    await expect(older).rejects.toMatchObject(aborted)
    expect(await newer).toEqual([workshop, { pitch: '27 tpi' }])
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
  })

  test('takes the place of one that has not begun, which is never sent, and keeps the worker', async () => {
    let answered = 0
    const { client, workers } = clientOf({ findTrains: () => ++answered })
    const asked = ['1', '2', '3'].map((pitch) => client.findTrains(workshop, { pitch }))
    const settled = await Promise.allSettled(asked)
    expect(settled.map((one) => one.status)).toEqual(['rejected', 'rejected', 'fulfilled'])
    expect(await client.findTrains(workshop, wanted)).toBe(2)
    expect(workers).toHaveLength(1)
  })

  test('is not answered by what was on its way for the older one', async () => {
    let answer!: (x: string) => void
    let begin!: () => void
    const begun = new Promise<void>((resolve) => {
      begin = resolve
    })
    const slow = () => {
      begin()
      return new Promise((resolve) => {
        answer = resolve
      })
    }
    const { client, workers } = clientOf({ findTrains: slow }, echoing)
    const older = client.findTrains(workshop, wanted)
    await begun
    workers[0].terminate = () => {}
    const newer = client.findTrains(workshop, { pitch: '27 tpi' })
    answer('the older answer')
    await expect(older).rejects.toMatchObject(aborted)
    expect(await newer).toEqual([workshop, { pitch: '27 tpi' }])
  })

  test('leaves questions of other kinds and of other clients alone', async () => {
    let answer!: (x: string) => void
    const slow: Engine = {
      ...echoing,
      makeChart: () =>
        new Promise((resolve) => {
          answer = resolve
        }),
    }
    const one = clientOf(slow)
    const other = clientOf(slow)
    const chart = one.client.makeChart(workshop, [wanted])
    await one.client.layOut(workshop.lathe, { stages: [] })
    await one.client.findTrains(workshop, wanted)
    await other.client.findTrains(workshop, wanted)
    other.client.close()
    answer('the chart')
    expect(await chart).toBe('the chart')
    expect(one.workers.some((worker) => worker.ended)).toBe(false)
  })
})

describe('abort', () => {
  test('ends the worker at once and starts another', async () => {
    const { engine, begun } = hanging()
    const { client, workers } = clientOf(engine, echoing)
    const controller = new AbortController()
    const asked = client.findTrains(workshop, wanted, {}, { signal: controller.signal })
    await begun
    controller.abort()
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
    await expect(asked).rejects.toMatchObject(aborted)
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
    expect(workers).toHaveLength(2)
  })

  test('of a question that waits for its second worker keeps that worker', async () => {
    const { engine, begun } = hanging()
    const { client, workers } = clientOf(engine, echoing)
    const controller = new AbortController()
    const asked = client.findTrains(workshop, wanted, {}, { signal: controller.signal })
    await begun
    workers[0].die()
    controller.abort()
    await expect(asked).rejects.toMatchObject(aborted)
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
  })

  test('with a reason of its own is an AbortError too', async () => {
    const { engine, begun } = hanging()
    const controller = new AbortController()
    const asked = clientOf(engine).client.findTrains(workshop, wanted, { signal: controller.signal })
    await begun
    controller.abort('typed on')
    await expect(asked).rejects.toMatchObject(aborted)
  })

  test('before the call: nothing is asked, and the open question stays', async () => {
    const { client, workers } = clientOf(echoing)
    const first = client.findTrains(workshop, wanted)
    await expect(client.findTrains(workshop, wanted, {}, { signal: AbortSignal.abort() })).rejects.toMatchObject(
      aborted,
    )
    expect(await first).toEqual([workshop, wanted])
    expect(workers).toHaveLength(1)
  })

  test('after the answer changes nothing, and the signal is let go', async () => {
    const { client, workers } = clientOf(echoing)
    const controller = new AbortController()
    await client.findTrains(workshop, wanted, {}, { signal: controller.signal })
    expect(getEventListeners(controller.signal, 'abort')).toHaveLength(0)
    const next = client.findTrains(workshop, wanted)
    controller.abort()
    expect(await next).toEqual([workshop, wanted])
    expect(workers).toHaveLength(1)
  })
})

describe('a worker that dies', () => {
  test.each(['error', 'messageerror'] as const)('by %s is replaced and the question asked once more', async (type) => {
    const { engine, begun } = hanging()
    const { client, workers } = clientOf(engine, echoing)
    const asked = client.findTrains(workshop, wanted)
    await begun
    workers[0].die(undefined, type)
    expect(await asked).toEqual([workshop, wanted])
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
  })

  test('twice on one question: the failure is told, and the next question is answered', async () => {
    const [first, second] = [hanging(), hanging()]
    const { client, workers } = clientOf(first.engine, second.engine, echoing)
    const asked = client.findTrains(workshop, wanted)
    await first.begun
    workers[0].die(new Error('out of memory'))
    await second.begun
    workers[1].die(new Error('out of memory again'))
    await expect(asked).rejects.toThrow(TrainWorkerError)
    await expect(asked).rejects.toThrow('out of memory again')
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
  })

  test('between questions is replaced by the next one', async () => {
    const { client, workers } = clientOf(echoing)
    await client.findTrains(workshop, wanted)
    workers[0].die()
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
  })

  test('silently is found out before it is asked', async () => {
    const { client, workers } = clientOf(null, echoing)
    expect(await client.findTrains(workshop, wanted)).toEqual([workshop, wanted])
    expect(workers.map((worker) => worker.ended)).toEqual([true, false])
    await expect(clientOf(null).client.findTrains(workshop, wanted)).rejects.toThrow('no sign of life within 0.2 s')
  })

  test('before it starts is told', async () => {
    const client = makeClient(() => {
      throw new Error('no workers here')
    })
    await expect(client.findTrains(workshop, wanted)).rejects.toThrow('no workers here')
  })

  test('does not show as an uncaught error of the page', async () => {
    const { client, workers } = clientOf(echoing)
    await client.findTrains(workshop, wanted)
    const event = new Event('error', { cancelable: true })
    workers[0].dispatchEvent(event)
    expect(event.defaultPrevented).toBe(true)
  })
})

describe('progress', () => {
  const counting: Engine = {
    proposeGears(_: unknown, __: unknown, { onProgress }: { onProgress?: ProgressListener }) {
      for (let done = 0; done <= 1000; done++) onProgress?.(done, 1000)
      return 'done'
    },
  }

  test('comes in whole percents, in order, and before the answer', async () => {
    const heard: string[] = []
    const onProgress = (done: number, total: number) => heard.push(`${done}/${total}`)
    const { client } = clientOf(counting)
    heard.push(String(await client.proposeGears(workshop, [wanted], {}, { onProgress })))
    const percents = Array.from({ length: 101 }, (_, i) => `${10 * i}/1000`)
    expect(heard).toEqual([...percents, 'done'])
  })

  test('is left out when nobody listens', async () => {
    expect(await clientOf(counting).client.proposeGears(workshop, [wanted], {})).toBe('done')
  })

  test('may be heard without options, and a listener that throws is no failure of the search', async () => {
    let heard = 0
    const onProgress = () => {
      heard++
      throw new Error('the listener broke')
    }
    expect(await clientOf(counting).client.proposeGears(workshop, [wanted], { onProgress })).toBe('done')
    expect(heard).toBe(101)
  })

  test('of a question that was taken back is not heard', async () => {
    let go!: () => void
    const gate = new Promise<void>((resolve) => {
      go = resolve
    })
    const late: Engine = {
      async proposeGears(_: unknown, __: unknown, { onProgress }: { onProgress: ProgressListener }) {
        onProgress(0, 2)
        await gate
        onProgress(1, 2)
        return 'late'
      },
    }
    const { client } = clientOf(late)
    const controller = new AbortController()
    const heard: number[] = []
    let first!: () => void
    const begun = new Promise<void>((resolve) => {
      first = resolve
    })
    const onProgress = (done: number) => {
      heard.push(done)
      first()
    }
    const asked = client.proposeGears(workshop, [wanted], {}, { signal: controller.signal, onProgress })
    await begun
    controller.abort()
    go()
    await expect(asked).rejects.toMatchObject(aborted)
    await new Promise((resolve) => setTimeout(resolve, 5))
    expect(heard).toEqual([0])
  })
})

test('a closed client ends its workers and rejects what is open and what comes', async () => {
  const { engine, begun } = hanging()
  const { client, workers } = clientOf(engine)
  const asked = client.findTrains(workshop, wanted)
  await begun
  client.close()
  client.close()
  expect(workers.map((worker) => worker.ended)).toEqual([true])
  await expect(asked).rejects.toMatchObject(aborted)
  await expect(client.makeChart(workshop, [wanted])).rejects.toMatchObject(aborted)
  expect(workers).toHaveLength(1)
})
