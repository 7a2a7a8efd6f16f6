import { HAIR } from '../bounds.js'
import type { Chain, Walk } from './chain.js'
import { PLAY, type Rules } from './rules.js'

const MOST_MESHES = 16

/** Studs may stand anywhere, but the distance from input to output shaft is known: the meshes must be able to span it. */
export class SpanChain implements Chain {
  readonly reversed = false
  readonly largestIdlersDecide = true
  readonly play = 0
  private readonly sums = new Float64Array(MOST_MESHES)
  private readonly longest = new Float64Array(MOST_MESHES)
  private meshes = 0

  constructor(
    private readonly rules: Rules,
    private readonly distance: number,
  ) {}

  start(): void {
    this.meshes = 0
  }

  push(a: number, b: number): boolean {
    const d = this.rules.centre[a * this.rules.count + b]
    const before = this.meshes++
    this.sums[this.meshes] = (before > 0 ? this.sums[before] : 0) + d
    this.longest[this.meshes] = Math.max(before > 0 ? this.longest[before] : 0, d)
    return true
  }

  pop(): void {
    this.meshes--
  }

  close(a: number, b: number, _walk: Walk, spare: number): number | null {
    const { distance, rules, meshes } = this
    const d = rules.centre[a * rules.count + b]
    if (meshes === 0 && meshesDirectly(distance, d, rules.module[a])) return spare
    const longest = Math.max(meshes > 0 ? this.longest[meshes] : 0, d, distance)
    // Two sides of one length close no triangle: a direct mesh is out by their difference.
    const short = 2 * longest - (meshes > 0 ? this.sums[meshes] : 0) - d - distance
    if (rules.anyReach) return -Math.max(short, 0)
    return meshes > 0 && short <= HAIR ? spare : null
  }

  layoutOf(): null {
    return null
  }
}

/** A mesh that nothing can adjust holds from its nominal distance to a tenth of a module more. */
export const meshesDirectly = (distance: number, nominal: number, module: number): boolean =>
  distance >= nominal - HAIR && distance <= nominal + PLAY * module + HAIR
