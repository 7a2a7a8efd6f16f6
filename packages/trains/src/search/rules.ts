import { HAIR } from '../bounds.js'
import type { Lathe } from '../contract.js'
import { AT, type Box } from './box.js'

/** Limits that an obstacle is measured by lifting, one at a time. */
export interface Lifted {
  hand?: boolean
  clearance?: boolean
  reach?: boolean
  shafts?: boolean
  /** Studs to reckon with instead of the lathe's. */
  studs?: number
}

/** What the lathe demands of an arrangement, by kind index, ready for the inner loop. Lengths in mm. */
export interface Rules {
  count: number
  /** centre[a * count + b]: centre distance of a and b in mesh, or -1 when they cannot mesh. */
  centre: Float64Array
  module: Float64Array
  /** Tip radius. */
  tip: Float64Array
  /** Least distance from the gear's centre to a shaft that it must clear: tip radius and shaft clearance. */
  need: Float64Array
  /** Whether the kind may sit there: shafts, room, fixed gears. */
  may: { input: Uint8Array; stud: Uint8Array; output: Uint8Array }
  restricted: Uint8Array
  anyRestricted: boolean
  studs: number
  /** Two gears of a pair need a place each. */
  compound: boolean
  /** With two planes the driven gear before a mesh and the driver after it share a plane. */
  pairsShareAPlane: boolean
  centreDistance: number | null
  /** Lifts the shaft and tip clearances. */
  anyClearance: boolean
  anyReach: boolean
}

/** mm between the tips of two gears in one plane that do not mesh. */
export const TIP_GAP = 0.5
/** Modules that a mesh which nothing can adjust may stand too far apart. */
export const PLAY = 0.1
/** Modules from a shaft's centre, when its nut is not known: "15 teeth more than the next driver" (common practice, no source). */
export const ASSUMED_CLEARANCE = 6.5
export const DEFAULT_STUDS = 2
export const DEFAULT_PLANES = 2

export const studsOf = (lathe: Lathe): number => lathe.studs ?? DEFAULT_STUDS

export function makeRules(lathe: Lathe, { kinds, fixed }: Box, lifted: Lifted = {}): Rules {
  const count = kinds.length
  const centre = new Float64Array(count * count).fill(-1)
  const modules = Float64Array.from(kinds, (k) => k.gear.module)
  const tip = new Float64Array(count)
  const need = new Float64Array(count)
  const may = { input: new Uint8Array(count), stud: new Uint8Array(count), output: new Uint8Array(count) }
  const restricted = new Uint8Array(count)
  kinds.forEach((kind, k) => {
    const { teeth, module } = kind.gear
    tip[k] = (module * (teeth + 2)) / 2
    need[k] = tip[k] + (lathe.shaftClearance ?? ASSUMED_CLEARANCE * module)
    for (let other = 0; other < count; other++) {
      if (kinds[other].group === kind.group)
        centre[k * count + other] = (module * (teeth + kinds[other].gear.teeth)) / 2
    }
    for (const shaft of ['input', 'stud', 'output'] as const) {
      const room = shaft === 'stud' ? undefined : lathe.room?.[shaft]
      const stays = shaft === 'stud' ? -1 : fixed[shaft]
      const allowed =
        kind.reach[AT[shaft]] > 0 && (room === undefined || tip[k] <= room + HAIR) && (stays < 0 || stays === k)
      may[shaft][k] = allowed || lifted.shafts ? 1 : 0
    }
    restricted[k] = kind.restricted && !lifted.shafts ? 1 : 0
  })
  const planes = lathe.planes ?? DEFAULT_PLANES
  return {
    count,
    centre,
    module: modules,
    tip,
    need,
    may,
    restricted,
    anyRestricted: restricted.includes(1),
    studs: lifted.studs ?? studsOf(lathe),
    compound: planes > 1 || (lifted.shafts ?? false),
    pairsShareAPlane: planes === 2,
    centreDistance: lathe.centreDistance ?? null,
    anyClearance: lifted.clearance ?? false,
    anyReach: lifted.reach ?? false,
  }
}
