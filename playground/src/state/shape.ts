/** A text that is one of a few words. */
export class OneOf<T extends string> {
  constructor(readonly words: readonly [T, ...T[]]) {}
}

/** The first word is the blank. */
export const oneOf = <T extends string>(...words: [T, ...T[]]): OneOf<T> => new OneOf(words)

/** A list whose blank is not empty. */
export class ListOf<T> {
  constructor(
    readonly item: Shape<T>,
    readonly blank: readonly T[],
  ) {}
}

export const listOf = <T>(item: Shape<T>, blank: readonly T[]): ListOf<T> => new ListOf(item, blank)

/**
 * What a value must look like, said by its blank: a text for any text, a number for any finite number, a list of one
 * for any list of such items, an empty object for any plain object.
 */
export type Shape<T> =
  | T
  | ([T] extends [string]
      ? OneOf<T>
      : [T] extends [readonly (infer I)[]]
        ? Shape<I>[] | ListOf<I>
        : [T] extends [object]
          ? { [K in keyof T]: Shape<T[K]> }
          : T)

/** What is too much to be meant, in a file or a link from anywhere. */
export interface Bounds {
  /** Characters of a text. */
  text: number
  /** Items of a list. */
  list: number
}

const ENDLESS: Bounds = { text: Number.POSITIVE_INFINITY, list: Number.POSITIVE_INFINITY }

export type Plain = Readonly<Record<string, unknown>>

export const isPlain = (x: unknown): x is Plain => typeof x === 'object' && x !== null && !Array.isArray(x)

/**
 * Reads plain data of unknown origin. What is missing becomes its blank; so does what has the wrong shape, and its path
 * goes into `wrong`. Keys that the shape does not know, from a newer version of the page, stay as they are.
 */
export function fill<T>(shape: Shape<T>, x: unknown, wrong: string[], path = '', bounds = ENDLESS): T {
  const refuse = (): unknown => {
    wrong.push(path)
    return blankOf(shape)
  }
  return read() as T

  function read(): unknown {
    if (x === undefined) return blankOf(shape)
    if (shape instanceof OneOf) return shape.words.includes(x as never) ? x : refuse()
    if (typeof shape === 'string') return typeof x === 'string' && x.length <= bounds.text ? x : refuse()
    if (typeof shape === 'number') return Number.isFinite(x) ? x : refuse()
    if (shape instanceof ListOf || Array.isArray(shape)) {
      const item = shape instanceof ListOf ? shape.item : shape[0]
      if (!Array.isArray(x) || x.length > bounds.list) return refuse()
      return x.map((one, i) => fill(item, one, wrong, `${path}[${i}]`, bounds))
    }
    if (!isPlain(shape)) return typeof x === typeof shape ? x : refuse()
    if (!isPlain(x)) return refuse()
    const known = Object.entries(shape).map(([key, part]) => {
      const given = Object.hasOwn(x, key) ? x[key] : undefined
      return [key, fill(part, given, wrong, path ? `${path}.${key}` : key, bounds)]
    })
    return { ...x, ...Object.fromEntries(known) }
  }
}

function blankOf(shape: unknown): unknown {
  if (shape instanceof OneOf) return shape.words[0]
  if (shape instanceof ListOf) return [...shape.blank]
  if (Array.isArray(shape)) return []
  if (!isPlain(shape)) return shape
  return Object.fromEntries(Object.entries(shape).map(([key, part]) => [key, blankOf(part)]))
}
