/** What to put back, by its place; undefined where there was nothing. */
export type Change = ReadonlyMap<string, unknown>

/** ms of quiet that end a step: what is typed without a longer pause is undone together. */
const PAUSE = 1000
/** Steps that are remembered. */
const MOST = 200

/** The steps of a person, to be undone and done again. */
export class History {
  #past: Change[] = []
  #future: Change[] = []
  #group = ''
  #last = Number.NEGATIVE_INFINITY

  constructor(private readonly now: () => number) {}

  get steps(): { back: number; forth: number } {
    return { back: this.#past.length, forth: this.#future.length }
  }

  /** Notes what a change replaced. Changes of one group with no pause between them are one step; '' is no group. */
  note(replaced: Change, group = ''): void {
    const now = this.now()
    const last = this.#past.at(-1)
    if (last && group !== '' && group === this.#group && now - this.#last < PAUSE) {
      this.#past[this.#past.length - 1] = new Map([...replaced, ...last])
    } else {
      this.#past.push(replaced)
      if (this.#past.length > MOST) this.#past.shift()
    }
    this.#future = []
    this.#group = group
    this.#last = now
  }

  /** `swap` puts a change in place and returns what it replaced. False when there is nothing to undo. */
  undo(swap: (change: Change) => Change): boolean {
    return this.#move(this.#past, this.#future, swap)
  }

  redo(swap: (change: Change) => Change): boolean {
    return this.#move(this.#future, this.#past, swap)
  }

  #move(from: Change[], to: Change[], swap: (change: Change) => Change): boolean {
    const change = from.pop()
    if (!change) return false
    this.#group = ''
    to.push(swap(change))
    return true
  }
}
