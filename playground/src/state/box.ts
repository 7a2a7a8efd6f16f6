import type { GearStock } from '@trainwright/trains'
import { blankKind, type TypedKind } from './typed.js'

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

/** Takes a kind away with its gears; the last one is emptied instead. */
export const removeKind = (kinds: readonly TypedKind[], index: number): TypedKind[] =>
  kinds.length > 1 ? kinds.filter((_, i) => i !== index) : [blankKind()]
