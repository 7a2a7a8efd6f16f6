import { HAIR } from '../bounds.js'
import type { ShaftName } from '../contract.js'
import { type Arrangement, compareArrangements, ENOUGH, micrometres } from './arrangement.js'
import { makeAtOnce } from './at-once.js'
import { AT, type Box } from './box.js'
import type { Chain, Walk } from './chain.js'
import { makeIdlerReach } from './idler-reach.js'
import { type Rules, TIP_GAP } from './rules.js'
import type { GearSet, Settler } from './settler.js'
import { makeSupply } from './supply.js'

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
export function makeArranger(box: Box, rules: Rules, mounted: Int32Array | null, chain: Chain): Settler {
  const { kinds } = box
  const { may, centre, count, need, tip, restricted, studs, centreDistance, anyReach, pairsShareAPlane } = rules
  const { reversed, play, largestIdlersDecide } = chain
  // What the walk reads of kinds, as the engine likes it best.
  const teeth = Int32Array.from(kinds, ({ gear }) => gear.teeth)
  const group = Int32Array.from(kinds, (kind) => kind.group)
  const drivers = new Int32Array(MOST_STAGES)
  const driven = new Int32Array(MOST_STAGES)
  const reading = new Int32Array(MOST_READING)
  const idlers = new Int32Array(MOST_STAGES)
  const walk: Walk = { reading, idlers, stages: 0 }
  const supply = makeSupply(box, restricted)
  const { used } = supply
  /** Kinds that may be idlers, by group: ascending and descending. */
  const smallestFirst: number[][] = Array.from({ length: box.groups }, () => [])
  kinds.forEach((kind, k) => {
    if (may.stud[k]) smallestFirst[kind.group].push(k)
  })
  const largestFirst = smallestFirst.map((group) => [...group].reverse())
  const spans = centreDistance !== null && !anyReach
  const { hasEnds, clears } = makeAtOnce(box, rules, supply, largestFirst)
  const reach = makeIdlerReach(kinds, smallestFirst.flat(), spans ? centreDistance - MOST_READING * play : 0)
  const floor = rules.anyClearance ? Number.NEGATIVE_INFINITY : -HAIR - play
  /** The shafts where the walk starts and ends. */
  const [start, end] = (reversed ? (['output', 'input'] as const) : (['input', 'output'] as const)).map(placeOn)
  const stud = placeOn('stud')

  function placeOn(shaft: ShaftName) {
    return { at: AT[shaft], allows: may[shaft] }
  }

  let depth = 0
  let idlersLeft = 0
  let idlerTeeth = 0
  let first = true
  let setting = 0
  /** Gears in common with those mounted, were all idlers to come among them. */
  let ceiling = 0
  let found: Arrangement | null = null
  let steps = 0

  /** Least and most idlers that custom and studs allow to a train of so many stages; most < least when it cannot be. */
  // Fixed shafts seldom stand where two gears just meet.
  const leastIdlers = (stages: number) => (stages === 1 && studs > 0 && centreDistance === null && !anyReach ? 1 : 0)
  const mostIdlers = (stages: number) => (stages > 1 && !rules.compound ? -1 : studs - stages + 1)

  /** Walks the arrangements of a set with so many idlers; true when it was stopped. */
  function run({ top, p, bottom, q }: GearSet, withIdlers: number): boolean {
    const { size } = top
    walk.stages = size
    for (let i = 0; i < size; i++) {
      // Large drivers first with small driven gears first clear most easily.
      const large = size - 1 - i
      drivers[i] = reversed ? bottom.kinds[q * size + large] : top.kinds[p * size + large]
      driven[i] = reversed ? top.kinds[p * size + i] : bottom.kinds[q * size + i]
      used[drivers[i]]++
      used[driven[i]]++
    }
    depth = 0
    idlersLeft = withIdlers
    idlerTeeth = 0
    if (mounted && !first) ceiling = withIdlers + supply.common(mounted)
    chain.start()
    reach.start(drivers, driven, size)
    const stopped = placeDriver(0, -1, 0, -1, ENOUGH, 0, 0)
    for (let i = 0; i < size; i++) {
      used[drivers[i]]--
      used[driven[i]]--
    }
    supply.clear()
    return stopped
  }

  /** Whether this branch can no longer come before the best found. */
  function hopeless(spare: number): boolean {
    if (found === null) return false
    if (ceiling !== found.common) return ceiling < found.common
    const most = micrometres(spare + play)
    if (most !== found.spare) return most < found.spare
    const least = Math.ceil(idlerTeeth + reach.teethToCome(idlersLeft) - HAIR)
    if (least !== found.idlerTeeth) return least > found.idlerTeeth
    if (setting !== found.setting || reversed) return setting > found.setting
    // It can only come level: then the smaller teeth, read from the input, decide.
    for (let i = 0; i < depth; i++) {
      const order = teeth[reading[i]] - teeth[found.reading[i]]
      if (order !== 0) return order > 0
    }
    return false
  }

  /**
   * Places the driver of a stage. Returns true to stop the walk.
   * @param before driven gear on the same stud, or -1 on the input shaft
   * @param distance of the mesh before, to this stud
   * @param across driven gear one stud back when that mesh has no idler and its plane is this driver's, or -1
   * @param spare mm to spare so far
   * @param usedDrivers bits of `drivers` in place
   */
  function placeDriver(
    stage: number,
    before: number,
    distance: number,
    across: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    const { at, allows } = stage === 0 ? start : stud
    steps++
    let last = -1
    for (let i = 0; i < walk.stages; i++) {
      const kind = drivers[i]
      if (usedDrivers & (1 << i) || kind === last) continue
      last = kind
      if (!allows[kind]) continue
      let left = spare
      if (stage > 0) {
        left = Math.min(left, distance - need[kind])
        if (across >= 0) left = Math.min(left, distance - tip[across] - tip[kind] - TIP_GAP)
        if (left < floor || (!first && hopeless(left))) continue
      }
      if (!supply.take(kind, at)) continue
      reading[depth++] = kind
      idlers[stage] = 0
      const done = placeNext(stage, before, kind, left, usedDrivers | (1 << i), usedDriven)
      depth--
      supply.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  /** Places the gear that `last` turns: an idler, or the driven gear of the stage. */
  function placeNext(
    stage: number,
    before: number,
    last: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    steps++
    if (idlersLeft > 0 && placeIdler(stage, before, last, spare, usedDrivers, usedDriven)) return true
    const ends = stage === walk.stages - 1
    if (ends && idlersLeft > 0) return false
    const direct = idlers[stage] === 0
    const { at, allows } = ends ? end : stud
    let previous = -1
    for (let i = 0; i < walk.stages; i++) {
      const kind = driven[i]
      if (usedDriven & (1 << i) || kind === previous) continue
      previous = kind
      const distance = centre[last * count + kind]
      if (distance < 0 || !allows[kind]) continue
      let left = spare
      if (direct && before >= 0) {
        left = Math.min(left, distance - need[before])
        if (left < floor || (!first && hopeless(left))) continue
      }
      if (!supply.take(kind, at)) continue
      reading[depth++] = kind
      let done = false
      if (ends) done = close(left, last, kind)
      else if (chain.push(last, kind)) {
        const across = direct && pairsShareAPlane ? before : -1
        done = placeDriver(stage + 1, kind, distance, across, left, usedDrivers, usedDriven | (1 << i))
        chain.pop()
      }
      depth--
      supply.giveBack(kind, at)
      if (done) return true
    }
    return false
  }

  function placeIdler(
    stage: number,
    before: number,
    last: number,
    spare: number,
    usedDrivers: number,
    usedDriven: number,
  ): boolean {
    if (reach.short(idlersLeft) || outOfOrder(stage)) return false
    const checked = idlers[stage] === 0 && before >= 0
    let tried = 0
    // With no more to spare than the best has, a larger idler does not come before it, nor do those that follow.
    const level = !first && found && ceiling <= found.common && micrometres(spare + play) <= found.spare
    const most = level ? found!.idlerTeeth - idlerTeeth : Number.POSITIVE_INFINITY
    for (const kind of (first ? largestFirst : smallestFirst)[group[last]]) {
      if (teeth[kind] > most) break
      const copies = supply.left(kind)
      if (copies <= 0) continue
      if (first && largestIdlersDecide) {
        if (tried >= idlersLeft) break
        // A restricted kind may yet prove to be wanted elsewhere, so it does not count.
        if (!restricted[kind]) tried += copies
      }
      const left = checked ? Math.min(spare, centre[last * count + kind] - need[before]) : spare
      if (left < floor || !chain.push(last, kind)) continue
      if (supply.take(kind, stud.at)) {
        // The ceiling counted this idler as one already on the lathe.
        const fresh = mounted && used[kind] >= mounted[kind] ? 1 : 0
        ceiling -= fresh
        used[kind]++
        idlers[stage]++
        idlersLeft--
        idlerTeeth += teeth[kind]
        reading[depth++] = kind
        reach.add(kind, 1)
        const done = (first || !hopeless(left)) && placeNext(stage, before, kind, left, usedDrivers, usedDriven)
        reach.add(kind, -1)
        depth--
        idlerTeeth -= teeth[kind]
        idlersLeft++
        idlers[stage]--
        used[kind]--
        ceiling += fresh
        supply.giveBack(kind, stud.at)
        if (done) {
          chain.pop()
          return true
        }
      }
      chain.pop()
    }
    return false
  }

  /**
   * Idlers that mesh with idlers only are told apart by nothing but their sum: of their orders one is enough, the order
   * in which they are tried.
   */
  function outOfOrder(stage: number): boolean {
    if (idlers[stage] < 3 || !largestIdlersDecide) return false
    const order = reading[depth - 2] - reading[depth - 1]
    return first ? order < 0 : order > 0
  }

  function close(bound: number, last: number, kind: number): boolean {
    const spare = chain.close(last, kind, walk, bound, first)
    if (spare === null || first) return spare !== null
    if (hopeless(spare)) return false
    const inOrder = (list: Int32Array, length: number) => {
      const kept: number[] = []
      for (let i = 0; i < length; i++) kept.push(list[reversed ? length - 1 - i : i])
      return kept
    }
    const arrangement: Arrangement = {
      reading: inOrder(reading, depth),
      idlers: inOrder(idlers, walk.stages),
      common: mounted ? supply.common(mounted) : 0,
      spare: micrometres(spare),
      idlerTeeth,
      setting,
    }
    if (found === null || compareArrangements(arrangement, found, kinds) < 0) found = arrangement
    return false
  }

  return {
    steps: () => steps,
    possible(stages, ratio) {
      const least = leastIdlers(stages)
      const most = mostIdlers(stages)
      if (most < least || !may.input.includes(1) || !may.output.includes(1)) return false
      // Of two numbers of idlers in a row each turning sense has one.
      return ratio.setting[(stages + least) % 2] >= 0 || (most > least && ratio.setting[(stages + least + 1) % 2] >= 0)
    },
    fewestGears(set, ratio) {
      const { size } = set.top
      if (!hasEnds(set)) return 0
      first = true
      const most = mostIdlers(size)
      for (let j = leastIdlers(size); j <= most; j++) {
        if (ratio.setting[(size + j) & 1] < 0) continue
        if ((j < 2 && !spans && clears(set, j)) || run(set, j)) return 2 * size + j
      }
      return 0
    },
    best(set, ratio, gears, incumbent) {
      const { size } = set.top
      first = false
      setting = ratio.setting[(gears - size) % 2]
      found = incumbent
      run(set, gears - 2 * size)
      return found === incumbent ? null : found
    },
    lend: supply.lend,
    layoutOf: (arrangement) => chain.layoutOf(arrangement),
  }
}
