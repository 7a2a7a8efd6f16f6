import { VERSION } from './kept.js'
import { parsed } from './parsed.js'

/** Other versions of the page keep under other names, so that neither overwrites the other. */
const PREFIX = `trainwright/${VERSION}/`
/** Where the first version kept everything. */
const FIRST = 'trainwright'

/** The browser's storage, piece by piece, shared with other tabs of the page. Never throws. */
export class Drawer {
  /** Texts as they were when this tab last read or wrote them. */
  readonly #seen = new Map<string, string>()

  constructor(private readonly storage: () => Storage) {}

  /** What has been put there or taken away since the last look, by key; undefined for what is gone. */
  news(): Map<string, unknown> {
    const news = new Map<string, unknown>()
    try {
      const there = this.#texts()
      for (const [key, text] of there) {
        if (this.#seen.get(key) === text) continue
        this.#seen.set(key, text)
        const value = parsed(text)
        if (value !== undefined) news.set(key, value)
      }
      for (const key of [...this.#seen.keys()]) {
        if (there.has(key)) continue
        this.#seen.delete(key)
        news.set(key, undefined)
      }
    } catch {
      // A browser that does not allow it has no news.
    }
    return news
  }

  /** Whether something stands there, as far as this tab has looked. */
  holds(key: string): boolean {
    return this.#seen.has(key)
  }

  #texts(): Map<string, string> {
    const storage = this.storage()
    const keys = Array.from({ length: storage.length }, (_, i) => storage.key(i)!)
    const ours = keys.filter((key) => key.startsWith(PREFIX))
    return new Map(ours.map((key) => [key.slice(PREFIX.length), storage.getItem(key)!]))
  }

  /** Puts a value there, or takes it away when it is undefined; false when there is no room or it is not allowed. */
  put(key: string, value: unknown): boolean {
    try {
      const storage = this.storage()
      if (value === undefined) {
        storage.removeItem(PREFIX + key)
        this.#seen.delete(key)
      } else {
        const text = JSON.stringify(value)
        storage.setItem(PREFIX + key, text)
        this.#seen.set(key, text)
      }
      return true
    } catch {
      return false
    }
  }

  /** What the first version kept, or undefined. */
  first(): unknown {
    try {
      return parsed(this.storage().getItem(FIRST) ?? '')
    } catch {
      return undefined
    }
  }

  dropFirst(): void {
    try {
      this.storage().removeItem(FIRST)
    } catch {
      // Then it stays.
    }
  }
}
