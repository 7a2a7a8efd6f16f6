import type { ReactiveController, ReactiveControllerHost } from 'lit'

/** A value that is replaced whole, never changed in place, and those who want to know. */
export class Store<T> {
  readonly #listeners = new Set<() => void>()

  constructor(public value: T) {}

  set(value: T): void {
    if (Object.is(value, this.value)) return
    this.value = value
    this.tell()
  }

  protected tell(): void {
    for (const listener of [...this.#listeners]) listener()
  }

  /** Calls `listener` after each change; the answer ends that. */
  watch(listener: () => void): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }
}

/** Renders an element again whenever one of these stores changes, as long as it is on the page. */
export class Follow implements ReactiveController {
  #end: (() => void)[] = []

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly stores: readonly Pick<Store<unknown>, 'watch'>[],
  ) {
    host.addController(this)
  }

  hostConnected(): void {
    this.#end = this.stores.map((store) => store.watch(() => this.host.requestUpdate()))
  }

  hostDisconnected(): void {
    for (const end of this.#end) end()
  }
}
