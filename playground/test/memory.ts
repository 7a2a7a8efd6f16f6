/** A browser's storage in memory; `room` is how many characters it takes. */
export function memory(texts: Iterable<[string, string]> = [], room = Number.POSITIVE_INFINITY): Storage {
  const all = new Map(texts)
  return {
    get length() {
      return all.size
    },
    key: (i) => [...all.keys()][i] ?? null,
    getItem: (key) => all.get(key) ?? null,
    setItem: (key, text) => {
      const others = [...all].reduce((sum, [k, t]) => (k === key ? sum : sum + k.length + t.length), 0)
      if (others + key.length + text.length > room) throw new DOMException('full', 'QuotaExceededError')
      all.set(key, text)
    },
    removeItem: (key) => void all.delete(key),
    clear: () => all.clear(),
  }
}
