import { gather, type Problem } from '@trainwright/measures'
import {
  type BanjoDrawing,
  drawBanjo,
  type RoughMeasures,
  standInBanjo,
  standInMeasures,
} from '@trainwright/sheet/banjo'
import { type MeasuredBanjo, measureBanjo } from '@trainwright/trains'
import { type BanjoLathe, neededFields, readCentres, readDrawn, readKeepOut, readMeasures } from './read-banjo.js'

/** What stands in each field that has a line on the drawing, but for those that cannot be. */
function entriesOf(lathe: BanjoLathe, wrong: readonly string[]): Record<string, string> {
  const { slots, keepOut } = lathe.banjo
  const all = [
    ...neededFields(lathe),
    ...slots.flatMap(
      ({ length, offset }, i) =>
        [
          [`slots[${i}].length`, length],
          [`slots[${i}].offset`, offset],
        ] as const,
    ),
    ...keepOut.flatMap((place, i) =>
      Object.entries(place).map(([key, text]) => [`keepOut[${i}].${key}`, text] as const),
    ),
  ]
  return Object.fromEntries(all.filter(([path, text]) => text.trim() && !wrong.includes(path)))
}

/** Leaves out what stands at these paths. */
function without(measures: RoughMeasures, paths: readonly string[]): RoughMeasures {
  const left = structuredClone(measures)
  for (const path of paths) {
    const keys = path.match(/\w+/g)!
    const holder = keys.slice(0, -1).reduce<object>((x, key) => Reflect.get(x, key), left)
    Reflect.deleteProperty(holder, keys.at(-1)!)
  }
  return left
}

/** Measures that cannot all be are left out by turns: once for what each slot is, once for how slots and stops lie. */
const TRIES = 4

function drawMeasured(lathe: BanjoLathe): BanjoDrawing | null {
  let rough = readMeasures(lathe, [])
  const wrong: string[] = []
  for (let tries = 0; tries < TRIES; tries++) {
    const full = standInMeasures(rough)
    const found: Problem[] = []
    const against = (stop: MeasuredBanjo['stops'][number]) =>
      gather([], () => measureBanjo({ ...full, stops: [stop, stop] }))?.banjo.swing[0]
    const made = gather(found, () => measureBanjo(full))
    const [a, b] = full.stops.map(against)
    if (made && a !== undefined && b !== undefined) {
      return drawBanjo({
        banjo: { ...made.banjo, ...readKeepOut(lathe, []) },
        centreDistance: made.centreDistance,
        stops: [a, b],
        terms: 'measured',
        entries: entriesOf(lathe, wrong),
      })
    }
    const paths = found.map(({ path }) => path)
    wrong.push(...paths)
    rough = without(rough, paths)
  }
  return null
}

/** The banjo as typed, to draw: what is missing or cannot be stands in a usual place and is marked as open. */
export function banjoToDraw(lathe: BanjoLathe): BanjoDrawing | null {
  const { by } = lathe.banjo
  if (by === 'none') return null
  if (by === 'measured') return drawMeasured(lathe)
  const { banjo, centreDistance } = standInBanjo(
    { ...readDrawn(lathe, []), ...readKeepOut(lathe, []) },
    readCentres(lathe).centreDistance,
  )
  return drawBanjo({ banjo, centreDistance, terms: 'drawn', entries: entriesOf(lathe, []) })
}
