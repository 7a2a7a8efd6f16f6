import { HAIR } from '../bounds.js'
import { type Arrangement, compareArrangements, ENOUGH, micrometres } from './arrangement.js'
import { AT, type Box } from './box.js'
import type { FixedRatio } from './question.js'
import { PLAY, type Rules, TIP_GAP } from './rules.js'
import type { Table } from './table.js'

/** One gear set: an entry of drivers and one of driven gears of the same table, at one fixed ratio. */
export interface GearSet {
  table: Table
  p: number
  q: number
}

/** Says whether a gear set can be mounted, with how few gears, and how best. The banjo has another of the same shape. */
export interface Settler {
  /** Whether a train of so many stages could be mounted at all at this ratio, whatever its gears. */
  possible(stages: number, ratio: FixedRatio): boolean
  /** Gears on shafts in the arrangement with the fewest, or 0 when the set cannot be mounted. */
  fewestGears(set: GearSet, ratio: FixedRatio): number
  /** The best arrangement with so many gears that comes before `incumbent`, or null when none does. */
  best(set: GearSet, ratio: FixedRatio, gears: number, incumbent: Arrangement | null): Arrangement | null
}

/**
 * Searches the arrangements of a gear set depth first along the train: driver, idlers, driven, and over again. Each step
 * is checked as soon as it is placed. Holds the state of one search at a time.
 */
export class Arranger implements Settler {
  private stages = 0
  private readonly drivers: number[] = []
  private readonly driven: number[] = []
  private readonly usedDriver: boolean[] = []
  private readonly usedDriven: boolean[] = []
  /** Copies in use by kind, and for restricted kinds by place. */
  private readonly used: Int32Array
  private readonly placed: Int32Array
  private readonly reading: number[] = []
  private readonly idlers: number[] = []
  private idlersLeft = 0
  private idlerTeeth = 0
  private sum = 0
  private longest = 0
  /** What the chain can span: half the pitch diameters of the set, and the whole ones of the idlers so far. */
  private span = 0
  private readonly pitchDiameter: Float64Array
  /** Of the idlers there are: the greatest pitch diameter, the fewest teeth, the greatest module. */
  private readonly widest: number
  private readonly fewest: number
  private readonly coarsest: number
  /** Stop at the first that holds. */
  private first = true
  private setting = 0
  private ceiling = 0
  private found: Arrangement | null = null
  /** Idlers worth trying, by group: all kinds for the best, only the largest to learn whether any will do. */
  private candidates: number[][] = []
  /** Kinds that may sit on a stud, largest first, by group. */
  private readonly largestFirst: number[][]
  private readonly smallestFirst: number[][]

  constructor(
    private readonly box: Box,
    private readonly rules: Rules,
    private readonly mounted: Int32Array | null = null,
  ) {
    this.used = new Int32Array(rules.count)
    this.placed = new Int32Array(rules.count * 8)
    const groups: number[][] = Array.from({ length: box.groups }, () => [])
    box.kinds.forEach((kind, k) => {
      if (rules.may.stud[k]) groups[kind.group].push(k)
    })
    this.smallestFirst = groups
    this.largestFirst = groups.map((g) => [...g].reverse())
    this.pitchDiameter = Float64Array.from(box.kinds, (k) => k.gear.teeth * k.gear.module)
    const idlers = groups.flat()
    this.widest = idlers.reduce((most, k) => Math.max(most, this.pitchDiameter[k]), 0)
    this.fewest = idlers.reduce((least, k) => Math.min(least, box.kinds[k].gear.teeth), Infinity)
    this.coarsest = idlers.reduce((most, k) => Math.max(most, box.kinds[k].gear.module), 0)
  }

  /** Least and most idlers that studs and custom allow to a train of so many stages; most < least when it cannot be. */
  private idlerRange(stages: number): [number, number] {
    const { studs, compound, centreDistance, anyReach } = this.rules
    if (stages > 1 && !compound) return [1, 0]
    // Fixed shafts seldom stand where two gears just meet.
    const least = stages === 1 && studs > 0 && centreDistance === null && !anyReach ? 1 : 0
    return [least, studs - stages + 1]
  }

  possible(stages: number, ratio: FixedRatio): boolean {
    const { may } = this.rules
    const [least, most] = this.idlerRange(stages)
    if (most < least || !may.input.includes(1) || !may.output.includes(1)) return false
    // Of two numbers of idlers in a row each turning sense has one.
    return ratio.setting[(stages + least) % 2] >= 0 || (most > least && ratio.setting[(stages + least + 1) % 2] >= 0)
  }

  fewestGears(set: GearSet, ratio: FixedRatio): number {
    const stages = set.table.size
    const [least, most] = this.idlerRange(stages)
    for (let j = least; j <= most; j++) {
      if (ratio.setting[(stages + j) % 2] < 0) continue
      this.load(set, j)
      this.first = true
      this.candidates = j === 0 ? this.largestFirst : this.largest(j)
      if (this.driver(0, -1, 0, -1, ENOUGH)) return 2 * stages + j
    }
    return 0
  }

  best(set: GearSet, ratio: FixedRatio, gears: number, incumbent: Arrangement | null): Arrangement | null {
    const stages = set.table.size
    const j = gears - 2 * stages
    this.load(set, j)
    this.first = false
    this.setting = ratio.setting[(stages + j) % 2]
    this.candidates = this.smallestFirst
    this.found = incumbent
    this.ceiling = this.mounted ? j + this.commonSoFar() : 0
    this.driver(0, -1, 0, -1, ENOUGH)
    return this.found === incumbent ? null : this.found
  }

  private load({ table, p, q }: GearSet, idlers: number): void {
    const { size, kinds } = table
    this.stages = size
    this.used.fill(0)
    if (this.rules.anyRestricted) this.placed.fill(0)
    for (let i = 0; i < size; i++) {
      // Large drivers first with small driven gears first clear most easily.
      this.drivers[i] = kinds[p * size + size - 1 - i]
      this.driven[i] = kinds[q * size + i]
      this.usedDriver[i] = false
      this.usedDriven[i] = false
      this.used[this.drivers[i]]++
      this.used[this.driven[i]]++
    }
    this.reading.length = 0
    this.idlersLeft = idlers
    this.idlerTeeth = 0
    this.sum = 0
    this.longest = 0
    this.span = 0
    for (let i = 0; i < size; i++)
      this.span += (this.pitchDiameter[this.drivers[i]] + this.pitchDiameter[this.driven[i]]) / 2
  }

  /** mm that the idlers still to come must add for the chain to span the fixed distance. */
  private missing(): number {
    const { centreDistance, anyReach } = this.rules
    return centreDistance === null || anyReach ? 0 : centreDistance - this.span - HAIR
  }

  /**
   * The largest idlers of each group that the set leaves over. They are enough to learn whether any will do: a larger
   * idler in the same place never fouls more, and reaches further.
   */
  private largest(j: number): number[][] {
    return this.largestFirst.map((group) => {
      const few: number[] = []
      let copies = 0
      for (const k of group) {
        if (copies >= j) break
        const left = this.box.kinds[k].count - this.used[k]
        if (left <= 0) continue
        few.push(k)
        // A restricted kind may yet prove to be wanted elsewhere.
        if (!this.rules.restricted[k]) copies += left
      }
      return few
    })
  }

  private commonSoFar(): number {
    const { mounted, used } = this
    let common = 0
    if (mounted) for (let k = 0; k < used.length; k++) common += Math.min(used[k], mounted[k])
    return common
  }

  /** Takes a copy of a restricted kind for a place, when the box can supply it beside those already placed. */
  private take(kind: number, at: number): boolean {
    if (!this.rules.restricted[kind]) return true
    const { placed } = this
    const { reach } = this.box.kinds[kind]
    const o = kind * 8
    placed[o + at]++
    for (let s = 1; s < 8; s++) {
      if (!(s & at)) continue
      let demand = 0
      for (const place of [AT.input, AT.stud, AT.output]) if (s & place) demand += placed[o + place]
      if (demand > reach[s]) {
        placed[o + at]--
        return false
      }
    }
    return true
  }

  private giveBack(kind: number, at: number): void {
    if (this.rules.restricted[kind]) this.placed[kind * 8 + at]--
  }

  /** Whether this branch can no longer come before the best found. */
  private hopeless(spare: number): boolean {
    const { found } = this
    if (this.first || found === null) return false
    if (this.ceiling !== found.common) return this.ceiling < found.common
    const most = micrometres(spare)
    if (most !== found.spare) return most < found.spare
    const toCome = Math.max(this.idlersLeft === 0 ? 0 : this.idlersLeft * this.fewest, this.missing() / this.coarsest)
    return this.idlerTeeth + toCome - HAIR > found.idlerTeeth
  }

  /**
   * Idlers that mesh with idlers only are told apart by nothing but their sum: of their orders one is enough, the order
   * in which they are tried.
   */
  private outOfOrder(stage: number): boolean {
    if (this.idlers[stage] < 3) return false
    const [a, b] = this.reading.slice(-2)
    return this.first ? a < b : a > b
  }

  /**
   * Places the driver of a stage.
   * @param before driven gear on the same stud, or -1 on the input shaft
   * @param distance of the mesh before, to this stud
   * @param across driven gear one stud back when that mesh has no idler, or -1
   */
  private driver(stage: number, before: number, distance: number, across: number, spare: number): boolean {
    const { rules, drivers, stages } = this
    const at = stage === 0 ? AT.input : AT.stud
    const may = stage === 0 ? rules.may.input : rules.may.stud
    let last = -1
    for (let i = 0; i < stages; i++) {
      const kind = drivers[i]
      if (this.usedDriver[i] || kind === last) continue
      last = kind
      if (!may[kind]) continue
      let left = spare
      if (stage > 0) {
        left = Math.min(left, distance - rules.need[kind])
        if (across >= 0) left = Math.min(left, distance - rules.tip[across] - rules.tip[kind] - TIP_GAP)
        if (left < -HAIR && !rules.anyClearance) continue
        if (this.hopeless(left)) continue
      }
      if (!this.take(kind, at)) continue
      this.usedDriver[i] = true
      this.reading.push(kind)
      this.idlers[stage] = 0
      const done = this.mesh(stage, before, kind, left)
      this.reading.pop()
      this.usedDriver[i] = false
      this.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  /** Places the gear that `last` turns: an idler, or the driven gear of the stage. */
  private mesh(stage: number, before: number, last: number, spare: number): boolean {
    if (this.idlersLeft > 0 && this.idler(stage, before, last, spare)) return true
    const { rules, driven, stages } = this
    const end = stage === stages - 1
    if (end && this.idlersLeft > 0) return false
    const direct = this.idlers[stage] === 0
    const at = end ? AT.output : AT.stud
    const may = end ? rules.may.output : rules.may.stud
    let previous = -1
    for (let i = 0; i < stages; i++) {
      const kind = driven[i]
      if (this.usedDriven[i] || kind === previous) continue
      previous = kind
      const distance = rules.centre[last * rules.count + kind]
      if (distance < 0 || !may[kind]) continue
      let left = spare
      if (direct && before >= 0) {
        left = Math.min(left, distance - rules.need[before])
        if (left < -HAIR && !rules.anyClearance) continue
        if (this.hopeless(left)) continue
      }
      if (!this.take(kind, at)) continue
      this.usedDriven[i] = true
      this.reading.push(kind)
      const longest = this.longest
      this.sum += distance
      if (distance > longest) this.longest = distance
      const done = end
        ? this.leaf(left, last)
        : this.driver(stage + 1, kind, distance, direct && rules.pairsShareAPlane ? before : -1, left)
      this.longest = longest
      this.sum -= distance
      this.reading.pop()
      this.usedDriven[i] = false
      this.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  private idler(stage: number, before: number, last: number, spare: number): boolean {
    const { rules, box } = this
    const firstOfStage = this.idlers[stage] === 0
    if (this.missing() > this.idlersLeft * this.widest || this.outOfOrder(stage)) return false
    for (const kind of this.candidates[box.kinds[last].group]) {
      if (this.used[kind] >= box.kinds[kind].count) continue
      const distance = rules.centre[last * rules.count + kind]
      let left = spare
      if (firstOfStage && before >= 0) {
        left = Math.min(left, distance - rules.need[before])
        if (left < -HAIR && !rules.anyClearance) continue
      }
      if (!this.take(kind, AT.stud)) continue
      const { longest, ceiling } = this
      // The ceiling counted this idler as one already on the lathe.
      if (this.mounted && this.used[kind] >= this.mounted[kind]) this.ceiling--
      this.used[kind]++
      this.idlers[stage]++
      this.idlersLeft--
      this.idlerTeeth += box.kinds[kind].gear.teeth
      this.reading.push(kind)
      this.sum += distance
      this.span += this.pitchDiameter[kind]
      if (distance > longest) this.longest = distance
      const done = !this.hopeless(left) && this.mesh(stage, before, kind, left)
      this.longest = longest
      this.span -= this.pitchDiameter[kind]
      this.sum -= distance
      this.reading.pop()
      this.idlerTeeth -= box.kinds[kind].gear.teeth
      this.idlersLeft++
      this.idlers[stage]--
      this.used[kind]--
      this.ceiling = ceiling
      this.giveBack(kind, AT.stud)
      if (done) return true
    }
    return false
  }

  /** Whether the chain of meshes spans the fixed distance between input and output shaft. */
  private spans(last: number): boolean {
    const { centreDistance: fixed, anyReach } = this.rules
    if (fixed === null || anyReach) return true
    if (this.reading.length === 2) {
      const play = PLAY * this.box.kinds[last].gear.module
      return fixed >= this.sum - HAIR && fixed <= this.sum + play + HAIR
    }
    const longest = Math.max(this.longest, fixed)
    return 2 * longest <= this.sum + fixed + HAIR
  }

  private leaf(spare: number, last: number): boolean {
    if (!this.spans(last)) return false
    if (this.first) return true
    const arrangement: Arrangement = {
      reading: this.reading,
      idlers: this.idlers,
      common: this.commonSoFar(),
      spare: micrometres(spare),
      idlerTeeth: this.idlerTeeth,
      setting: this.setting,
    }
    if (this.found === null || compareArrangements(arrangement, this.found, this.box.kinds) < 0) {
      this.found = { ...arrangement, reading: [...this.reading], idlers: this.idlers.slice(0, this.stages) }
    }
    return false
  }
}
