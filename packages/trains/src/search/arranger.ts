import { HAIR } from '../bounds.js'
import type { Layout } from '../contract.js'
import { type Arrangement, compareArrangements, ENOUGH, micrometres } from './arrangement.js'
import { AT, type Box } from './box.js'
import type { Chain, Walk } from './chain.js'
import { IdlerReach } from './idler-reach.js'
import type { FixedRatio } from './question.js'
import { type Rules, TIP_GAP } from './rules.js'
import type { GearSet, Settler } from './settler.js'
import { Supply } from './supply.js'

const MOST_STAGES = 4
const MOST_READING = 2 * MOST_STAGES + 8

/**
 * Searches the arrangements of a gear set depth first along the train: driver, idlers, driven, and over again. Each step
 * is checked as soon as it is placed. Where the chain of meshes asks for it, the walk starts at the output shaft: the
 * conditions read the same from there, with driven gears for drivers. Holds the state of one search at a time.
 *
 * Two questions share the walk. Whether a set can be mounted at all (`first`): the walk stops at the first arrangement
 * that holds, and of the idlers only the largest are tried, since a larger idler in the same place never fouls more and
 * reaches further. Which arrangement is best: the walk goes on, and leaves a branch that can no longer win.
 */
export class Arranger implements Settler, Walk {
  private readonly drivers = new Int32Array(MOST_STAGES)
  private readonly driven = new Int32Array(MOST_STAGES)
  readonly reading = new Int32Array(MOST_READING)
  readonly idlers = new Int32Array(MOST_STAGES)
  private readonly idlerTeethOf: Int32Array
  private readonly supply: Supply
  private readonly reach: IdlerReach
  private readonly largestFirst: number[][]
  private readonly smallestFirst: number[][]
  private readonly centre: Float64Array
  private readonly need: Float64Array
  private readonly kindCount: number
  private readonly floor: number
  /** The shafts where the walk starts and ends. */
  private readonly start: { at: number; may: Uint8Array }
  private readonly end: { at: number; may: Uint8Array }

  stages = 0
  depth = 0
  private idlersLeft = 0
  private idlerTeeth = 0
  private first = true
  private setting = 0
  /** Gears in common with those mounted, were all idlers to come among them. */
  private ceiling = 0
  private found: Arrangement | null = null

  constructor(
    private readonly box: Box,
    private readonly rules: Rules,
    private readonly mounted: Int32Array | null,
    private readonly chain: Chain,
  ) {
    const { kinds } = box
    const groups: number[][] = Array.from({ length: box.groups }, () => [])
    kinds.forEach((kind, k) => {
      if (rules.may.stud[k]) groups[kind.group].push(k)
    })
    this.smallestFirst = groups
    this.largestFirst = groups.map((g) => [...g].reverse())
    this.idlerTeethOf = Int32Array.from(kinds, (k) => k.gear.teeth)
    this.supply = new Supply(box, rules.restricted)
    const { centreDistance } = rules
    const span = centreDistance === null || rules.anyReach ? null : centreDistance - MOST_READING * chain.play
    this.reach = new IdlerReach(kinds, groups.flat(), span)
    const [start, end] = chain.reversed ? (['output', 'input'] as const) : (['input', 'output'] as const)
    this.start = { at: AT[start], may: rules.may[start] }
    this.end = { at: AT[end], may: rules.may[end] }
    this.centre = rules.centre
    this.need = rules.need
    this.kindCount = rules.count
    this.floor = rules.anyClearance ? Number.NEGATIVE_INFINITY : -HAIR - chain.play
  }

  /** Least and most idlers that custom and studs allow to a train of so many stages; most < least when it cannot be. */
  private leastIdlers(stages: number): number {
    const { studs, centreDistance, anyReach } = this.rules
    // Fixed shafts seldom stand where two gears just meet.
    return stages === 1 && studs > 0 && centreDistance === null && !anyReach ? 1 : 0
  }

  private mostIdlers(stages: number): number {
    return stages > 1 && !this.rules.compound ? -1 : this.rules.studs - stages + 1
  }

  possible(stages: number, ratio: FixedRatio): boolean {
    const { may } = this.rules
    const least = this.leastIdlers(stages)
    const most = this.mostIdlers(stages)
    if (most < least || !may.input.includes(1) || !may.output.includes(1)) return false
    // Of two numbers of idlers in a row each turning sense has one.
    return ratio.setting[(stages + least) % 2] >= 0 || (most > least && ratio.setting[(stages + least + 1) % 2] >= 0)
  }

  fewestGears(set: GearSet, ratio: FixedRatio): number {
    const stages = set.table.size
    if (!this.hasEnds(set)) return 0
    const most = this.mostIdlers(stages)
    for (let j = this.leastIdlers(stages); j <= most; j++) {
      if (ratio.setting[(stages + j) % 2] < 0) continue
      if (j < 2 && this.clearsAtOnce(set, j)) return 2 * stages + j
      this.load(set, j)
      this.first = true
      const holds = this.driver(0, -1, 0, -1, ENOUGH, 0, 0)
      this.unload()
      if (holds) return 2 * stages + j
    }
    return 0
  }

  /** Whether some driver may sit on the input shaft and some driven gear on the output shaft. */
  private hasEnds({ table: { size, kinds }, p, q }: GearSet): boolean {
    const { input, output } = this.rules.may
    let first = 0
    let last = 0
    for (let i = 0; i < size; i++) {
      first |= input[kinds[p * size + i]]
      last |= output[kinds[q * size + i]]
    }
    return (first & last) === 1
  }

  /**
   * Whether the order that clears most easily holds: large drivers first, small driven gears first, the one idler in the
   * first stage. It nearly always does; then there is no need to walk.
   */
  private clearsAtOnce({ table: { size, kinds }, p, q }: GearSet, idlers: number): boolean {
    const { rules, centre, need, kindCount, box } = this
    const { input, stud, output } = rules.may
    if (rules.anyRestricted || this.reach.matters) return false
    let last = kinds[p * size + size - 1]
    let driven = kinds[q * size]
    if (input[last] === 0 || output[kinds[q * size + size - 1]] === 0) return false
    if (idlers === 1) {
      last = this.largestLeft(box.kinds[last].group, kinds, p * size, q * size, size)
      if (last < 0) return false
    }
    let before = -1
    for (let stage = 0; ; stage++) {
      const distance = centre[last * kindCount + driven]
      if (distance < 0 || (before >= 0 && distance < need[before])) return false
      if (stage === size - 1) return true
      const next = kinds[p * size + size - 2 - stage]
      if (stud[driven] === 0 || stud[next] === 0 || distance < need[next]) return false
      if (rules.pairsShareAPlane && before >= 0 && distance < rules.tip[before] + rules.tip[next] + TIP_GAP)
        return false
      before = driven
      last = next
      driven = kinds[q * size + stage + 1]
    }
  }

  /** The largest idler of a group that the set leaves over, or -1. */
  private largestLeft(group: number, kinds: Uint16Array, p: number, q: number, size: number): number {
    for (const kind of this.largestFirst[group]) {
      let left = this.box.kinds[kind].count
      for (let i = 0; i < size; i++) {
        if (kinds[p + i] === kind) left--
        if (kinds[q + i] === kind) left--
      }
      if (left > 0) return kind
    }
    return -1
  }

  best(set: GearSet, ratio: FixedRatio, gears: number, incumbent: Arrangement | null): Arrangement | null {
    const stages = set.table.size
    const j = gears - 2 * stages
    this.load(set, j)
    this.first = false
    this.setting = ratio.setting[(stages + j) % 2]
    this.found = incumbent
    this.ceiling = this.mounted ? j + this.supply.common(this.mounted) : 0
    this.driver(0, -1, 0, -1, ENOUGH, 0, 0)
    this.unload()
    return this.found === incumbent ? null : this.found
  }

  lend(kind: number, copies: number): void {
    this.supply.lend(kind, copies)
  }

  layoutOf(arrangement: Arrangement): Layout | null {
    return this.chain.layoutOf(arrangement)
  }

  private load({ table, p, q }: GearSet, idlers: number): void {
    const { size, kinds } = table
    const { reversed } = this.chain
    this.stages = size
    for (let i = 0; i < size; i++) {
      // Large drivers first with small driven gears first clear most easily.
      const driver = kinds[(reversed ? q : p) * size + size - 1 - i]
      const driven = kinds[(reversed ? p : q) * size + i]
      this.drivers[i] = driver
      this.driven[i] = driven
      this.supply.used[driver]++
      this.supply.used[driven]++
    }
    this.depth = 0
    this.idlersLeft = idlers
    this.idlerTeeth = 0
    this.chain.start()
    if (this.reach.matters) this.reach.start(this.drivers, this.driven, size)
  }

  private unload(): void {
    const { used } = this.supply
    for (let i = 0; i < this.stages; i++) {
      used[this.drivers[i]]--
      used[this.driven[i]]--
    }
    this.supply.clear()
  }

  /** Whether this branch can no longer come before the best found. */
  private hopeless(spare: number): boolean {
    const { found } = this
    if (found === null) return false
    if (this.ceiling !== found.common) return this.ceiling < found.common
    const most = micrometres(spare + this.chain.play)
    if (most !== found.spare) return most < found.spare
    return this.idlerTeeth + this.reach.teethToCome(this.idlersLeft) - HAIR > found.idlerTeeth
  }

  /**
   * Places the driver of a stage. Returns true to stop the walk.
   * @param before driven gear on the same stud, or -1 on the input shaft
   * @param distance of the mesh before, to this stud
   * @param across driven gear one stud back when that mesh has no idler and its plane is this driver's, or -1
   * @param spare mm to spare so far
   * @param usedDrivers bits of `drivers` in place
   */
  private driver(
    stage: number,
    before: number,
    distance: number,
    across: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    const { rules, drivers, stages } = this
    const at = stage === 0 ? this.start.at : AT.stud
    const may = stage === 0 ? this.start.may : rules.may.stud
    let last = -1
    for (let i = 0; i < stages; i++) {
      const kind = drivers[i]
      if (usedDrivers & (1 << i) || kind === last) continue
      last = kind
      if (may[kind] === 0) continue
      let left = spare
      if (stage > 0) {
        left = Math.min(left, distance - this.need[kind])
        if (across >= 0) left = Math.min(left, distance - rules.tip[across] - rules.tip[kind] - TIP_GAP)
        if (left < this.floor || (!this.first && this.hopeless(left))) continue
      }
      if (!this.supply.take(kind, at)) continue
      this.reading[this.depth++] = kind
      this.idlers[stage] = 0
      const done = this.mesh(stage, before, kind, left, usedDrivers | (1 << i), usedDriven)
      this.depth--
      this.supply.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  /** Places the gear that `last` turns: an idler, or the driven gear of the stage. */
  private mesh(
    stage: number,
    before: number,
    last: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    const { rules, driven, stages } = this
    if (this.idlersLeft > 0 && this.idler(stage, before, last, spare, usedDrivers, usedDriven)) return true
    const end = stage === stages - 1
    if (end && this.idlersLeft > 0) return false
    const direct = this.idlers[stage] === 0
    const at = end ? this.end.at : AT.stud
    const may = end ? this.end.may : rules.may.stud
    let previous = -1
    for (let i = 0; i < stages; i++) {
      const kind = driven[i]
      if (usedDriven & (1 << i) || kind === previous) continue
      previous = kind
      const distance = this.centre[last * this.kindCount + kind]
      if (distance < 0 || may[kind] === 0) continue
      let left = spare
      if (direct && before >= 0) {
        left = Math.min(left, distance - this.need[before])
        if (left < this.floor || (!this.first && this.hopeless(left))) continue
      }
      if (!this.supply.take(kind, at)) continue
      this.reading[this.depth++] = kind
      const across = direct && rules.pairsShareAPlane ? before : -1
      let done = false
      if (end) done = this.leaf(left, last, kind)
      else if (this.chain.push(last, kind)) {
        done = this.driver(stage + 1, kind, distance, across, left, usedDrivers, usedDriven | (1 << i))
        this.chain.pop()
      }
      this.depth--
      this.supply.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  private idler(
    stage: number,
    before: number,
    last: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    const { box, supply, reach, idlersLeft } = this
    if (reach.short(idlersLeft) || this.outOfOrder(stage)) return false
    const { group } = box.kinds[last]
    const checked = this.idlers[stage] === 0 && before >= 0
    let tried = 0
    for (const kind of this.first ? this.largestFirst[group] : this.smallestFirst[group]) {
      const copies = supply.left(kind)
      if (copies <= 0) continue
      if (this.first && this.chain.largestIdlersDecide) {
        if (tried >= idlersLeft) break
        // A restricted kind may yet prove to be wanted elsewhere, so it does not count.
        if (!supply.restricted[kind]) tried += copies
      }
      const distance = this.centre[last * this.kindCount + kind]
      const left = checked ? Math.min(spare, distance - this.need[before]) : spare
      if (left < this.floor || !this.chain.push(last, kind)) continue
      if (!supply.take(kind, AT.stud)) {
        this.chain.pop()
        continue
      }
      const { ceiling } = this
      // The ceiling counted this idler as one already on the lathe.
      if (this.mounted && supply.used[kind] >= this.mounted[kind]) this.ceiling--
      supply.used[kind]++
      this.idlers[stage]++
      this.idlersLeft--
      this.idlerTeeth += this.idlerTeethOf[kind]
      this.reading[this.depth++] = kind
      reach.add(kind)
      const done = (this.first || !this.hopeless(left)) && this.mesh(stage, before, kind, left, usedDrivers, usedDriven)
      reach.remove(kind)
      this.depth--
      this.idlerTeeth -= this.idlerTeethOf[kind]
      this.idlersLeft++
      this.idlers[stage]--
      supply.used[kind]--
      this.ceiling = ceiling
      supply.giveBack(kind, AT.stud)
      this.chain.pop()
      if (done) return true
    }
    return false
  }

  /**
   * Idlers that mesh with idlers only are told apart by nothing but their sum: of their orders one is enough, the order
   * in which they are tried.
   */
  private outOfOrder(stage: number): boolean {
    if (this.idlers[stage] < 3 || !this.chain.largestIdlersDecide) return false
    const order = this.reading[this.depth - 2] - this.reading[this.depth - 1]
    return this.first ? order < 0 : order > 0
  }

  private leaf(bound: number, last: number, kind: number): boolean {
    const spare = this.chain.close(last, kind, this, bound, this.first)
    if (spare === null) return false
    if (this.first) return true
    const reading = Array.from(this.reading.subarray(0, this.depth))
    const idlers = Array.from(this.idlers.subarray(0, this.stages))
    const arrangement: Arrangement = {
      reading: this.chain.reversed ? reading.reverse() : reading,
      idlers: this.chain.reversed ? idlers.reverse() : idlers,
      common: this.mounted ? this.supply.common(this.mounted) : 0,
      spare: micrometres(spare),
      idlerTeeth: this.idlerTeeth,
      setting: this.setting,
    }
    if (this.found === null || compareArrangements(arrangement, this.found, this.box.kinds) < 0)
      this.found = arrangement
    return false
  }
}
