import type { Gear, Lathe, Layout, ShaftGears } from '@trainwright/trains'

/** mm: what is short by no more than this still holds. */
export const HAIR = 1e-9
/** mm that tips in one plane keep between them. */
export const TIP_GAP = 0.5
/** Modules that a mesh which nothing can adjust may stand too wide. */
export const SLACK = 0.1

export const tipRadius = ({ module, teeth }: Gear): number => (module * (teeth + 2)) / 2
export const meshDistance = (a: Gear, b: Gear): number => (a.module * (a.teeth + b.teeth)) / 2
export const clearanceOf = (lathe: Lathe, tip: Gear): number => lathe.shaftClearance ?? 6.5 * tip.module

type Shafts = readonly Pick<ShaftGears, 'gears'>[]

/** The two gears that mesh between shaft i and the next. */
export const meshOf = (shafts: Shafts, i: number): [Gear, Gear] => {
  const { gears } = shafts[i]
  return [gears[gears.length - 1].gear, shafts[i + 1].gears[0].gear]
}

export const meshDistances = (shafts: Shafts): number[] =>
  shafts.slice(1).map((_, i) => meshDistance(...meshOf(shafts, i)))

/** Without a banjo: mm to spare at every place between neighbouring shafts where something could foul. */
export function neighbourSpares(lathe: Lathe, shafts: Shafts): number[] {
  return meshDistances(shafts).flatMap((distance, i) => {
    const left = shafts[i].gears
    const right = shafts[i + 1].gears
    const meshes = (a: number, b: number): boolean => a === left.length - 1 && b === 0
    const toShaft = [...left.slice(0, -1), ...right.slice(1)].map(
      ({ gear }) => distance - tipRadius(gear) - clearanceOf(lathe, gear),
    )
    const toTip = left.flatMap((a, i) =>
      right
        .filter((b, j) => a.plane === b.plane && !meshes(i, j))
        .map((b) => distance - tipRadius(a.gear) - tipRadius(b.gear) - TIP_GAP),
    )
    return [...toShaft, ...toTip]
  })
}

/** Whether a chain of these mesh distances can span the distance from input to output shaft. */
export function spans(shafts: Shafts, centreDistance: number): boolean {
  const distances = meshDistances(shafts)
  if (distances.length === 1) {
    const [{ module }] = meshOf(shafts, 0)
    return centreDistance >= distances[0] - HAIR && centreDistance <= distances[0] + SLACK * module + HAIR
  }
  const sides = [...distances, centreDistance]
  const longest = Math.max(...sides)
  const others = sides.reduce((sum, side) => sum + side, 0) - longest
  return longest <= others + HAIR
}

/** On a banjo: the least to spare anywhere, the shafts' centres being `at`; null when nothing could foul. */
export function tightest(lathe: Lathe, shafts: Shafts, at: readonly { x: number; y: number }[]): Layout['clearance'] {
  const gap = (i: number, j: number): number => Math.hypot(at[i].x - at[j].x, at[i].y - at[j].y)
  /** Whether gear g of shaft i meshes with a gear of shaft j. */
  const meshesInto = (i: number, g: number, j: number): boolean =>
    (j === i - 1 && g === 0) || (j === i + 1 && g === shafts[i].gears.length - 1)
  const spares: { mm: number; between: string }[] = []
  shafts.forEach(({ gears }, i) => {
    gears.forEach(({ gear, plane }, g) => {
      const tip = tipRadius(gear)
      const name = `${gear.teeth} on shaft ${i}`
      shafts.forEach((other, j) => {
        if (j === i) return
        if (!meshesInto(i, g, j)) {
          spares.push({ mm: gap(i, j) - tip - clearanceOf(lathe, gear), between: `${name}, centre of shaft ${j}` })
        }
        other.gears.forEach((facing, f) => {
          if (facing.plane !== plane || (meshesInto(i, g, j) && meshesInto(j, f, i))) return
          const mm = gap(i, j) - tip - tipRadius(facing.gear) - TIP_GAP
          spares.push({ mm, between: `${name}, ${facing.gear.teeth} on shaft ${j}` })
        })
      })
      for (const { x, y, radius } of lathe.banjo?.keepOut ?? []) {
        spares.push({ mm: Math.hypot(at[i].x - x, at[i].y - y) - tip - radius, between: `${name}, what stands there` })
      }
    })
  })
  return spares.length > 0 ? spares.reduce((least, spare) => (spare.mm < least.mm ? spare : least)) : null
}

/**
 * Whole micrometres, halves up. Through whole nanometres first: a float that stands for 1.5875 mm may lie a hair to
 * either side of it.
 */
export const micrometres = (mm: number): number => Math.round(Math.round(mm * 1e6) / 1000)

/** mm: more clearance than this is no better. */
const ENOUGH = 5

/** Clearance to spare (null: nothing could foul) as a number for ranking, smaller being better. */
export const rankOfSpare = (mm: number | null): number => -micrometres(Math.min(mm ?? ENOUGH, ENOUGH))
