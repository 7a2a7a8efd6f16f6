/** Reads JSON of unknown origin; undefined when it is none. A prototype is nothing that a workshop has: it is left out. */
export function parsed(text: string): unknown {
  try {
    return JSON.parse(text, (key, value) => (key === '__proto__' ? undefined : value))
  } catch {
    return undefined
  }
}
