const within = (path: string, key: string, isList: boolean): string =>
  isList ? `${path}[${key}]` : path ? `${path}.${key}` : key

/** Where the single values of plain data stand, as problems name them: 'gear.teeth', 'head.plates[0][1]'. */
export function leaves(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path]
  return Object.entries(value).flatMap(([key, one]) => leaves(one, within(path, key, Array.isArray(value))))
}

/** A copy in which the single values at these places are `by`. */
export function spoil<T>(value: T, places: readonly string[], by: unknown, path = ''): T {
  if (places.includes(path)) return by as T
  if (typeof value !== 'object' || value === null) return value
  const entries = Object.entries(value).map(([key, one]) => [
    key,
    spoil(one, places, by, within(path, key, Array.isArray(value))),
  ])
  return (Array.isArray(value) ? entries.map(([, one]) => one) : Object.fromEntries(entries)) as T
}
