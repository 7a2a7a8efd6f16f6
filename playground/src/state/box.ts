import type { Gear, GearStock } from '@trainwright/trains'
import { blankKind, SHAFTS, type TypedKind } from './typed.js'

type Counted = Pick<GearStock, 'teeth' | 'count'>

/** '20x2 24 30': the line that parseBox reads back to the same gears. */
export const boxLine = (gears: readonly Counted[]): string =>
  gears.map(({ teeth, count = 1 }) => (count === 1 ? String(teeth) : `${teeth}x${count}`)).join(' ')

/** The gears with `by` more (or fewer) of one tooth count; none left takes it off the list. */
export const changeCount = (gears: readonly Counted[], teeth: number, by: number): Counted[] =>
  gears.flatMap((gear) => {
    const count = (gear.count ?? 1) + (gear.teeth === teeth ? by : 0)
    return count > 0 ? [{ teeth: gear.teeth, count }] : []
  })

const withLine = (kind: TypedKind, gears: readonly Counted[]): TypedKind => ({ ...kind, line: boxLine(gears) })

const addOne = (gears: readonly Counted[], teeth: number): Counted[] =>
  gears.some((gear) => gear.teeth === teeth) ? changeCount(gears, teeth, 1) : [...gears, { teeth, count: 1 }]

/**
 * Moves one gear to another kind; a `to` past the end makes a new kind, alike in everything until it is changed.
 * `read` gives the gears of each kind.
 */
export function moveGear(
  kinds: readonly TypedKind[],
  read: readonly (readonly Counted[])[],
  from: number,
  teeth: number,
  to: number,
): TypedKind[] {
  const target = kinds[to] ?? { ...kinds[from]!, line: '' }
  const moved = kinds.map((kind, i) => (i === from ? withLine(kind, changeCount(read[from]!, teeth, -1)) : kind))
  moved[to] = withLine(target, addOne(read[to] ?? [], teeth))
  return moved
}

/** The kinds with one gear more, among those of its size that can sit anywhere; when there are none, in a kind of its own. */
export function putIn(
  kinds: readonly TypedKind[],
  read: readonly (readonly Counted[] | null)[],
  { teeth, module, dp, pressureAngle }: Gear,
): TypedKind[] {
  const own: TypedKind = {
    ...blankKind(),
    by: dp === undefined ? 'module' : 'dp',
    size: String(dp ?? module),
    angle: String(pressureAngle),
  }
  const alike = ({ by, size, angle, shafts }: TypedKind) =>
    by === own.by &&
    Number(size) === Number(own.size) &&
    Number(angle) === pressureAngle &&
    shafts.length === SHAFTS.length
  const at = kinds.findIndex((kind, i) => read[i] && alike(kind))
  if (at < 0) return [...kinds, withLine(own, [{ teeth }])]
  return kinds.map((kind, i) => (i === at ? withLine(kind, addOne(read[i]!, teeth)) : kind))
}

/** Takes a kind away with its gears; the last one is emptied instead. */
export const removeKind = (kinds: readonly TypedKind[], index: number): TypedKind[] =>
  kinds.length > 1 ? kinds.filter((_, i) => i !== index) : [blankKind()]
