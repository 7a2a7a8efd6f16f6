import { InputError, type Problem } from '@trainwright/measures'
import { type Code, sentences } from './messages.js'

type Data<C extends Code> = Parameters<(typeof sentences)[C]>

/**
 * Collects everything that is wrong with a question, so that one InputError tells it all. What is refused goes on as NaN.
 * No comparison with NaN holds: a check that looks for a fault by comparing says nothing when it rests on a refused value,
 * and all others are still made.
 */
export class Checks {
  readonly problems: Problem[] = []

  add<C extends Code>(path: string, code: C, ...data: Data<C>): void {
    const say = sentences[code] as (...data: Data<C>) => string
    this.problems.push({ path, code, message: say(...data) })
  }

  /** `value` when it is a finite number of `least` to `most`; if not, says so and gives NaN. */
  number(value: unknown, path: string, least: number, most: number, what: string): number {
    const expected = `${what} of ${least} to ${most}`
    if (value === undefined || value === null) this.add(path, 'missing', expected)
    else if (typeof value !== 'number' || !Number.isFinite(value)) this.add(path, 'not-a-number', value, expected)
    else if (value < least || value > most) this.add(path, 'range', value, expected)
    else return value
    return Number.NaN
  }

  /** The same for a whole number. */
  whole(value: unknown, path: string, least: number, most: number, what: string): number {
    if (typeof value !== 'number' || !Number.isFinite(value) || Number.isInteger(value))
      return this.number(value, path, least, most, what)
    this.add(path, 'not-whole', value, `${what} of ${least} to ${most}`)
    return Number.NaN
  }

  /** Says so when `value` is none of `choices`. */
  choice<T extends string>(value: T, path: string, choices: readonly T[]): void {
    if (!choices.includes(value)) this.add(path, 'unknown', value, choices)
  }

  /** `value` when it is an object, else an empty one whose missing fields are then told one by one. */
  object<T extends object>(value: T): Partial<T> {
    return typeof value === 'object' && value !== null ? value : {}
  }

  /** @throws InputError with this problem and all before it. */
  fail<C extends Code>(path: string, code: C, ...data: Data<C>): never {
    this.add(path, code, ...data)
    throw new InputError(this.problems)
  }

  /** @throws InputError when anything was wrong. */
  done(): void {
    if (this.problems.length) throw new InputError(this.problems)
  }
}

export const TEETH = [6, 1000, 'a tooth count'] as const
export const MODULE = [0.01, 100, 'a module in mm'] as const
export const PITCH = [0.254, 2540, 'a diametral pitch'] as const
export const ANGLE = [10, 30, 'a pressure angle in degrees'] as const
export const SHIFT = [-1, 1, 'a profile shift in modules'] as const

/** Lengths in mm and angles in degrees leave this package in steps of 1e-9. Never gives -0. */
export const rounded = (value: number): number => Math.round(value * 1e9) / 1e9 + 0

export const radians = (degrees: number): number => (degrees * Math.PI) / 180
