import { compare, exactly, type Rational } from '@trainwright/measures'
import { HAIR } from '../bounds.js'
import type { Gear, ProposeOptions } from '../contract.js'
import type { Box, Kind } from '../search/box.js'

const FEWEST = 20
/** Of a gear to be made, unless said otherwise. */
export const MOST_TEETH = 127

/** The value that most gears of the box have; of equals the smallest. */
function commonest<T>(kinds: readonly Kind[], of: (kind: Kind) => T, order: (a: T, b: T) => number): Kind | undefined {
  const owned = (value: T) => kinds.reduce((sum, k) => sum + (order(of(k), value) === 0 ? k.count : 0), 0)
  return [...kinds].sort((a, b) => owned(of(b)) - owned(of(a)) || order(of(a), of(b)))[0]
}

/** Module and pressure angle of the gears to make: as asked, else the box's commonest module and its commonest angle. */
export function sizeToMake({ kinds }: Box, { module, pressureAngle }: ProposeOptions): Omit<Gear, 'teeth'> {
  const byModule = (k: Kind): Rational => k.module
  const usual = commonest(kinds, byModule, compare)
  const wanted = module === undefined ? usual?.module : exactly(module)
  const alike = kinds.filter(
    (k) => k.gear.module === module || (wanted !== undefined && compare(k.module, wanted) === 0),
  )
  const like = alike.length > 0 ? alike : kinds
  const angle =
    commonest(
      like,
      (k) => k.gear.pressureAngle,
      (a, b) => a - b,
    )?.gear.pressureAngle ?? 20
  const size = alike[0]?.gear
  const made = { module: size?.module ?? module ?? 1, pressureAngle: pressureAngle ?? angle }
  return size?.dp === undefined ? made : { ...made, dp: size.dp }
}

/** Modules of a gear's depth below its pitch circle: 2.25 modules deep, one of them above it. */
const DEDENDUM = 1.25

/** The gears that may be made: counts in range, among `makeable`, with wall enough left over bore and keyway. */
export function permitted(box: Box, options: ProposeOptions): Gear[] {
  const size = sizeToMake(box, options)
  const [least, most] = options.teeth ?? [FEWEST, MOST_TEETH]
  const makeable = options.makeable && new Set(options.makeable)
  const gears: Gear[] = []
  for (let teeth = least; teeth <= most; teeth++) {
    if (makeable && !makeable.has(teeth)) continue
    if (options.blank) {
      const { bore, keyway = 0, wall } = options.blank
      const root = size.module * (teeth / 2 - DEDENDUM)
      if (root - bore / 2 - keyway < wall - HAIR) continue
    }
    gears.push({ teeth, ...size })
  }
  return gears
}
