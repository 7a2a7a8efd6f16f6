import { HAIR } from '../bounds.js'
import type { Slot } from '../contract.js'
import { PLAY } from '../search/rules.js'
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
  /** Places of the next stud by the number of its mesh distance; filled when first asked for. */
  next: (Place[] | undefined)[]
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

/** Places of studs, found once for each chain of mesh distances from the pivot and kept. */
export class Places {
  private readonly slots: Line[]
  private readonly first: (Place[] | undefined)[] = []

  constructor(
    slots: readonly Slot[],
    private readonly distances: readonly MeshDistance[],
  ) {
    this.slots = slots.map(({ angle = 0, offset = 0, from, to }) => ({ ...turn(angle), offset, from, to }))
  }

  /** All places of a stud that meshes at this distance with the stud `before`, or with the pivot when null. */
  after(before: Place | null, distance: number): readonly Place[] {
    const known = before === null ? this.first : before.next
    let places = known[distance]
    if (!places) {
      places = []
      for (let slot = 0; slot < this.slots.length; slot++) this.inSlot(slot, before, this.distances[distance], places)
      known[distance] = places
    }
    return places
  }

  private inSlot(slot: number, before: Place | null, { mm, module }: MeshDistance, places: Place[]): void {
    const { c, s, offset, from, to } = this.slots[slot]
    const px = before === null ? 0 : before.x
    const py = before === null ? 0 : before.y
    // The centre before, along the slot and sideways from it.
    const foot = px * c + py * s
    const aside = offset - (py * c - px * s)
    const put = (along: number): void => {
      const x = along * c - offset * s
      const y = along * s + offset * c
      places.push({ before, x, y, slot, along, radius: Math.sqrt(x * x + y * y), next: [] })
    }
    if (from === to) {
      const apart = Math.sqrt((from - foot) ** 2 + aside * aside)
      if (apart >= mm - HAIR && apart <= mm + PLAY * module + HAIR) put(from)
      return
    }
    if (Math.abs(aside) > mm + HAIR) return
    const half = Math.sqrt(Math.max(0, (mm - aside) * (mm + aside)))
    const inside = (along: number) => along >= from - HAIR && along <= to + HAIR
    if (inside(foot + half)) put(foot + half)
    if (half > HAIR && inside(foot - half)) put(foot - half)
  }
}
