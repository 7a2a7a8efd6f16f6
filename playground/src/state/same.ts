const isObject = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null

/** Whether two plain values say the same. */
export function same(a: unknown, b: unknown): boolean {
  if (!isObject(a) || !isObject(b) || Array.isArray(a) !== Array.isArray(b)) return Object.is(a, b)
  const keys = Object.keys(a)
  return (
    a === b ||
    (keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && same(a[key], b[key])))
  )
}

/** The way to the one place where two plain values differ; it ends where they differ in several. */
export function difference(a: unknown, b: unknown): string[] {
  if (!isObject(a) || !isObject(b)) return []
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => !same(a[key], b[key]))
  const [key] = keys
  return keys.length === 1 && key !== undefined ? [key, ...difference(a[key], b[key])] : []
}

/** What stands at the end of a way. */
export const at = (x: unknown, way: readonly string[]): unknown =>
  way.reduce((part, key) => (isObject(part) ? part[key] : undefined), x)

/** The same value with another one at the end of a way. */
export function put<T>(x: T, [key, ...way]: readonly string[], value: unknown): T {
  if (key === undefined) return value as T
  const part = put((x as Record<string, unknown>)[key], way, value)
  return (Array.isArray(x) ? x.with(Number(key), part) : { ...x, [key]: part }) as T
}
