import type { Layout } from '../contract.js'
import type { Arrangement } from './arrangement.js'

/** An arrangement as it is walked: from the input shaft on, or from the output shaft when `reversed`. */
export interface Walk {
  /** Kind indices in walking order. */
  reading: Int32Array
  /** Idlers of each stage, in walking order; `stages` of them count. */
  idlers: Int32Array
  stages: number
}

/** What the chain of meshes between the two fixed shafts must do; grows and shrinks with the walk. */
export interface Chain {
  /** Walk from the output shaft: the banjo is worked from its pivot outwards. */
  reversed: boolean
  /** Of idlers the largest decide, and the order of those between idlers is all one. */
  largestIdlersDecide: boolean
  /** mm by which a mesh may stand further apart than its nominal distance. */
  play: number
  start(): void
  /** Sets the next stud by the mesh of a and b. False when it cannot stand anywhere: then do not pop. */
  push(a: number, b: number): boolean
  pop(): void
  /** Closes the chain by the mesh of a and b: mm to spare (counted up to ENOUGH), or null when it does not hold. */
  close(a: number, b: number, walk: Walk, spare: number, first: boolean): number | null
  layoutOf(arrangement: Arrangement): Layout | null
}

/** Nothing is known of where the shafts stand. */
export const freeChain: Chain = {
  reversed: false,
  largestIdlersDecide: true,
  play: 0,
  start() {},
  push: () => true,
  pop() {},
  close: (_a, _b, _walk, spare) => spare,
  layoutOf: () => null,
}
