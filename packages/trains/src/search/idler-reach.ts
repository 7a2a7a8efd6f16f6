import { HAIR } from '../bounds.js'
import type { Kind } from './box.js'

/** How far the chain of meshes could still reach, to leave early the branches that cannot span a fixed distance. */
export class IdlerReach {
  readonly matters: boolean
  private readonly pitchDiameter: Float64Array
  /** Of the idlers there are: greatest pitch diameter, fewest teeth, greatest module. */
  private readonly widest: number
  private readonly fewest: number
  private readonly coarsest: number
  /** Half the pitch diameters of the set, the whole ones of the idlers so far. */
  private span = 0

  constructor(
    kinds: readonly Kind[],
    idlers: readonly number[],
    private readonly distance: number | null,
  ) {
    this.matters = distance !== null
    this.pitchDiameter = Float64Array.from(kinds, (k) => k.gear.teeth * k.gear.module)
    this.widest = idlers.reduce((most, k) => Math.max(most, this.pitchDiameter[k]), 0)
    this.fewest = idlers.reduce((least, k) => Math.min(least, kinds[k].gear.teeth), 100_000)
    this.coarsest = idlers.reduce((most, k) => Math.max(most, kinds[k].gear.module), 0)
  }

  start(drivers: Int32Array, driven: Int32Array, stages: number): void {
    this.span = 0
    for (let i = 0; i < stages; i++) this.span += (this.pitchDiameter[drivers[i]] + this.pitchDiameter[driven[i]]) / 2
  }

  add(kind: number): void {
    this.span += this.pitchDiameter[kind]
  }

  remove(kind: number): void {
    this.span -= this.pitchDiameter[kind]
  }

  /** mm that the idlers to come must add. */
  private missing(): number {
    return this.distance === null ? 0 : this.distance - this.span - HAIR
  }

  /** Whether so many more idlers cannot bring the chain far enough. */
  short(idlers: number): boolean {
    return this.matters && this.missing() > idlers * this.widest + HAIR
  }

  /** The fewest teeth that so many more idlers can have. */
  teethToCome(idlers: number): number {
    return idlers === 0 ? 0 : Math.max(idlers * this.fewest, this.missing() / this.coarsest)
  }
}
