import { InputError } from '@trainwright/measures'
import { findTrains, type ProgressListener, type TrainSearch } from '@trainwright/trains'
import { describe, expect, it, vi } from 'vitest'
import { demo } from '../demo.js'
import { Answers } from './answers.js'
import { type Asked, ask } from './ask.js'
import type { Searcher } from './misfit.js'

/** A worker whose answers are given by hand, one question at a time. */
function handWorker() {
  const open: {
    signal: AbortSignal
    onProgress: ProgressListener
    resolve: (search: TrainSearch) => void
    reject: (error: unknown) => void
  }[] = []
  const worker = {
    findTrains: (...[, , , call]: Parameters<Searcher['findTrains']>) =>
      new Promise<TrainSearch>((resolve, reject) =>
        open.push({ signal: call!.signal!, onProgress: call!.onProgress!, resolve, reject }),
      ),
    layOut: () => Promise.reject(new Error('not asked')),
  }
  return { worker, open }
}

const asked = ask(demo())
const { workshop, wanted, options } = asked.question
const search = findTrains(workshop, wanted, options)
const problem = (path: string) => ({ path, code: 'x', message: path })
const settled = () => new Promise((resolve) => setTimeout(resolve))
const broken: Asked = { ...asked, problems: [problem('kinds[0].line')] }

describe('Answers', () => {
  it('shows the answer to the latest question only', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(asked)
    void answers.ask({ ...asked, question: { ...asked.question, options: { order: 'closest' } } })
    open[1]!.resolve(search)
    await settled()
    open[0]!.resolve({ ...search, trains: [] })
    await settled()
    expect(answers.value.search).toBe(search)
    expect(answers.value.question!.options.order).toBe('closest')
  })

  it('keeps the last good answer, as an old one, when the next question is bad', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(asked)
    open[0]!.resolve(search)
    await settled()
    expect(answers.value).toMatchObject({ current: true, problems: [] })
    void answers.ask(asked)
    open[1]!.reject(new InputError([problem('wanted.pitch')]))
    await settled()
    expect(answers.value).toMatchObject({ search, current: false, problems: [problem('wanted.pitch')] })
  })

  it('does not take an answer for one to what could not be asked', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(broken)
    open[0]!.resolve(search)
    await settled()
    expect(answers.value).toMatchObject({ search: null, current: false, problems: broken.problems })
  })

  it('names all problems, but not those that only follow from an unread line', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(broken)
    open[0]!.reject(new InputError([problem('gears'), problem('lathe.fixedGears.input'), problem('lathe.studs')]))
    await settled()
    expect(answers.value.problems.map((p) => p.path)).toEqual(['kinds[0].line', 'lathe.studs'])
  })

  it('says one thing of a field', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask({ ...asked, problems: [problem('wanted.starts')] })
    open[0]!.reject(new InputError([{ ...problem('wanted.starts'), message: 'other' }, problem('wanted.pitch')]))
    await settled()
    expect(answers.value.problems).toEqual([problem('wanted.starts'), problem('wanted.pitch')])
  })

  it('is stopped by the owner, the last good answer staying as an old one, and asks again', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(asked)
    open[0]!.resolve(search)
    await settled()
    void answers.ask(asked)
    answers.stop()
    expect(open[1]!.signal.aborted).toBe(true)
    open[1]!.reject(new DOMException('aborted', 'AbortError'))
    await settled()
    expect(answers.value).toMatchObject({ search, current: false, working: false, stopped: true, failure: null })
    void answers.ask(asked)
    open[2]!.resolve(search)
    await settled()
    expect(answers.value).toMatchObject({ current: true, stopped: false })
  })

  it('tells how far a long search is, and nothing of a short one', async () => {
    vi.useFakeTimers()
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(asked)
    open[0]!.onProgress(1, 4)
    expect(answers.value).toMatchObject({ working: false, progress: 0 })
    await vi.advanceTimersByTimeAsync(1000)
    expect(answers.value).toMatchObject({ working: true, progress: 0.25 })
    open[0]!.onProgress(3, 4)
    expect(answers.value.progress).toBe(0.75)
    open[0]!.resolve(search)
    await vi.advanceTimersByTimeAsync(0)
    expect(answers.value).toMatchObject({ current: true, working: false })
    vi.useRealTimers()
  })

  it('says nothing of questions that were superseded, and says what failed', async () => {
    const { worker, open } = handWorker()
    const answers = new Answers(worker)
    void answers.ask(asked)
    open[0]!.reject(new DOMException('superseded', 'AbortError'))
    await settled()
    expect(answers.value.failure).toBeNull()
    void answers.ask(asked)
    open[1]!.reject(new Error('out of memory'))
    await settled()
    expect(answers.value.failure).toBe('out of memory')
  })
})
