import { divide, toFractionText } from '@trainwright/measures'
import type { Gear, Layout, Train, TrainSearch } from '@trainwright/trains'

/** A train without what is free in it: wording, and positions, which are compared as lengths. */
const bare = ({ cautions, layout, ...exact }: Train) => ({
  ...exact,
  cautions: cautions.map(({ code }) => code),
  laidOut: layout !== null,
})

/** An answer as it is compared word for word; positions are left to `layoutsApart`. */
export const bareAnswer = ({ trains, counts, closest }: Pick<TrainSearch, 'trains' | 'counts' | 'closest'>) => ({
  trains: trains.map(bare),
  counts,
  closest: closest && bare(closest),
})

/** The numbers of a layout in a fixed order, mm and degrees; what a clearance is between is free wording. */
const figures = ({ swing, shafts, meshes, clearance }: Layout): (number | null)[] => [
  swing,
  ...shafts.flatMap(({ x, y, slot, along }) => [x, y, slot, along]),
  ...meshes.flatMap(({ between, centreDistance }) => [...between, centreDistance]),
  clearance?.mm ?? null,
]

/** The greatest difference between two layouts, mm or degrees; infinite when they are not of one shape. */
export function apart(a: Layout | null, b: Layout | null): number {
  if (a === null || b === null) return a === b ? 0 : Number.POSITIVE_INFINITY
  const [left, right] = [figures(a), figures(b)]
  if (left.length !== right.length) return Number.POSITIVE_INFINITY
  const gaps = left.map((x, i) => {
    const y = right[i]
    return x === null || y === null ? (x === y ? 0 : Number.POSITIVE_INFINITY) : Math.abs(x - y)
  })
  return Math.max(...gaps)
}

/** The greatest difference between the layouts of two answers whose trains are the same. */
export const layoutsApart = (
  a: Pick<TrainSearch, 'trains' | 'closest'>,
  b: Pick<TrainSearch, 'trains' | 'closest'>,
): number =>
  Math.max(
    apart(a.closest?.layout ?? null, b.closest?.layout ?? null),
    ...a.trains.map(({ layout }, i) => apart(layout, b.trains[i].layout)),
  )

const kindName = ({ teeth, module, pressureAngle }: Gear): string => `${teeth}/${module}/${pressureAngle}`

/** Names the gear set of a train: the leadscrew's lead by drive and gearbox, which gears drive, which are driven. */
export function setName({ stages, lead, ratio }: Train): string {
  const side = (gears: Gear[]): string => gears.map(kindName).sort().join(' ')
  const fixed = toFractionText(divide(lead, ratio))
  return `${fixed}: ${side(stages.map((s) => s.driver))} : ${side(stages.map((s) => s.driven))}`
}

/** Paths to whatever does not survive JSON in a result: NaN, Infinity, undefined, and negative zero. */
export function unsound(x: unknown, path = ''): string[] {
  if (typeof x === 'number') return Number.isFinite(x) && !Object.is(x, -0) ? [] : [`${path} is ${x}`]
  if (x === null || typeof x === 'string' || typeof x === 'boolean') return []
  if (typeof x !== 'object') return [`${path} is ${String(x)}`]
  return Object.entries(x).flatMap(([key, value]) => unsound(value, `${path}.${key}`))
}
