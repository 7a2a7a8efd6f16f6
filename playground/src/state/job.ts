import { moduleOf } from '@trainwright/sheet'
import type { Answers } from './answers.js'
import { ask, type ReadKind, readKinds } from './ask.js'
import { same } from './same.js'
import { Store } from './store.js'
import type { Typed, TypedKind, TypedLathe, TypedMounted, TypedThread } from './typed.js'
import type { TypedBanjo } from './typed-banjo.js'
import type { TypedMaking } from './typed-making.js'
import type { TypedWork } from './typed-work.js'

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
    void this.answers.ask(ask(typed))
  }

  /** Replaces parts of what is typed; asks again unless that has nothing to do with trains. */
  type(change: Partial<Typed>): void {
    const before = this.typed.value
    this.typed.set({ ...before, ...change })
    if (Object.keys(change).some((key) => !ASIDE.includes(key))) void this.answers.ask(ask(this.typed.value))
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

  typeThread(change: Partial<TypedThread>): void {
    const { threads, thread } = this.typed.value
    this.type({ threads: threads.map((t, i) => (i === thread ? { ...t, ...change } : t)) })
  }

  typeName(name: string): void {
    this.type({ workshop: { ...this.typed.value.workshop, name } })
  }

  typeWork(change: Partial<TypedWork>): void {
    this.typeThread({ work: { ...this.thread.work, ...change } })
  }

  typeWires(wires: string): void {
    this.type({ workshop: { ...this.typed.value.workshop, wires } })
  }

  typeLathe(change: Partial<TypedLathe>): void {
    const { workshop } = this.typed.value
    this.type({ workshop: { ...workshop, lathe: { ...workshop.lathe, ...change } } })
  }

  typeBanjo(change: Partial<TypedBanjo>): void {
    this.typeLathe({ banjo: { ...this.typed.value.workshop.lathe.banjo, ...change } })
  }

  typeMounted(change: Partial<TypedMounted>): void {
    const { workshop } = this.typed.value
    this.type({ workshop: { ...workshop, mounted: { ...workshop.mounted, ...change } } })
  }

  typeMaking(change: Partial<TypedMaking>): void {
    const { workshop } = this.typed.value
    this.type({ workshop: { ...workshop, making: { ...workshop.making, ...change } } })
  }

  typeKinds(kinds: TypedKind[]): void {
    this.type({ workshop: { ...this.typed.value.workshop, kinds } })
  }

  typeKind(index: number, change: Partial<TypedKind>): void {
    this.typeKinds(this.typed.value.workshop.kinds.map((kind, i) => (i === index ? { ...kind, ...change } : kind)))
  }
}
