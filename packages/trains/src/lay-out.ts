import { compare } from '@trainwright/measures'
import { BanjoChain } from './banjo/banjo-chain.js'
import type { Miss } from './banjo/near-miss.js'
import { HAIR } from './bounds.js'
import type { Gear, LaidOut, Lathe, Obstacle, SetUp, Stage } from './contract.js'
import { missMessage, obstacle } from './messages.js'
import type { Arrangement } from './search/arrangement.js'
import { type Box, type Kind, makeBox, moduleOf } from './search/box.js'
import { DEFAULT_PLANES, type Lifted, makeRules } from './search/rules.js'
import { type CheckedSetUp, checkSetUp } from './set-up.js'

/** A gear told by module may be of the kind of one told by dp. */
const isOf = ({ gear, module }: Kind, g: Gear): boolean =>
  gear.teeth === g.teeth && gear.pressureAngle === g.pressureAngle && compare(module, moduleOf(g)) === 0

/** The gears of a set-up as a box of their own, and the set-up as an arrangement of it. */
function arrange(stages: readonly Stage[]): { box: Box; arrangement: Arrangement } {
  const gears = stages.flatMap((s) => [s.driver, ...s.idlers, s.driven])
  const box = makeBox(gears, undefined)
  const reading = gears.map((gear) => box.kinds.findIndex((kind) => isOf(kind, gear)))
  const idlers = stages.map((s) => s.idlers.length)
  return { box, arrangement: { reading, idlers, common: 0, spare: 0, idlerTeeth: 0, setting: 0 } }
}

/** The reach obstacle of a near miss: its worst slot, or the hole that a mesh misses, and every fault in words. */
export function reachObstacle(miss: Miss, idler: number | null = null): Obstacle {
  const slots = miss.faults.filter((f) => f.what === 'slot').sort((a, b) => b.mm - a.mm)
  const hole = miss.faults.find((f) => f.what === 'mesh')
  return obstacle.reach(miss.mm, slots[0]?.slot ?? hole?.slot ?? null, missMessage(miss.faults, idler))
}

/** Tooth counts tried for an idler that would make the train reach. */
const IDLERS: readonly [number, number] = [15, 127]

/** Lays a checked set-up out. */
class Table {
  /** @param lathe one with a banjo, checked */
  constructor(private readonly lathe: Lathe) {}

  private chain(box: Box, lifted: Lifted): BanjoChain {
    const { banjo, centreDistance, planes = DEFAULT_PLANES } = this.lathe
    return new BanjoChain(box, makeRules(this.lathe, box, lifted), banjo!, centreDistance!, planes)
  }

  stands(stages: readonly Stage[]): ReturnType<BanjoChain['layoutOf']> {
    const { box, arrangement } = arrange(stages)
    return this.chain(box, {}).layoutOf(arrangement)
  }

  /** Teeth of an idler that, in place of one of the train's own, would make it stand. */
  idler(stages: readonly Stage[]): number | null {
    for (let teeth = IDLERS[0]; teeth <= IDLERS[1]; teeth++) {
      for (const [s, stage] of stages.entries()) {
        for (const i of stage.idlers.keys()) {
          const idlers = stage.idlers.map((g, k) => (k === i ? { ...g, teeth } : g))
          if (this.stands(stages.map((other, k) => (k === s ? { ...other, idlers } : other)))) return teeth
        }
      }
    }
    return null
  }

  why(stages: readonly Stage[]): Obstacle {
    const { box, arrangement } = arrange(stages)
    const worst = this.chain(box, { clearance: true }).tightest(arrangement)
    if (worst) return obstacle.fouls(box.kinds[worst.kind].gear, -worst.mm, worst.between)
    return reachObstacle(this.chain(box, {}).miss(arrangement), this.idler(stages))
  }
}

/** Teeth of the idler that would make a train of this lathe reach, or null. */
export const idlerThatReaches = (lathe: Lathe, stages: readonly Stage[]): number | null =>
  new Table(lathe).idler(stages)

/** A gear too large for the room at the end of a train. */
function roomObstacle({ lathe, stages }: CheckedSetUp): Obstacle | null {
  const ends = [
    ['input', stages[0].driver],
    ['output', stages[stages.length - 1].driven],
  ] as const
  for (const [shaft, gear] of ends) {
    const room = lathe.room?.[shaft]
    const tip = (gear.module * (gear.teeth + 2)) / 2
    if (room !== undefined && tip > room + HAIR) return obstacle.room(gear, shaft, tip - room)
  }
  return null
}

/**
 * Where the shafts of a set-up stand on the banjo, or what keeps it from standing and by how much: the gear that fouls, or
 * the slot or swing that does not reach, in mm.
 * @throws WorkshopError when lathe or set-up cannot be read, or the lathe has no banjo.
 */
export function layOut(lathe: Lathe, setUp: SetUp): LaidOut {
  const checked = checkSetUp(lathe, setUp, true)
  const table = new Table(checked.lathe)
  const { stages } = checked
  if (stages.length > 1 && checked.lathe.planes === 1) return { ok: false, obstacle: obstacle.planes() }
  const room = roomObstacle(checked)
  if (room) return { ok: false, obstacle: room }
  const layout = table.stands(stages)
  return layout ? { ok: true, layout } : { ok: false, obstacle: table.why(stages) }
}
