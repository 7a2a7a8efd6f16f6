import { BOUNDS } from '../bounds.js'
import type { Banjo, Slot } from '../contract.js'
import { optional, type Reader } from '../reader.js'

const FAR = 10_000

function readSlot(r: Reader, x: unknown, path: string): Slot | undefined {
  const slot = r.object<Slot>(x, path, {
    angle: optional((y, q) => r.number(y, q, -360, 360)),
    offset: optional((y, q) => r.number(y, q, -FAR, FAR)),
    from: (y, q) => r.number(y, q, 0, FAR),
    to: (y, q) => r.number(y, q, 0, FAR),
  })
  return slot && slot.from > slot.to ? r.refuse(path, 'slot-order', `from ${slot.from} to ${slot.to} mm`) : slot
}

/** Reads a banjo: swing in order, slots in order, nothing negative along a slot. */
export function checkBanjo(r: Reader, x: unknown, path: string): Banjo | undefined {
  return r.object<Banjo>(x, path, {
    pivot: optional((y, q) => r.oneOf(y, q, ['output', 'input'] as const)),
    swing: (y, q) => {
      const swing = r.list(y, q, [2, 2], (z, s) => r.number(z, s, -360, 360)) as [number, number] | undefined
      return swing && (swing[0] > swing[1] || swing[1] - swing[0] > 360) ? r.refuse(q, 'swing-order') : swing
    },
    slots: (y, q) => r.list(y, q, [1, BOUNDS.slots], (z, s) => readSlot(r, z, s)),
    keepOut: optional((y, q) =>
      r.list(y, q, [0, BOUNDS.keepOuts], (z, s) =>
        r.object<{ x: number; y: number; radius: number }>(z, s, {
          x: (v, t) => r.number(v, t, -FAR, FAR),
          y: (v, t) => r.number(v, t, -FAR, FAR),
          radius: (v, t) => r.number(v, t, 0, FAR),
        }),
      ),
    ),
  })
}
