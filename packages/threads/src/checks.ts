import {
  gather,
  InputError,
  type PitchText,
  type Problem,
  parsePitch,
  type Rational,
  rational,
  toNumber,
} from '@trainwright/measures'
import { type Code, type Data, sentence } from './messages.js'

/** A length given exactly: the text a person types, or the `{ n, d }` (mm, 59 digits at most) that an answer carries. */
export type ExactLength = PitchText | Rational

/**
 * Reads one question by path ('wire', 'dial.lines', 'drills[2]') and collects everything that is wrong with it. Readers
 * give a harmless value where they find a problem; `done` throws before any of these is used.
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

  /** A finite number, `least` to `most`. */
  number(path: string, least = 1e-6, most = 10_000, otherwise?: number, kind: '' | 'whole ' = ''): number {
    const value = (this.at(path) ?? otherwise) as number
    if (typeof value === 'number' && value >= least && value <= most && (!kind || value % 1 === 0)) return value
    this.say(path, 'number', kind, least, most)
    return 1
  }

  whole(path: string, least: number, most: number, otherwise?: number): number {
    return this.number(path, least, most, otherwise, 'whole ')
  }

  /** One of the words; the first when none is given and `optional`. */
  choice<T extends string>(path: string, known: readonly T[], optional = true): T {
    const value = this.at(path) ?? (optional ? known[0] : undefined)
    if (known.includes(value as T)) return value as T
    this.say(path, 'choice', known)
    return known[0]
  }

  /** A list of numbers above zero; none when it is left out and `optional`. */
  numbers(path: string, optional = true): number[] {
    const value = this.at(path)
    if (Array.isArray(value)) return value.map((_, i) => this.number(`${path}[${i}]`))
    return optional && value === undefined ? [] : [this.number(`${path}[0]`)]
  }

  /** Millimetres, exactly, 0.001 to 1000. */
  exact(path: string): Rational {
    const value = this.at(path) as ExactLength
    const { n, d } = Object(value) as Rational
    return gather(this.problems, () => parsePitch(n && d ? `${n}/${d}` : (value as PitchText), path).mm) ?? rational(1)
  }

  /** Millimetres, as near as a double comes. */
  mm(path: string): number {
    return toNumber(this.exact(path))
  }
}
