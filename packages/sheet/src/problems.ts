import { gather, InputError, type Problem } from '@trainwright/measures'
import { type Code, type Data, sentence } from './messages.js'

/** Collects everything that is wrong with a question, so that one InputError tells it all. */
export class Problems {
  private readonly found: Problem[] = []

  /** Once each: several figures may rest on the same wrong value. */
  add(problem: Problem): void {
    if (!this.found.some(({ path, code }) => path === problem.path && code === problem.code)) this.found.push(problem)
  }

  say<C extends Code>(path: string, code: C, ...data: Data<C>): void {
    this.add({ path, code, message: sentence(code, ...data) })
  }

  /** What `read` gives, or undefined when it refuses. `at` says where a value that it names stands in our question. */
  from<T>(read: () => T, at: (path: string) => string): T | undefined {
    const refused: Problem[] = []
    const value = gather(refused, read)
    for (const problem of refused) this.add({ ...problem, path: at(problem.path) })
    return value
  }

  /** A number above `least` and at most `most`, whole if so wanted; when it is not given, nothing is wrong. */
  number(value: number | undefined, path: string, least: number, most: number, whole = false): void {
    const fits = typeof value === 'number' && value > least && value <= most && !(whole && value % 1)
    if (value !== undefined && !fits) this.say(path, whole ? 'whole' : 'number', least, most)
  }

  choice(value: unknown, path: string, known: readonly string[]): void {
    if (value !== undefined && !known.includes(value as string)) this.say(path, 'choice', known)
  }

  /** What was found so far. */
  all(): readonly Problem[] {
    return this.found
  }

  /** @throws InputError when anything was wrong. */
  done(): void {
    if (this.found.length > 0) throw new InputError(this.found)
  }
}

/** For `Problems.from`: names that differ from ours, all others being those of the thread's own description. */
export const inThread =
  (names: Readonly<Record<string, string>> = {}) =>
  (path: string): string =>
    names[path] ?? (path === '' ? 'thread' : `thread.${path}`)
