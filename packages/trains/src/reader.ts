import { gather, type Problem } from '@trainwright/measures'
import { type CheckCode, checkMessage } from './messages.js'

/** Gathers the problems of what is read. */
export class Reader {
  readonly problems: Problem[] = []

  refuse(path: string, code: CheckCode, detail: string | number = ''): undefined {
    this.problems.push({ path, code, message: checkMessage(code, detail) })
    return undefined
  }
}

/** Reads plain data of unknown origin: what it gives is sound, or undefined, and then its problems are noted. */
export type Read<T> = (r: Reader, x: unknown, path: string) => T | undefined

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
/** Whether it can have properties. */
export const isObject = (x: unknown): x is object => typeof x === 'object' && x !== null
const isList = (x: unknown): x is unknown[] => peek(() => Array.isArray(x)) ?? false

/** What can be read, of a value that may be refused elsewhere: its problems are not noted. */
export const sound = <T>(read: Read<T>, x: unknown): T | undefined => {
  const r = new Reader()
  const value = read(r, x, '')
  return r.problems.length === 0 ? value : undefined
}

/**
 * Reads an object: absent keys are passed to their reader as undefined and left out when they stay so. Only own
 * properties are looked at, and only those asked for: prototypes and cycles in a pasted file are never followed.
 * @param together checks what was sound of it; `x` is what was given
 */
export const object =
  <T extends object>(
    shape: { [K in keyof T]-?: Read<T[K]> },
    together?: (r: Reader, parts: Partial<T>, path: string, x: object) => void,
  ): Read<T> =>
  (r, x, path) => {
    if (!isObject(x) || isList(x)) return r.refuse(path, 'object')
    const before = r.problems.length
    const result: Partial<T> = {}
    for (const key of Object.keys(shape) as (keyof T & string)[]) {
      const value = shape[key](r, own(x, key), path ? `${path}.${key}` : key)
      if (value !== undefined) result[key] = value as T[typeof key]
    }
    together?.(r, result, path, x)
    return r.problems.length === before ? (result as T) : undefined
  }

export const list =
  <T>(item: Read<T>, least: number, most: number): Read<T[]> =>
  (r, x, path) => {
    const length = isList(x) && own(x, 'length')
    if (!isList(x) || typeof length !== 'number') return r.refuse(path, 'list')
    if (length < least) return r.refuse(path, 'too-few', least)
    if (length > most) return r.refuse(path, 'too-long', most)
    const before = r.problems.length
    const items = Array.from({ length }, (_, i) => item(r, own(x, i), `${path}[${i}]`))
    return r.problems.length === before ? (items as T[]) : undefined
  }

/** Two of a kind. */
export const two = <T>(item: Read<T>) => list(item, 2, 2) as Read<[T, T]>

/** A finite number within a range, both ends included. */
export const number =
  (least: number, most: number): Read<number> =>
  (r, x, path) => {
    if (typeof x !== 'number' || !Number.isFinite(x)) return r.refuse(path, 'number')
    // 0 for -0, which JSON does not keep.
    return x < least || x > most ? r.refuse(path, 'range', `${least} to ${most}`) : x + 0
  }

/** A finite number above zero. */
export const positive =
  (most: number): Read<number> =>
  (r, x, path) => {
    if (typeof x !== 'number' || !Number.isFinite(x)) return r.refuse(path, 'number')
    return x <= 0 || x > most ? r.refuse(path, 'positive', most) : x
  }

export const whole =
  (least: number, most: number): Read<number> =>
  (r, x, path) =>
    Number.isInteger(x) && (x as number) >= least && (x as number) <= most
      ? (x as number) + 0
      : r.refuse(path, 'whole', `${least} to ${most}`)

export const text =
  (longest: number): Read<string> =>
  (r, x, path) => {
    if (typeof x !== 'string') return r.refuse(path, 'text')
    return x.length > longest ? r.refuse(path, 'too-long', longest) : x
  }

/** A function, called as it is. */
export const listener: Read<(...args: never[]) => unknown> = (r, x, path) =>
  typeof x === 'function' ? (x as () => unknown) : r.refuse(path, 'function')

export const yesNo: Read<boolean> = (r, x, path) => (typeof x === 'boolean' ? x : r.refuse(path, 'yes-no'))

export const oneOf =
  <T extends string>(...words: readonly T[]): Read<T> =>
  (r, x, path) =>
    words.includes(x as T) ? (x as T) : r.refuse(path, 'one-of', words.join(', '))

/** Text that another package parses and refuses in its own words; kept as it was given. */
export const parsed =
  <T>(parse: (x: never, path: string) => unknown): Read<T> =>
  (r, x, path) => {
    const before = r.problems.length
    gather(r.problems, () => parse(x as never, path))
    return r.problems.length === before ? (x as T) : undefined
  }

/** Makes a reader of an optional key of a required one. */
export const optional =
  <T>(read: Read<T>): Read<T> =>
  (r, x, path) =>
    x === undefined ? undefined : read(r, x, path)

/** Reads, then refuses what the check names: a code and, where it helps, a detail. */
export const checked =
  <T>(read: Read<T>, check: (value: T) => readonly [CheckCode, detail?: string] | false): Read<T> =>
  (r, x, path) => {
    const value = read(r, x, path)
    const refused = value !== undefined && check(value)
    return refused ? r.refuse(path, ...refused) : value
  }
