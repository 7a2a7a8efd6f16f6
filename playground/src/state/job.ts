import { moduleOf } from '@trainwright/sheet'
import type { Answers } from './answers.js'
import { ask, type ReadKind, readKinds } from './ask.js'
import { at, put, same } from './same.js'
import { Store } from './store.js'
import type { Typed, TypedThread } from './typed.js'

/** What is typed without asking for another train. */
const ASIDE: readonly string[] = ['view', 'wishes', 'chart'] satisfies (keyof Typed)[]

/** The question as typed, and the answer to it: all that the page shows hangs on these two. */
export class Job {
  readonly typed: Store<Typed>

  constructor(
    typed: Typed,
    readonly answers: Answers,
  ) {
    this.typed = new Store(typed)
    this.again()
  }

  /** Asks what stands there now. */
  again(): void {
    void this.answers.ask(ask(this.typed.value))
  }

  /** Replaces parts of what is typed; asks again unless that has nothing to do with trains. */
  type(change: Partial<Typed>): void {
    const before = this.typed.value
    this.typed.set({ ...before, ...change })
    if (Object.keys(change).some((key) => !ASIDE.includes(key))) this.again()
  }

  /** Shows all that is typed as it was put in elsewhere; `strange` when it is not about the same workshop any more. */
  show(typed: Typed, strange = false): void {
    const before = this.typed.value
    if (same(typed, before)) return
    if (strange) this.answers.forget()
    this.type(typed)
  }

  get thread(): TypedThread {
    const { threads, thread } = this.typed.value
    return threads[thread]!
  }

  /** The gears of each kind as far as their lines can be read. */
  get read(): ReadKind[] {
    return readKinds(this.typed.value.workshop.kinds, [])
  }

  /** Gears as a lathe names them: teeth, and the module where it is not the usual 1. */
  gearNames(): string[] {
    const gears = this.read.flatMap((kind) => kind ?? [])
    return gears.map((gear) => (moduleOf(gear) === 1 ? String(gear.teeth) : `${gear.teeth} ${moduleOf(gear)}`))
  }

  /** The way from what is typed to a field of that path: in the thread in hand, in the workshop, or beside them. */
  #way(path: string): string[] {
    const keys = path.split(/[.[\]]+/).filter(Boolean)
    const [first = '', ...rest] = keys
    const thread = ['threads', String(this.typed.value.thread)]
    if (first === 'wanted') return [...thread, ...rest]
    if (first === 'work') return [...thread, ...keys]
    if (first === 'measured') return [...thread, 'work', ...keys]
    return first in this.typed.value ? keys : ['workshop', ...keys]
  }

  /** What stands in the field of a path. */
  at(path: string): string {
    return at(this.typed.value, this.#way(path)) as string
  }

  /** Types into the field of a path: a text, a tick, or a list whose items have fields of their own. */
  put(path: string, value: unknown): void {
    const [part = '', ...way] = this.#way(path)
    this.type({ [part]: put(Reflect.get(this.typed.value, part), way, value) })
  }
}
