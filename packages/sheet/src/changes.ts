import type { Gear, GearRef, Train } from '@trainwright/trains'
import { moduleOf } from './places.js'

/** What comes off the lathe, what goes on, what stays. */
export interface GearChanges {
  /** Gears of the train that are on the lathe already: they stay, or only move. */
  stay: Gear[]
  on: Gear[]
  off: GearRef[]
}

const same = (gear: Gear, { teeth, module }: GearRef): boolean =>
  gear.teeth === teeth && (module === undefined || Math.abs(moduleOf(gear) - module) < 1e-9)

/** What comes off and goes on when this train takes the place of the gears that are mounted. */
export function gearChanges(train: Train, mounted: readonly GearRef[]): GearChanges {
  const off = [...mounted]
  const stay: Gear[] = []
  const on: Gear[] = []
  for (const { gear } of train.shafts.flatMap(({ gears }) => gears)) {
    const at = off.findIndex((ref) => same(gear, ref))
    if (at >= 0) off.splice(at, 1)
    ;(at >= 0 ? stay : on).push(gear)
  }
  return { stay, on, off }
}
