// How the tables of the bench say their figures.

/** The value of a sorted list that this share of it does not exceed. */
export const at = (sorted, share) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)]

export const figure = (ms) => (ms >= 1000 ? `${(ms / 1000).toFixed(1)} s` : `${ms.toFixed(ms < 10 ? 2 : 0)} ms`)
