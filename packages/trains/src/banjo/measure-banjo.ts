import { FAR } from '../bounds.js'
import type { Banjo, Slot } from '../contract.js'
import { list, number, object, oneOf, optional, positive, Reader, two } from '../reader.js'
import { WorkshopError } from '../workshop-error.js'
import { nanometre } from './layout.js'

/** Which way a thing lies from another, seen from the gear end of the lathe. */
export type Sense = 'anticlockwise' | 'clockwise'

/** A slot as rule and calipers tell it. All distances in mm, between centres, above 0, up to 10000. */
export interface MeasuredSlot {
  /** Pivot to stud, with the stud pushed to the nearer and to the further end. */
  near: number
  far: number
  /** From the stud at the one end to the stud at the other; without it the slot is taken to point at the pivot. */
  length?: number
  /** On which side of the pivot the slot's line passes, looking along it outwards; default left. Say it where `length` is given. */
  passes?: 'left' | 'right'
  /** From the stud at the far end of slot 1 to the stud at the far end of this one; not for slot 1. */
  fromFirst?: number
  /** Which way this slot lies from slot 1; default anticlockwise. */
  lies?: Sense
}

/**
 * A banjo as measured on the lathe, for people who have no protractor. All distances in mm, above 0 unless said
 * otherwise, up to 10000.
 */
export interface MeasuredBanjo {
  /** Input shaft to output shaft. */
  centreDistance: number
  /** Default output. */
  pivot?: 'output' | 'input'
  slots: MeasuredSlot[]
  /**
   * The banjo against each of its stops: from the shaft that is not the pivot to a stud at the far end of slot 1, and on
   * which side of the line from pivot to that shaft the stud lies; default anticlockwise.
   */
  stops: [{ toStud: number; lies?: Sense }, { toStud: number; lies?: Sense }]
  /** Diameters of the largest nut, washer or bush on the shafts. */
  collars?: number[]
  /** Air to leave around a collar, 0 to 50; default 0.5. */
  air?: number
}

/** A banjo as the search takes it, with what else the measures tell of the lathe; lengths in mm. */
export interface BanjoFromMeasures {
  banjo: Banjo
  centreDistance: number
  /** Half the largest collar and the air; absent when no collar was measured. */
  shaftClearance?: number
}

const AIR = 0.5
/** mm by which measures may fail to close a triangle and still be taken for one that is flat. */
const SLIP = 0.2

const degrees = (radians: number): number => (radians * 180) / Math.PI
const bearing = ({ offset = 0, to }: Pick<Slot, 'offset' | 'to'>): number => degrees(Math.atan2(offset, to))

/** The angle between sides a and b of a triangle, opposite c, in degrees; null when they cannot close. */
function corner(a: number, b: number, c: number): number | null {
  if (c > a + b + SLIP || c < Math.abs(a - b) - SLIP) return null
  const cosine = (a * a + b * b - c * c) / (2 * a * b)
  return degrees(Math.acos(Math.min(1, Math.max(-1, cosine))))
}

const mm = positive(FAR)
const lies = optional(oneOf<Sense>('anticlockwise', 'clockwise'))
const measure = object<MeasuredBanjo>({
  centreDistance: mm,
  pivot: optional(oneOf('output', 'input')),
  slots: list(
    object<MeasuredSlot>({
      near: mm,
      far: mm,
      length: optional(mm),
      passes: optional(oneOf('left', 'right')),
      fromFirst: optional(mm),
      lies,
    }),
    1,
    12,
  ),
  stops: two(object<MeasuredBanjo['stops'][number]>({ toStud: mm, lies })),
  collars: optional(list(mm, 0, 20)),
  air: optional(number(0, 50)),
})

/** Along and offset from the distances to the pivot: near^2 = from^2 + offset^2, far^2 = to^2 + offset^2, to - from = length. */
function alongAndOffset(r: Reader, slot: MeasuredSlot, path: string): Slot | undefined {
  const { near, far, passes = 'left' } = slot
  if (near > far) return r.refuse(`${path}.near`, 'near-far')
  const length = slot.length ?? far - near
  if (length < far - near - SLIP || length > far + near) return r.refuse(`${path}.length`, 'slot-length')
  if (length === 0) return { offset: 0, from: near, to: far }
  const from = ((far - near) * (far + near) - length * length) / (2 * length)
  if (from < -SLIP) return r.refuse(`${path}.length`, 'slot-length')
  const aside = Math.sqrt(Math.max(0, (near - from) * (near + from)))
  const along = Math.max(0, from)
  return {
    offset: nanometre(passes === 'left' ? aside : -aside),
    from: nanometre(along),
    to: nanometre(along + length),
  }
}

/**
 * The banjo from what rule and calipers tell: along and offset of each slot, the angles between slots, the swing in
 * degrees, the shaft clearance.
 * @throws WorkshopError naming every measure that cannot be: distances that close no triangle, ends the wrong way round.
 */
export function measureBanjo(measured: MeasuredBanjo): BanjoFromMeasures {
  const r = new Reader()
  const m = measure(r, measured, '')
  if (!m) throw new WorkshopError(r.problems)
  const lines = m.slots.map((slot, i) => alongAndOffset(r, slot, `slots[${i}]`))
  const first = lines[0]
  const slots = lines.map((line, i): Slot | undefined => {
    if (!line || !first) return undefined
    if (i === 0) return line
    const { fromFirst, lies, far } = m.slots[i]
    if (fromFirst === undefined) return r.refuse(`slots[${i}].fromFirst`, 'from-first')
    const between = corner(m.slots[0].far, far, fromFirst)
    if (between === null) return r.refuse(`slots[${i}].fromFirst`, 'no-triangle')
    const turn = bearing(first) + (lies === 'clockwise' ? -between : between) - bearing(line)
    return { ...line, angle: nanometre(turn) }
  })
  const swing = m.stops.map(({ toStud, lies }, i) => {
    const between = corner(m.slots[0].far, m.centreDistance, toStud)
    if (between === null) return r.refuse(`stops[${i}].toStud`, 'no-triangle')
    return first && nanometre((lies === 'clockwise' ? -between : between) - bearing(first))
  })
  if (r.problems.length > 0) throw new WorkshopError(r.problems)
  const [a, b] = swing as [number, number]
  const banjo: Banjo = {
    ...(m.pivot && { pivot: m.pivot }),
    swing: [Math.min(a, b), Math.max(a, b)],
    slots: slots as Slot[],
  }
  const collar = Math.max(0, ...(m.collars ?? []))
  return {
    banjo,
    centreDistance: m.centreDistance,
    ...(collar > 0 && { shaftClearance: nanometre(collar / 2 + (m.air ?? AIR)) }),
  }
}
