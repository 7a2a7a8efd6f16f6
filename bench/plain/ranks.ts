/** Negative, zero or positive as a comes before, with or after b: the first difference decides. */
export function compareRanks(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i])
  return at < 0 ? a.length - b.length : a[at] - (b[at] ?? Number.NEGATIVE_INFINITY)
}
