import type { FixedDrive, GearRef, GearStock, Lathe, ShaftName } from '@trainwright/trains'
import fc from 'fast-check'
import { type Kind, resolve } from './shop.js'

export const usually = <T>(usual: fc.Arbitrary<T>, rare: fc.Arbitrary<T>, weight = 4): fc.Arbitrary<T> =>
  fc.oneof({ arbitrary: usual, weight }, { arbitrary: rare, weight: 1 })

/** Left out, but for one time in `weight` + 1. */
export const seldom = <T>(value: fc.Arbitrary<T>, weight = 4): fc.Arbitrary<T | undefined> =>
  usually<T | undefined>(fc.constant(undefined), value, weight)

/** A record without the keys whose value is undefined, as a person would write it. */
export const written = <T extends object>(record: { [K in keyof T]: T[K] | undefined }): T =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T

const teeth = usually(
  fc.constantFrom(20, 24, 25, 28, 30, 32, 35, 36, 40, 45, 48, 50, 55, 60, 65, 70, 75, 80),
  fc.oneof(fc.integer({ min: 12, max: 100 }), fc.constant(127)),
)
const shafts = fc.subarray<ShaftName>(['input', 'stud', 'output'], { minLength: 1 })
const toothing = fc.oneof(
  { weight: 6, arbitrary: fc.constant({}) },
  { weight: 4, arbitrary: fc.constant({ module: 1.5 }) },
  { weight: 2, arbitrary: fc.constant({ dp: 20 }) },
  { weight: 1, arbitrary: fc.constant({ pressureAngle: 14.5 }) },
)
const stock = (mixed: boolean): fc.Arbitrary<GearStock> =>
  fc
    .record({
      teeth,
      count: fc.constantFrom(undefined, undefined, undefined, 1, 2, 3),
      toothing: mixed ? toothing : fc.constant({}),
      shafts: seldom(shafts, 10),
    })
    .map(({ toothing, ...rest }) => written<GearStock>({ ...rest, ...toothing }))

/** A box of four to eight gears or so, mostly of one module, some alike, some kept to certain shafts. */
export const box: fc.Arbitrary<GearStock[]> = usually(fc.constant(false), fc.constant(true), 3)
  .chain((mixed) => fc.array(stock(mixed), { minLength: 4, maxLength: 7, size: 'max' }))
  .map((gears) => {
    const upTo = (n: number): number => gears.slice(0, n).reduce((sum, g) => sum + (g.count ?? 1), 0)
    return gears.filter((_, i) => i < 3 || upTo(i + 1) <= 8)
  })

const drive: fc.Arbitrary<FixedDrive> = fc
  .record({
    ratio: fc.constantFrom<string | number>(1, '1', '2/2', 2, '1/2', 0.5, '127/120', '1.5'),
    reverses: fc.constantFrom(undefined, undefined, true, false),
    belt: fc.constantFrom(undefined, undefined, 'toothed' as const, 'plain' as const),
  })
  .map((d) => written<FixedDrive>(d))
const drives = seldom(fc.array(drive, { minLength: 1, maxLength: 3 }), 2)

/** What of a lathe does not depend on the gears. */
export const bareLathe: fc.Arbitrary<Lathe> = fc
  .record({
    leadscrew: fc
      .record({
        pitch: usually(fc.constantFrom('1 mm', '1.5', '2 mm', '3 mm', '8 tpi', '1/8 in'), fc.constant('0.5 module'), 9),
        hand: fc.constantFrom(undefined, undefined, 'right' as const, 'left' as const),
      })
      .map((screw) => written<Lathe['leadscrew']>(screw)),
    drives,
    gearbox: drives,
    studs: fc.constantFrom(undefined, 0, 1, 1, 2, 2, 2, 3, 3),
    planes: fc.constantFrom(undefined, undefined, undefined, undefined, 1, 2, 3),
    shaftClearance: fc.constantFrom(undefined, undefined, 1, 2, 4, 8, 12.5),
  })
  .map((lathe) => written<Lathe>(lathe))

/** How a person would name this kind among those of the box; null when teeth and module do not tell it. */
export function refTo(kinds: readonly Kind[], kind: Kind): GearRef | null {
  const byTeeth = { teeth: kind.teeth }
  if (resolve(kinds, byTeeth) === kind) return byTeeth
  const byModule = { teeth: kind.teeth, module: kind.gear.module }
  return resolve(kinds, byModule) === kind ? byModule : null
}
