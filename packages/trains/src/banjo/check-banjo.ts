import { BOUNDS, FAR } from '../bounds.js'
import type { Banjo, Slot } from '../contract.js'
import { checked, list, number, object, oneOf, optional, two } from '../reader.js'

const anywhere = number(-FAR, FAR)
const outwards = number(0, FAR)
const angle = number(-360, 360)

const slot = checked(
  object<Slot>({ angle: optional(angle), offset: optional(anywhere), from: outwards, to: outwards }),
  ({ from, to }) => from > to && ['slot-order', `from ${from} to ${to} mm`],
)

/** Reads a banjo: swing in order, slots in order, nothing negative along a slot. */
export const banjo = object<Banjo>({
  pivot: optional(oneOf('output', 'input')),
  swing: checked(two(angle), ([least, greatest]) => (least > greatest || greatest - least > 360) && ['swing-order']),
  slots: list(slot, 1, BOUNDS.slots),
  keepOut: optional(
    list(
      object<NonNullable<Banjo['keepOut']>[number]>({ x: anywhere, y: anywhere, radius: outwards }),
      0,
      BOUNDS.keepOuts,
    ),
  ),
})
