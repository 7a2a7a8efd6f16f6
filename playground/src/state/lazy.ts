import { Store } from './store.js'

/** A part of the page that comes when it is first needed; null until then. */
export class Lazy<T> extends Store<T | null> {
  #coming: Promise<void> | undefined
  /** It did not come, the network being gone, or the page replaced on its server. */
  failed = false

  constructor(private readonly fetch: () => Promise<T>) {
    super(null)
  }

  /** Sends for it, once; after a failure once more. */
  load(): Promise<void> {
    this.#coming ??= this.fetch().then(
      (part) => {
        this.failed = false
        this.set(part)
      },
      () => {
        this.failed = true
        this.#coming = undefined
        this.tell()
      },
    )
    return this.#coming
  }
}
