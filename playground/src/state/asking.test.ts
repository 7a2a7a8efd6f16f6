import { InputError, type Problem } from '@trainwright/measures'
import type { CallOptions } from '@trainwright/trains/worker'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { Asking } from './asking.js'

/** A search whose answers are given by hand; the questions are numbers, the answers texts. */
function byHand() {
  const open: { question: number; call: CallOptions; resolve(answer: string): void; reject(error: unknown): void }[] =
    []
  const asking = new Asking<number, string>(
    (question, call) =>
      new Promise((resolve, reject) => {
        open.push({ question, call, resolve, reject })
        call.signal!.addEventListener('abort', () => reject(new DOMException('aborted', 'AbortError')))
      }),
  )
  const settled = () => vi.advanceTimersByTimeAsync(0)
  return { asking, open, settled }
}

const problem = (path: string): Problem => ({ path, code: 'x', message: path })

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})

describe('Asking', () => {
  it('asks at once, and the same question once only', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    asking.ask(1)
    expect(open).toHaveLength(1)
    open[0]!.resolve('one')
    await settled()
    asking.ask(1)
    expect(open).toHaveLength(1)
    expect(asking.value).toMatchObject({ answer: 'one', question: 1, current: true, progress: null, problems: [] })
  })

  it('lets the typing settle before it ends an open search, and then answers the last question only', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    asking.ask(2)
    asking.ask(3)
    expect(open).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(1000)
    expect(open.map(({ question }) => question)).toEqual([1, 3])
    expect(open[0]!.call.signal!.aborted).toBe(true)
    open[1]!.resolve('three')
    await settled()
    expect(asking.value).toMatchObject({ answer: 'three', question: 3, current: true, failure: null })
  })

  it('shows progress of long waits only, and the last good answer meanwhile', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    open[0]!.resolve('one')
    await settled()
    asking.ask(2)
    open[1]!.call.onProgress!(1, 4)
    expect(asking.value).toMatchObject({ answer: 'one', progress: null })
    await vi.advanceTimersByTimeAsync(1000)
    expect(asking.value).toMatchObject({ answer: 'one', progress: 0.25 })
    open[1]!.call.onProgress!(3, 4)
    expect(asking.value.progress).toBe(0.75)
    open[1]!.resolve('two')
    await settled()
    expect(asking.value).toMatchObject({ answer: 'two', progress: null })
    open[1]!.call.onProgress!(4, 4)
    await vi.advanceTimersByTimeAsync(1000)
    expect(asking.value.progress).toBeNull()
  })

  it('is stopped by the owner, stays so however often the page looks, and goes on when told to', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    await vi.advanceTimersByTimeAsync(1000)
    asking.stop()
    await settled()
    asking.ask(1)
    expect(open[0]!.call.signal!.aborted).toBe(true)
    expect(open).toHaveLength(1)
    expect(asking.value).toMatchObject({ stopped: true, current: false, progress: null, failure: null })
    asking.again(1)
    expect(open).toHaveLength(2)
    expect(asking.value.stopped).toBe(false)
    open[1]!.resolve('one')
    await settled()
    expect(asking.value).toMatchObject({ answer: 'one', current: true, stopped: false })
  })

  it('gives up when nobody looks, and asks again when somebody does', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    asking.leave()
    await settled()
    expect(open[0]!.call.signal!.aborted).toBe(true)
    expect(asking.value).toMatchObject({ stopped: false, failure: null, progress: null })
    asking.ask(1)
    expect(open).toHaveLength(2)
    open[1]!.resolve('one')
    await settled()
    asking.leave()
    asking.ask(1)
    expect(open).toHaveLength(2)
  })

  it('asks nothing late when nobody looks: not even what waited for an open search that has ended meanwhile', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    asking.ask(2)
    open[0]!.resolve('one')
    await settled()
    asking.leave()
    await vi.advanceTimersByTimeAsync(1000)
    expect(open.map(({ question }) => question)).toEqual([1])
    asking.ask(2)
    open[1]!.resolve('two')
    await settled()
    expect(asking.value).toMatchObject({ answer: 'two', current: true, failure: null })
    asking.leave()
    asking.ask(2)
    expect(open).toHaveLength(2)
  })

  it('takes no answer for current while something cannot be read, and names all problems', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1, [problem('a')])
    open[0]!.resolve('one')
    await settled()
    expect(asking.value).toMatchObject({ answer: null, current: false, problems: [problem('a')] })
    asking.ask(2, [problem('a')])
    open[1]!.reject(new InputError([problem('b')]))
    await settled()
    expect(asking.value.problems.map(({ path }) => path)).toEqual(['a', 'b'])
    asking.ask(2)
    open[2]!.resolve('two')
    await settled()
    expect(asking.value).toMatchObject({ answer: 'two', current: true, problems: [] })
  })

  it('says what failed', async () => {
    const { asking, open, settled } = byHand()
    asking.ask(1)
    open[0]!.reject(new Error('out of memory'))
    await settled()
    expect(asking.value).toMatchObject({ failure: 'out of memory', current: false, progress: null })
  })
})
