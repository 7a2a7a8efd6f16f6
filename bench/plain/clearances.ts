import type { Gear, Lathe, ShaftGears } from '@trainwright/trains'

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

/**
 * Whole micrometres, halves up. Through whole nanometres first: a float that stands for 1.5875 mm may lie a hair to
 * either side of it.
 */
export const micrometres = (mm: number): number => Math.round(Math.round(mm * 1e6) / 1000)
