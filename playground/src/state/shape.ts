/**
 * Whether `x` has the shape of `example`: the same names with values of the same kinds, lists all of whose items are
 * like the first of the example's. An empty list or object in the example takes any list or plain object.
 */
export function hasShape<T>(example: T, x: unknown): x is T {
  if (typeof example !== 'object' || example === null) return typeof x === typeof example
  if (typeof x !== 'object' || x === null) return false
  if (Array.isArray(example)) {
    return Array.isArray(x) && (example.length === 0 || x.every((item) => hasShape(example[0], item)))
  }
  return (
    !Array.isArray(x) &&
    Object.entries(example).every(([key, value]) => Object.hasOwn(x, key) && hasShape(value, Reflect.get(x, key)))
  )
}
