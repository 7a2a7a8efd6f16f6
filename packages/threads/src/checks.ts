import {
  gather,
  InputError,
  type PitchText,
  type Problem,
  parsePitch,
  type Rational,
  toNumber,
} from '@trainwright/measures'
import { type Code, type Data, sentence } from './messages.js'

/** A length given exactly: the text a person types, or the `{ n, d }` (mm, 59 digits at most) that an answer carries. */
export type ExactLength = PitchText | Rational

const MOST = 10_000

/**
 * Reads one question by path ('wire', 'dial.lines', 'drills[2]') and collects everything that is wrong with it. A number
 * that is refused is read as NaN, and so is all that is reckoned from it; no comparison with NaN holds. So what rests on a
 * refused value raises no problem of its own, all else is judged, and `done` throws before a NaN gets out.
 */
export class Checks {
  private readonly problems: Problem[] = []

  constructor(private readonly question: unknown) {
    if (typeof question !== 'object' || question === null) {
      this.say('', 'missing')
      this.done()
    }
  }

  private at(path: string): unknown {
    return (path.match(/\w+/g) ?? []).reduce((found: unknown, key) => Object(found)[key], this.question)
  }

  say<C extends Code>(path: string, code: C, ...data: Data<C>): void {
    this.problems.push({ path, code, message: sentence(code, ...data) })
  }

  /** Throws the InputError when anything was wrong. */
  done(): void {
    if (this.problems.length > 0) throw new InputError(this.problems)
  }

  /** What another function makes of the same question; undefined when it refuses. */
  from<T>(read: () => T): T | undefined {
    return gather(this.problems, read)
  }

  /** A finite number, `least` to `most`. */
  number(path: string, least = 1e-6, most = MOST, otherwise?: number, kind: '' | 'whole ' = ''): number {
    const given = this.at(path) ?? undefined
    const value = (given ?? otherwise) as number
    // Bounds that rest on a refused value are NaN and bound nothing.
    const [low, high] = [least || 0, most || MOST]
    if (typeof value === 'number' && value >= low && value <= high && (!kind || value % 1 === 0)) return value
    if (given !== undefined || !Number.isNaN(otherwise)) this.say(path, 'number', kind, low, high)
    return Number.NaN
  }

  /** Which of two that say the same is given. Both are refused, each at its path; so is none, at `needed`, unless that is null. */
  one<T extends string>(needed: string | null, ...paths: [T, T]): T | undefined {
    const given = paths.filter((path) => this.at(path) !== undefined)
    if (given.length === 1) return given[0]
    if (given.length === 0 && needed !== null) given.push(needed as T)
    for (const path of given) this.say(path, 'one', paths)
  }

  whole(path: string, least: number, most: number, otherwise?: number): number {
    return this.number(path, least, most, otherwise, 'whole ')
  }

  /** One of the words; the first when none is given and `optional`. */
  choice<T extends string | boolean>(path: string, known: readonly T[], optional = true): T {
    const value = this.at(path) ?? (optional ? known[0] : undefined)
    if (known.includes(value as T)) return value as T
    this.say(path, 'choice', known)
    return known[0]
  }

  /** A list of numbers above zero; none when it is left out and `optional`. */
  numbers(path: string, optional = true): number[] {
    const value = this.at(path) ?? (optional ? [] : undefined)
    return (Array.isArray(value) ? value : [value]).map((_, i) => this.number(`${path}[${i}]`))
  }

  /** Millimetres, exactly, 0.001 to 1000; only to be used once `done` has passed. */
  exact(path: string): Rational {
    const value = this.at(path) as ExactLength
    const { n, d } = Object(value) as Rational
    return this.from(() => parsePitch(n && d ? `${n}/${d}` : (value as PitchText), path).mm) as Rational
  }

  /** Millimetres, as near as a double comes. */
  mm(path: string): number {
    const length: Rational | undefined = this.exact(path)
    return length ? toNumber(length) : Number.NaN
  }
}
