import { gather, InputError, type Problem } from '@trainwright/measures'
import { type Code, type Data, sentence } from './messages.js'

/** Where values stand in our questions that other packages know by other names. */
const ours: Readonly<Record<string, string>> = {
  pitch: 'wanted.pitch',
  starts: 'wanted.starts',
  wanted: 'wanted.pitch',
  lead: 'train',
  cut: 'train',
  diameter: 'thread.major',
  number: 'thread.major',
  flutes: 'thread.mate.tap.flutes',
  tolerance: 'thread.mate.tap.tolerance',
}

/** What all that is said of a thread rests on, by the names that other packages know it by. */
const basic = /^((form|pitch|starts|major|effective|diameter|number|depth)\b|$)/

/** Collects everything that is wrong with a question, so that one InputError tells it all. */
export class Problems {
  readonly found: Problem[] = []
  /** The thread's sizes are refused, and why is told: what else is said of form, pitch and diameters only follows from that. */
  unsized = false

  /** Once each: several figures may rest on the same wrong value. */
  add(problem: Problem): void {
    if (!this.found.some(({ path, code }) => path === problem.path && code === problem.code)) this.found.push(problem)
  }

  say<C extends Code>(path: string, code: C, ...data: Data<C>): void {
    this.add({ path, code, message: sentence(code, ...data) })
  }

  /** What `read` gives, or undefined when it refuses. Values that it names stand `within` a part of our question, or '' for none. */
  from<T>(read: () => T, within = 'thread'): T | undefined {
    const refused: Problem[] = []
    const value = gather(refused, read)
    for (const { path, ...problem } of refused) {
      if (this.unsized && basic.test(path)) continue
      const named = ours[path] ?? [within, path.replace(/^setUp/, 'train')].filter(Boolean).join('.')
      this.add({ ...problem, path: named })
    }
    return value
  }

  /** A number from `least` to `most`, whole if so wanted; when it is not given, nothing is wrong. */
  number(value: number | undefined, path: string, least: number, most: number, kind: '' | 'whole ' = ''): void {
    const fits = typeof value === 'number' && value >= least && value <= most && !(kind && value % 1)
    if (value !== undefined && !fits) this.say(path, 'number', kind, least, most)
  }

  choice(value: unknown, path: string, known: readonly string[]): void {
    if (value !== undefined && !known.includes(value as string)) this.say(path, 'choice', known)
  }

  object(value: unknown, path: string): boolean {
    const is = typeof value === 'object' && value !== null
    if (!is) this.say(path, 'object')
    return is
  }

  /** @throws InputError when anything was wrong. */
  done(): void {
    if (this.found.length > 0) throw new InputError(this.found)
  }
}
