/** What one question may hold. Past these it is refused with the bound named, never left to hang. */
export const BOUNDS = {
  gears: 500,
  studs: 8,
  planes: 8,
  slots: 12,
  keepOuts: 50,
  /** Drives x gearbox positions. */
  settings: 16,
  limit: 1000,
  stages: 4,
  leastTeeth: 6,
  mostTeeth: 2000,
  /** mm. */
  module: 100,
  /** Pairs of driver and driven products within the tolerance window. */
  pairs: 50_000_000,
  wanted: 1000,
  nameLength: 200,
} as const

/** mm: two lengths that differ by less are the same; kept far below anything that can be measured. */
export const HAIR = 1e-9

/** mm: no small lathe is longer; catches a slip of the keyboard. */
export const FAR = 10_000
