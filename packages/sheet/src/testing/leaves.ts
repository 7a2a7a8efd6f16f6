/** Every value in a piece of plain data that is no object, with its path. */
export function leaves(x: unknown, path = ''): [path: string, value: unknown][] {
  if (typeof x !== 'object' || x === null) return [[path, x]]
  return Object.entries(x).flatMap(([key, value]) => leaves(value, path ? `${path}.${key}` : key))
}

/** Every object in it that prints itself: those with a text, a verdict or a message. */
export function printed(x: unknown): { text: string; other: string | undefined }[] {
  if (typeof x !== 'object' || x === null) return []
  const { text, verdict, message, inch, tpi } = x as Record<string, string | undefined>
  const own = text ?? verdict ?? message
  return [...(own === undefined ? [] : [{ text: own, other: inch ?? tpi }]), ...Object.values(x).flatMap(printed)]
}

/** What no sheet may hold. */
export const spoilt = (x: unknown): string[] =>
  leaves(x)
    .filter(
      ([, value]) =>
        value === undefined ||
        typeof value === 'function' ||
        (typeof value === 'number' && !Number.isFinite(value)) ||
        /NaN|Infinity|undefined|null|\[object|-0\b(?!\.)/.test(String(value === null ? '' : value)),
    )
    .map(([path]) => path)
