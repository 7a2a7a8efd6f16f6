import { BOUNDS, HAIR } from '../bounds.js'
import type { Banjo, Layout } from '../contract.js'
import { type Arrangement, ENOUGH, micrometres } from '../search/arrangement.js'
import type { Box } from '../search/box.js'
import type { Chain, Walk } from '../search/chain.js'
import { PLAY, type Rules } from '../search/rules.js'
import { meshesDirectly } from '../search/span-chain.js'
import { Crowd, type Tight } from './crowd.js'
import { writeLayout } from './layout.js'
import { type Miss, nearMiss } from './near-miss.js'
import { type MeshDistance, type Place, type Point, Slots, Spots, type Standing } from './places.js'
import { Arc, type Turn, turn } from './turn.js'

/**
 * The banjo decides: from the pivot outwards each mesh sets the next stud in its slot, the last mesh sets the swing.
 * `frontier[n]` holds every way in which the first n studs can stand.
 */
export class BanjoChain implements Chain {
  readonly reversed: boolean
  readonly largestIdlersDecide = false
  readonly play: number
  private readonly slots: Slots
  private readonly arc: Arc
  /** The far shaft of a banjo that cannot swing. */
  private readonly still: Point | null
  private readonly crowd: Crowd
  private readonly frontier: Spots[] = Array.from({ length: BOUNDS.studs + 1 }, () => new Spots())
  private readonly floor: number
  private studs = 0
  private best: Standing | null = null
  private readonly far: Point[] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ]

  constructor(
    private readonly box: Box,
    private readonly rules: Rules,
    private readonly banjo: Banjo,
    private readonly centreDistance: number,
    planes: number,
  ) {
    this.reversed = banjo.pivot !== 'input'
    this.slots = new Slots(banjo.slots)
    this.arc = new Arc(banjo.swing[0], banjo.swing[1])
    const coarsest = rules.module.reduce((a, b) => Math.max(a, b), 0)
    const [least, greatest] = banjo.swing
    const { c, s } = turn(least)
    this.still = least === greatest ? { x: centreDistance * c, y: -centreDistance * s } : null
    this.play = this.still || banjo.slots.some((slot) => slot.from === slot.to) ? PLAY * coarsest : 0
    this.floor = rules.anyClearance ? Number.NEGATIVE_INFINITY : -HAIR
    this.crowd = new Crowd(rules, banjo, centreDistance, planes, this.reversed)
  }

  start(): void {
    this.studs = 0
  }

  push(a: number, b: number): boolean {
    if (this.rules.anyReach) {
      this.studs++
      return true
    }
    const before = this.frontier[this.studs]
    const spots = this.frontier[this.studs + 1]
    const mm = this.rules.centre[a * this.rules.count + b]
    const module = this.rules.module[a]
    spots.length = 0
    if (this.studs === 0) this.slots.find(null, mm, module, spots)
    else for (let i = 0; i < before.length; i++) this.slots.find(before.at(i), mm, module, spots)
    if (spots.length === 0) return false
    this.studs++
    return true
  }

  private meshOf(a: number, b: number): MeshDistance {
    return { mm: this.rules.centre[a * this.rules.count + b], module: this.rules.module[a] }
  }

  pop(): void {
    this.studs--
  }

  close(a: number, b: number, walk: Walk, _spare: number, first: boolean): number | null {
    if (this.rules.anyReach) return first ? 0 : -nearMiss(this.banjo, this.centreDistance, this.meshesOf(walk)).mm
    const mm = this.rules.centre[a * this.rules.count + b]
    this.best = null
    if (this.studs === 0) {
      if (!meshesDirectly(this.centreDistance, mm, this.rules.module[a])) return null
      this.best = { last: null, farX: this.centreDistance, farY: 0 }
      this.crowd.gather(walk)
      const spare = this.crowd.spare(this.best, this.floor)
      return spare < this.floor ? null : Math.min(spare, ENOUGH)
    }
    let gathered = false
    let most: number | null = null
    const spots = this.frontier[this.studs]
    for (let i = 0; i < spots.length; i++) {
      const last = spots.at(i)
      const ways = this.findFar(last, mm, this.rules.module[a])
      for (let way = 0; way < ways; way++) {
        if (!gathered) {
          this.crowd.gather(walk)
          gathered = true
        }
        const standing = { last, farX: this.far[way].x, farY: this.far[way].y }
        const floor = most === null ? this.floor : Math.min(most, ENOUGH) - 2 * HAIR
        const spare = this.crowd.spare(standing, floor)
        if (spare < floor) continue
        if (first) return ENOUGH
        if (most === null || this.comesBefore(standing, spare, this.best!, most)) {
          most = spare
          this.best = standing
        }
      }
    }
    return most === null ? null : Math.min(most, ENOUGH)
  }

  /**
   * Where the far shaft can stand in the banjo's frame: so far from the pivot, so far from the last stud, within the swing.
   * Writes the ways into `far` and returns their number.
   */
  private findFar({ x, y, radius }: Place, mm: number, module: number): number {
    const { centreDistance, still, far } = this
    if (still) {
      // A banjo that cannot swing adjusts nothing: the last mesh holds as it comes.
      far[0] = still
      return meshesDirectly(Math.sqrt((x - still.x) ** 2 + (y - still.y) ** 2), mm, module) ? 1 : 0
    }
    const along = (centreDistance ** 2 + (radius - mm) * (radius + mm)) / (2 * radius)
    const square = (centreDistance - along) * (centreDistance + along)
    if (square < -HAIR * centreDistance) return 0
    const aside = Math.sqrt(Math.max(0, square))
    let ways = 0
    for (let side = 1; side >= (aside > HAIR ? -1 : 1); side -= 2) {
      const farX = (along * x - side * aside * y) / radius
      const farY = (along * y + side * aside * x) / radius
      if (!this.arc.holds(farX / centreDistance, -farY / centreDistance)) continue
      far[ways].x = farX
      far[ways].y = farY
      ways++
    }
    return ways
  }

  /** The far shaft stands at minus the swing in the banjo's frame. */
  private swing(farX: number, farY: number): Turn {
    return { c: farX / this.centreDistance, s: -farY / this.centreDistance }
  }

  private slotsAlong(last: Place | null): number[] {
    const slots: number[] = []
    for (let place = last; place; place = place.before) slots.push(place.slot)
    return this.reversed ? slots : slots.reverse()
  }

  /** More to spare, then lower slots along the train, then less swing. */
  private comesBefore(a: Standing, spareA: number, b: Standing, spareB: number): boolean {
    const spare = micrometres(spareA) - micrometres(spareB)
    if (spare !== 0) return spare > 0
    const slotsB = this.slotsAlong(b.last)
    const differ = this.slotsAlong(a.last).findIndex((slot, i) => slot !== slotsB[i])
    if (differ >= 0) return this.slotsAlong(a.last)[differ] < slotsB[differ]
    return this.arc.degrees(this.swing(a.farX, a.farY)) < this.arc.degrees(this.swing(b.farX, b.farY))
  }

  /** Sets a whole arrangement; null when it does not hold. */
  private stand({ reading, idlers }: Arrangement): Standing | null {
    const walk = this.walkOf(reading, idlers)
    this.start()
    let at = 0
    let holds: number | null = null
    for (let stage = 0; stage < walk.stages; stage++, at++) {
      for (let i = 0; i <= walk.idlers[stage]; i++, at++) {
        const [a, b] = [walk.reading[at], walk.reading[at + 1]]
        if (at + 2 === reading.length) holds = this.close(a, b, walk, ENOUGH, false)
        else if (!this.push(a, b)) return null
      }
    }
    this.crowd.gather(walk)
    return holds === null ? null : this.best
  }

  private walkOf(reading: readonly number[], idlers: readonly number[]): Walk {
    const inOrder = <T>(list: readonly T[]): T[] => (this.reversed ? [...list].reverse() : [...list])
    return {
      reading: Int32Array.from(inOrder(reading)),
      idlers: Int32Array.from(inOrder(idlers)),
      stages: idlers.length,
    }
  }

  layoutOf(arrangement: Arrangement): Layout | null {
    const standing = this.stand(arrangement)
    if (!standing) return null
    const degrees = standing.last ? this.arc.degrees(this.swing(standing.farX, standing.farY)) : null
    const tightest = this.crowd.tightest(standing, this.box.kinds)
    return writeLayout(standing, degrees, this.centreDistance, this.reversed, tightest)
  }

  /** The tightest place of an arrangement that stands, whatever fouls when clearance is lifted. */
  tightest(arrangement: Arrangement): Tight | null {
    const standing = this.stand(arrangement)
    return standing && this.crowd.tightest(standing, this.box.kinds)
  }

  /** What keeps an arrangement from standing, clearances aside. */
  miss({ reading, idlers }: Arrangement): Miss {
    const walk = this.walkOf(reading, idlers)
    return nearMiss(this.banjo, this.centreDistance, this.meshesOf(walk))
  }

  private meshesOf({ reading, idlers, stages }: Walk): MeshDistance[] {
    const meshes: MeshDistance[] = []
    let at = 0
    for (let stage = 0; stage < stages; stage++, at++) {
      for (let i = 0; i <= idlers[stage]; i++, at++) {
        meshes.push(this.meshOf(reading[at], reading[at + 1]))
      }
    }
    return meshes
  }
}
