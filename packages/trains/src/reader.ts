import { gather, type Problem } from '@trainwright/measures'
import { type CheckCode, checkMessage } from './messages.js'

export type Read<T> = (x: unknown, path: string) => T | undefined

/** Keys of `T` that must stand in an object read. */
type Shape<T> = { [K in keyof T]-?: (x: unknown, path: string) => T[K] | undefined }

/** What reading gives; nothing where it fails: a getter that throws, a proxy that was revoked. */
function peek<T>(read: () => T): T | undefined {
  try {
    return read()
  } catch {
    return undefined
  }
}

/** An object's own property; undefined when it has none, or cannot be read. */
export const own = (x: object, key: string | number): unknown =>
  peek(() => (Object.hasOwn(x, key) ? (x as Record<string | number, unknown>)[key] : undefined))
const isList = (x: unknown): x is unknown[] => peek(() => Array.isArray(x)) ?? false

/**
 * Reads plain data of unknown origin and notes every problem with its path. Only own properties are looked at, and only
 * those asked for: prototypes and cycles in a pasted file are never followed.
 */
export class Reader {
  readonly problems: Problem[] = []

  refuse(path: string, code: CheckCode, detail: string | number = ''): undefined {
    this.problems.push({ path, code, message: checkMessage(code, detail) })
    return undefined
  }

  /** Reads an object; absent keys are passed to their reader as undefined and left out when they stay so. */
  object<T extends object>(x: unknown, path: string, shape: Shape<T>): T | undefined {
    if (typeof x !== 'object' || x === null || isList(x)) return this.refuse(path, 'object')
    const before = this.problems.length
    const result: Partial<T> = {}
    for (const key of Object.keys(shape) as (keyof T & string)[]) {
      const value = shape[key](own(x, key), path ? `${path}.${key}` : key)
      if (value !== undefined) result[key] = value as T[typeof key]
    }
    return this.problems.length === before ? (result as T) : undefined
  }

  list<T>(
    x: unknown,
    path: string,
    [least, most]: readonly [number, number],
    item: (x: unknown, path: string) => T | undefined,
  ): T[] | undefined {
    const length = isList(x) && own(x, 'length')
    if (!isList(x) || typeof length !== 'number') return this.refuse(path, 'list')
    if (length < least) return this.refuse(path, 'too-few', least)
    if (length > most) return this.refuse(path, 'too-long', most)
    const before = this.problems.length
    const items = Array.from({ length }, (_, i) => item(own(x, i), `${path}[${i}]`))
    return this.problems.length === before ? (items as T[]) : undefined
  }

  /** A finite number within a range, both ends included. */
  number(x: unknown, path: string, least: number, most: number): number | undefined {
    if (typeof x !== 'number' || !Number.isFinite(x)) return this.refuse(path, 'number')
    return x < least || x > most ? this.refuse(path, 'range', `${least} to ${most}`) : x
  }

  /** A finite number above zero. */
  positive(x: unknown, path: string, most: number): number | undefined {
    if (typeof x !== 'number' || !Number.isFinite(x)) return this.refuse(path, 'number')
    return x <= 0 || x > most ? this.refuse(path, 'positive', most) : x
  }

  whole(x: unknown, path: string, least: number, most: number): number | undefined {
    if (typeof x !== 'number' || !Number.isInteger(x)) return this.refuse(path, 'whole', `${least} to ${most}`)
    return x < least || x > most ? this.refuse(path, 'whole', `${least} to ${most}`) : x
  }

  text(x: unknown, path: string, longest: number): string | undefined {
    if (typeof x !== 'string') return this.refuse(path, 'text')
    return x.length > longest ? this.refuse(path, 'too-long', longest) : x
  }

  yesNo(x: unknown, path: string): boolean | undefined {
    return typeof x === 'boolean' ? x : this.refuse(path, 'yes-no')
  }

  oneOf<T extends string>(x: unknown, path: string, words: readonly T[]): T | undefined {
    return words.includes(x as T) ? (x as T) : this.refuse(path, 'one-of', words.join(', '))
  }

  /** Text that another package parses and refuses in its own words; kept as it was given. */
  parsed<T>(x: unknown, path: string, parse: (x: never, path: string) => unknown): T | undefined {
    const before = this.problems.length
    gather(this.problems, () => parse(x as never, path))
    return this.problems.length === before ? (x as T) : undefined
  }
}

/** Makes a reader of an optional key of a required one. */
export const optional =
  <T>(read: (x: unknown, path: string) => T | undefined) =>
  (x: unknown, path: string): T | undefined =>
    x === undefined ? undefined : read(x, path)
