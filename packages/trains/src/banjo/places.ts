import { HAIR } from '../bounds.js'
import type { Slot } from '../contract.js'
import { meshesDirectly } from '../search/span-chain.js'
import { type Turn, turn } from './turn.js'

export interface Point {
  x: number
  y: number
}

/** Where a stud stands on the banjo: its frame has the pivot at the origin and slot 1 along x. Lengths in mm. */
export interface Place {
  /** The stud before it in the chain, or null for the first. */
  before: Place | null
  x: number
  y: number
  slot: number
  along: number
  /** Distance from the pivot. */
  radius: number
}

/** A chain set on the banjo: the last stud, and the far shaft in the banjo's frame, which tells the swing. */
export interface Standing {
  last: Place | null
  farX: number
  farY: number
}

/** A mesh distance with the module of its gears. */
export interface MeshDistance {
  mm: number
  module: number
}

interface Line extends Turn {
  offset: number
  from: number
  to: number
}

/** Places of one stud; the objects are kept and used again, so that a search makes no garbage. */
export class Spots {
  length = 0
  private readonly kept: Place[] = []

  at(i: number): Place {
    return this.kept[i]
  }

  put(before: Place | null, x: number, y: number, slot: number, along: number): void {
    const radius = Math.sqrt(x * x + y * y)
    if (this.length === this.kept.length) this.kept.push({ before, x, y, slot, along, radius })
    else {
      const place = this.kept[this.length]
      place.before = before
      place.x = x
      place.y = y
      place.slot = slot
      place.along = along
      place.radius = radius
    }
    this.length++
  }
}

/** The slots of a banjo, and where in them a stud can stand. */
export class Slots {
  private readonly lines: Line[]

  constructor(slots: readonly Slot[]) {
    this.lines = slots.map(({ angle = 0, offset = 0, from, to }) => ({ ...turn(angle), offset, from, to }))
  }

  /** Adds all places of a stud that meshes with the stud `before`, or with the pivot when null. */
  find(before: Place | null, mm: number, module: number, spots: Spots): void {
    const px = before === null ? 0 : before.x
    const py = before === null ? 0 : before.y
    for (let slot = 0; slot < this.lines.length; slot++) {
      const { c, s, offset, from, to } = this.lines[slot]
      // The centre before, along the slot and sideways from it.
      const foot = px * c + py * s
      const aside = offset - (py * c - px * s)
      if (from === to) {
        const apart = Math.sqrt((from - foot) ** 2 + aside * aside)
        if (meshesDirectly(apart, mm, module))
          spots.put(before, from * c - offset * s, from * s + offset * c, slot, from)
        continue
      }
      if (Math.abs(aside) > mm + HAIR) continue
      const half = Math.sqrt(Math.max(0, (mm - aside) * (mm + aside)))
      for (let side = 1; side >= -1; side -= 2) {
        const along = foot + side * half
        if (along < from - HAIR || along > to + HAIR || (side < 0 && half <= HAIR)) continue
        spots.put(before, along * c - offset * s, along * s + offset * c, slot, along)
      }
    }
  }
}
