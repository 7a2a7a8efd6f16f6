/** Those of the named values that are given: an optional value is passed on or left out, never passed as undefined. */
export function pick<T extends object, K extends keyof T>(from: T, ...keys: K[]): Partial<Pick<T, K>> {
  const picked: Partial<Pick<T, K>> = {}
  for (const key of keys) if (from[key] !== undefined) picked[key] = from[key]
  return picked
}
