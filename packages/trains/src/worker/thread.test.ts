import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { ChannelWorker } from './channel-worker.fake.js'
import { silentMessage } from './messages.js'
import type { Engine } from './serve.js'
import { startThread } from './thread.js'

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }))
afterEach(() => void vi.useRealTimers())

function started(engine: Engine | null) {
  const worker = new ChannelWorker(engine)
  const lost = vi.fn()
  const thread = startThread(() => worker, 1000, lost)
  return { worker, lost, thread }
}

test('a worker that answers is never given up, however long it then works', async () => {
  const { worker, lost, thread } = started({})
  await thread.ready()
  expect(vi.getTimerCount()).toBe(0)
  vi.advanceTimersByTime(5000)
  expect(lost).not.toHaveBeenCalled()
  // Each question begins with a new patience.
  const again = thread.ready()
  expect(vi.getTimerCount()).toBe(1)
  await again
  expect(vi.getTimerCount()).toBe(0)
  expect(worker.ended).toBe(false)
  thread.end()
})

test('a silent one is given up when its patience is at an end, counted from when it was asked first', () => {
  const { worker, lost, thread } = started(null)
  vi.advanceTimersByTime(5000)
  void thread.ready()
  vi.advanceTimersByTime(600)
  void thread.ready()
  vi.advanceTimersByTime(399)
  expect(lost).not.toHaveBeenCalled()
  vi.advanceTimersByTime(1)
  expect(lost.mock.calls).toEqual([[new Error(silentMessage(1000))]])
  expect(worker.ended).toBe(true)
  vi.advanceTimersByTime(5000)
  expect(lost).toHaveBeenCalledOnce()
})

test('one that was ended is never heard of again', () => {
  const { worker, lost, thread } = started(null)
  void thread.ready()
  thread.end()
  expect(worker.ended).toBe(true)
  worker.die(new Error('late'))
  worker.die(undefined, 'messageerror')
  vi.advanceTimersByTime(5000)
  expect(lost).not.toHaveBeenCalled()
})

test.each(['error', 'messageerror'] as const)(
  'one that dies by %s is ended, its cause told once and handled',
  (type) => {
    const { worker, lost, thread } = started(null)
    void thread.ready()
    const cause = new Error('no memory')
    const event = Object.assign(new Event(type, { cancelable: true }), { error: cause })
    worker.dispatchEvent(event)
    expect(event.defaultPrevented).toBe(true)
    expect(worker.ended).toBe(true)
    worker.die(cause, type)
    vi.advanceTimersByTime(5000)
    expect(lost.mock.calls).toEqual([[cause]])
  },
)

test('its cause is the error, or the message in its place, or unknown', () => {
  const causeOf = (parts: object): unknown => {
    const { worker, lost } = started(null)
    worker.dispatchEvent(Object.assign(new Event('error', { cancelable: true }), parts))
    return lost.mock.calls[0][0]
  }
  expect(causeOf({ message: 'Script error.' })).toEqual(new Error('Script error.'))
  expect(causeOf({ error: null, message: 'not there' })).toEqual(new Error('not there'))
  expect(causeOf({ error: 'thrown', message: 'told' })).toBe('thrown')
  expect(causeOf({ message: '' })).toBeUndefined()
  expect(causeOf({})).toBeUndefined()
})
