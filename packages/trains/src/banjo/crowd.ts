import type { Banjo } from '../contract.js'
import { between } from '../messages.js'
import type { Kind } from '../search/box.js'
import type { Walk } from '../search/chain.js'
import { type Rules, TIP_GAP } from '../search/rules.js'
import type { Standing } from './places.js'

const MOST = 32

/** The smallest clearance of a standing chain. */
export interface Tight {
  mm: number
  kind: number
  between: string
}

/**
 * Whether the gears of a standing chain leave each other, the shafts and the castings room. Works in the banjo's frame:
 * shaft 0 is the pivot, then the studs, then the far shaft.
 */
export class Crowd {
  private readonly kind = new Int32Array(MOST)
  private readonly shaft = new Int32Array(MOST)
  private readonly plane = new Int32Array(MOST)
  /** Whether the gear meshes with the gear before it and after it in the walk. */
  private readonly meshesBack = new Uint8Array(MOST)
  private readonly meshesOn = new Uint8Array(MOST)
  private gears = 0
  private shafts = 0
  private readonly x = new Float64Array(MOST)
  private readonly y = new Float64Array(MOST)

  constructor(
    private readonly rules: Rules,
    private readonly banjo: Banjo,
    private readonly centreDistance: number,
    private readonly planes: number,
    private readonly reversed: boolean,
  ) {}

  /** Takes the gears of a walk; their places come with each standing. */
  gather({ reading, idlers, stages }: Walk): void {
    let at = 0
    let shaft = 0
    for (let stage = 0; stage < stages; stage++) {
      const fromInput = this.reversed ? stages - 1 - stage : stage
      const last = idlers[stage] + 1
      for (let i = 0; i <= last; i++, at++) {
        this.kind[at] = reading[at]
        this.plane[at] = fromInput % this.planes
        this.meshesBack[at] = i > 0 ? 1 : 0
        this.meshesOn[at] = i < last ? 1 : 0
        this.shaft[at] = i > 0 ? ++shaft : shaft
      }
    }
    this.gears = at
    this.shafts = shaft + 1
  }

  private locate({ last, farX, farY }: Standing): void {
    const far = this.shafts - 1
    this.x[0] = 0
    this.y[0] = 0
    this.x[far] = farX
    this.y[far] = farY
    let at = far - 1
    for (let place = last; place; place = place.before, at--) {
      this.x[at] = place.x
      this.y[at] = place.y
    }
  }

  private apart(a: number, b: number): number {
    const dx = this.x[a] - this.x[b]
    const dy = this.y[a] - this.y[b]
    return Math.sqrt(dx * dx + dy * dy)
  }

  /** Visits every clearance: mm to spare, the gear, and the shaft, gear or casting beside it. Stops on true. */
  private each(
    standing: Standing,
    visit: (mm: number, gear: number, beside: 'shaft' | 'gear' | 'keep-out', which: number) => boolean,
  ): void {
    const { kind, shaft, plane, meshesBack, meshesOn, gears } = this
    const { need, tip } = this.rules
    this.locate(standing)
    for (let g = 0; g < gears; g++) {
      const own = shaft[g]
      for (let s = 0; s < this.shafts; s++) {
        if (s === own || (meshesBack[g] && s === own - 1) || (meshesOn[g] && s === own + 1)) continue
        if (visit(this.apart(own, s) - need[kind[g]], g, 'shaft', s)) return
      }
      for (let h = g + 1; h < gears; h++) {
        if (plane[h] !== plane[g] || (h === g + 1 && meshesOn[g])) continue
        if (visit(this.apart(own, shaft[h]) - tip[kind[g]] - tip[kind[h]] - TIP_GAP, g, 'gear', h)) return
      }
    }
    const keepOuts = this.banjo.keepOut ?? []
    for (let k = 0; k < keepOuts.length; k++) {
      const { x, y } = this.inFrame(keepOuts[k], standing)
      for (let g = 0; g < gears; g++) {
        const dx = this.x[shaft[g]] - x
        const dy = this.y[shaft[g]] - y
        if (visit(Math.sqrt(dx * dx + dy * dy) - tip[kind[g]] - keepOuts[k].radius, g, 'keep-out', k)) return
      }
    }
  }

  /** A fixed point, given from the output shaft towards the input shaft, in the banjo's frame. */
  private inFrame({ x, y }: { x: number; y: number }, { farX, farY }: Standing): { x: number; y: number } {
    const c = farX / this.centreDistance
    const s = farY / this.centreDistance
    const alongLine = this.reversed ? x : this.centreDistance - x
    const asideLine = this.reversed ? y : -y
    return { x: alongLine * c - asideLine * s, y: alongLine * s + asideLine * c }
  }

  /** mm to spare at the tightest place; stops with what it has once that is below `floor`. */
  spare(standing: Standing, floor: number): number {
    let least = Number.POSITIVE_INFINITY
    this.each(standing, (mm) => {
      if (mm < least) least = mm
      return least < floor
    })
    return least
  }

  /** The tightest place: mm to spare, the kind of gear whose tip it is, and what it is between. */
  tightest(standing: Standing, kinds: readonly Kind[]): Tight | null {
    let found: Tight | null = null
    this.each(standing, (mm, g, beside, which) => {
      if (found !== null && mm >= found.mm) return false
      const teeth = kinds[this.kind[g]].gear.teeth
      found = { mm, kind: this.kind[g], between: this.name(teeth, beside, which, kinds) }
      return false
    })
    return found
  }

  private name(teeth: number, beside: 'shaft' | 'gear' | 'keep-out', which: number, kinds: readonly Kind[]): string {
    if (beside === 'keep-out') return between.keepOut(teeth, which + 1)
    if (beside === 'gear') return between.gear(teeth, kinds[this.kind[which]].gear.teeth, this.plane[which] + 1)
    const fromInput = this.reversed ? this.shafts - 1 - which : which
    return between.shaft(teeth, fromInput, this.shafts - 1)
  }
}
