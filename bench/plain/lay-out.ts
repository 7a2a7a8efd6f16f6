import type { Banjo, Gear, Lathe, Layout, ShaftGears, Slot } from '@trainwright/trains'
import { HAIR, meshDistances, meshOf, rankOfSpare, SLACK, tightest } from './clearances.js'
import { compareRanks } from './ranks.js'

interface Point {
  x: number
  y: number
}
/** A stud in its slot, with the place it has while slot 1 lies along the x axis and the pivot at the origin. */
interface Stud {
  slot: number
  along: number
  at: Point
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180
const degrees = (angle: number): number => (angle * 180) / Math.PI
const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y)
const turned = ({ x, y }: Point, angle: number): Point => ({
  x: x * Math.cos(angle) - y * Math.sin(angle),
  y: x * Math.sin(angle) + y * Math.cos(angle),
})
const rounded = (value: number): number => Math.round(value * 1e9) / 1e9 + 0

/** Whether a mesh that nothing can adjust holds: from nominal to a tenth of a module wide of it. */
const holdsUnadjusted = (distance: number, nominal: number, { module }: Gear): boolean =>
  distance >= nominal - HAIR && distance <= nominal + SLACK * module + HAIR

const inSlot = ({ angle = 0, offset = 0 }: Slot, along: number): Point =>
  turned({ x: along, y: offset }, radians(angle))

/** Where along the slot a stud can stand so that it lies `distance` from `before`: no, one or two places. */
function alongs(slot: Slot, before: Point, distance: number, gear: Gear): number[] {
  if (slot.from === slot.to) {
    return holdsUnadjusted(apart(inSlot(slot, slot.from), before), distance, gear) ? [slot.from] : []
  }
  // In the slot's own frame: the foot of `before` on the stud's line, and how far off the line it lies.
  const { x: foot, y } = turned(before, -radians(slot.angle ?? 0))
  const off = Math.abs(y - (slot.offset ?? 0))
  if (off > distance + HAIR) return []
  const half = Math.sqrt(Math.max(0, distance ** 2 - off ** 2))
  const both = half > 0 ? [foot - half, foot + half] : [foot]
  return both.filter((along) => along >= slot.from - HAIR && along <= slot.to + HAIR)
}

/**
 * Every way to put studs into the slots from `before` outwards, each at its mesh distance from the one before; the last
 * of the distances is that to the other shaft, which is not looked at here.
 */
function studsInSlots(
  slots: readonly Slot[],
  before: Point,
  nominal: readonly number[],
  gears: readonly Gear[],
): Stud[][] {
  if (nominal.length === 1) return [[]]
  const next = slots.flatMap((where, slot) =>
    alongs(where, before, nominal[0], gears[0]).map((along): Stud => ({ slot, along, at: inSlot(where, along) })),
  )
  return next.flatMap((stud) =>
    studsInSlots(slots, stud.at, nominal.slice(1), gears.slice(1)).map((others) => [stud, ...others]),
  )
}

/** Swings, in degrees within the limits, that bring the last stud to `distance` from the other shaft. */
function swings({ swing: [least, most] }: Banjo, last: Point, centre: number, distance: number, gear: Gear): number[] {
  if (least === most) {
    const there = turned(last, radians(least))
    return holdsUnadjusted(apart(there, { x: centre, y: 0 }), distance, gear) ? [least] : []
  }
  const reach = Math.hypot(last.x, last.y)
  const sides = [reach, centre, distance]
  if (Math.max(...sides) > sides.reduce((a, b) => a + b) / 2 + HAIR / 2) return []
  // The angle at the pivot between the line to the other shaft and the line to the stud.
  const cosine = (reach ** 2 + centre ** 2 - distance ** 2) / (2 * reach * centre)
  const angle = Math.acos(Math.min(1, Math.max(-1, cosine)))
  const both = angle > 0 ? [angle, -angle] : [angle]
  const whole = both.map((a) => degrees(a - Math.atan2(last.y, last.x)))
  return whole
    .flatMap((swing) => [-720, -360, 0, 360, 720].map((turns) => swing + turns))
    .filter((swing) => swing >= least - HAIR && swing <= most + HAIR)
}

/**
 * Every layout of a chain of shafts (input first, gears in the order of the train) that holds on the lathe's banjo.
 * Needs `lathe.banjo` and `lathe.centreDistance`.
 */
export function layOutPlain(lathe: Lathe, shafts: readonly ShaftGears[]): Layout[] {
  const banjo = lathe.banjo!
  const centre = lathe.centreDistance!
  const output = { x: 0, y: 0 }
  const input = { x: centre, y: 0 }
  const fromInput = banjo.pivot === 'input'
  const [pivot, other] = fromInput ? [input, output] : [output, input]
  const outwards = <T>(inTrainOrder: readonly T[]): T[] => (fromInput ? [...inTrainOrder] : [...inTrainOrder].reverse())

  const nominal = outwards(meshDistances(shafts))
  const gears = outwards(shafts.slice(1).map((_, i) => meshOf(shafts, i)[0]))
  const layouts: Layout[] = []
  const keep = (studs: Stud[], swing: number | null): void => {
    // At the input the line to the other shaft points the other way.
    const angle = radians(swing ?? 0) + (fromInput ? Math.PI : 0)
    const placed = studs.map(({ slot, along, at }) => {
      const { x, y } = turned(at, angle)
      return { x: pivot.x + x, y: pivot.y + y, slot, along }
    })
    const fixed = (at: Point) => ({ ...at, slot: null, along: null })
    const all = outwards([fixed(pivot), ...placed, fixed(other)])
    const clearance = tightest(lathe, shafts, all)
    if (clearance !== null && clearance.mm < -HAIR) return
    layouts.push({
      swing: swing === null ? null : rounded(swing),
      shafts: all.map(({ x, y, slot, along }) => ({
        x: rounded(x),
        y: rounded(y),
        slot,
        along: along === null ? null : rounded(along),
      })),
      meshes: all.slice(1).map((at, i) => ({ between: [i, i + 1], centreDistance: rounded(apart(all[i], at)) })),
      clearance: clearance && { ...clearance, mm: rounded(clearance.mm) },
    })
  }

  if (nominal.length === 1) {
    if (holdsUnadjusted(centre, nominal[0], gears[0])) keep([], null)
    return layouts
  }
  const last = nominal.length - 1
  for (const studs of studsInSlots(banjo.slots, { x: 0, y: 0 }, nominal, gears)) {
    for (const swing of swings(banjo, studs[studs.length - 1].at, centre, nominal[last], gears[last]))
      keep(studs, swing)
  }
  return layouts
}

const rankOf = ({ clearance, shafts, swing }: Layout): number[] => [
  rankOfSpare(clearance?.mm ?? null),
  ...shafts.map(({ slot }) => slot ?? -1),
  swing ?? 0,
  ...shafts.map(({ along }) => along ?? 0),
]

/** Orders layouts of one chain: most clearance, lowest slots from input to output, smallest swing, nearest studs. */
export const betterLayout = (a: Layout, b: Layout): number => compareRanks(rankOf(a), rankOf(b))
