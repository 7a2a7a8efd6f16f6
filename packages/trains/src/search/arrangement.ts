import type { Kind } from './box.js'

/** Clearance counts up to here, mm: more is no better. */
export const ENOUGH = 5

/** An order of the gears of one set, with its idlers, and all that it is ranked by among its like. */
export interface Arrangement {
  /** Kind indices from input to output: driver, idlers, driven of each stage in turn. */
  reading: number[]
  /** Idlers of each stage. */
  idlers: number[]
  /** Gears that are on the lathe already. */
  common: number
  /** Whole micrometres to spare, counted up to ENOUGH; negative when clearance is lifted and something fouls. */
  spare: number
  idlerTeeth: number
  setting: number
}

/** Whole micrometres, by way of 1e-9 mm, so that a half stands where it is whichever way it was reckoned. */
export const micrometres = (mm: number): number => Math.round(Math.round(Math.min(mm, ENOUGH) * 1e9) / 1e6)

const readingOrder = (a: readonly number[], b: readonly number[], key: (k: number) => number): number => {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const order = key(a[i]) - key(b[i])
    if (order !== 0) return order
  }
  return 0
}

/**
 * Negative when a comes before b: more gears in common, more to spare, smaller idlers, lower setting, smaller teeth; of
 * equal teeth smaller modules, then pressure angles; and where a gear stands on both sides, fewer stages, idlers late.
 */
export function compareArrangements(a: Arrangement, b: Arrangement, kinds: readonly Kind[]): number {
  return (
    b.common - a.common ||
    b.spare - a.spare ||
    a.idlerTeeth - b.idlerTeeth ||
    a.setting - b.setting ||
    readingOrder(a.reading, b.reading, (k) => kinds[k].gear.teeth) ||
    readingOrder(a.reading, b.reading, (k) => kinds[k].gear.module) ||
    readingOrder(a.reading, b.reading, (k) => kinds[k].gear.pressureAngle) ||
    a.idlers.length - b.idlers.length ||
    readingOrder(a.idlers, b.idlers, (n) => n)
  )
}
