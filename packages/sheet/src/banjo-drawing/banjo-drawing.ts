import type { Banjo, Slot } from '@trainwright/trains'
import { type DrawnSlot, pivotOf, plateOf, slotsOf } from '../banjo.js'
import type { Point } from '../chain.js'

/** How a banjo was put in: as measured with rule and calipers, or in the terms of a drawing of it. */
export type BanjoTerms = 'measured' | 'drawn'

/** A banjo, as it stands or as far as it is known, and how it was put in. */
export interface BanjoToDraw {
  banjo: Banjo
  /** mm, input shaft to output shaft, above 0. */
  centreDistance: number
  /** Swing against each stop, degrees, in the order in which they were put in; default that of the banjo. */
  stops?: readonly [number, number]
  terms: BanjoTerms
  /** What stands in each field, by its path in the banjo put in ('slots[0].near'); a field left out is still open. */
  entries: Readonly<Record<string, string>>
}

/** One line to measure along, and the field that holds it. */
export type Dimension = {
  /** Path of the field in the banjo put in: 'slots[0].near'. */
  field: string
  /** What the field is called: 'near 1'. */
  label: string
  /** As it was typed; null while the field is open. */
  entry: string | null
  /** The field may stay open. */
  optional: boolean
} & (
  | {
      /** Between two points; drawn in a lane beside them where other lines lie upon it. */
      kind: 'length'
      from: Point
      to: Point
      /** A count of lanes: 1 and 2 to the left, -1 to the right, 0 on the line. */
      lane: number
    }
  | {
      /** Round the pivot, degrees in the frame of the layout; `radius` in mm. */
      kind: 'angle'
      centre: Point
      /** Degrees. */
      from: number
      /** Degrees. */
      to: number
      /** mm. */
      radius: number
    }
)

/** A banjo to scale: mm, seen from the gear end of the lathe, output shaft at the origin, input shaft on the x axis. */
export interface BanjoDrawing {
  terms: BanjoTerms
  /** Centres, mm. */
  shafts: [output: Point, input: Point]
  pivot: Point
  pivotName: 'output' | 'input'
  /** The slots in the terms of a drawing. */
  turns: Required<Slot>[]
  /** Half way between the stops. */
  rest: BanjoPose
  /** At its two stops. */
  stops: [BanjoPose, BanjoPose]
  keepOut: { x: number; y: number; radius: number }[]
  dimensions: Dimension[]
}

export interface BanjoPose {
  /** Degrees. */
  swing: number
  plate: Point[]
  slots: DrawnSlot[]
}

const FLAT = 0.01

/** Draws a banjo with every line that a person measures to put it in. */
export function drawBanjo(q: BanjoToDraw): BanjoDrawing {
  const { banjo, centreDistance, terms, stops = banjo.swing } = q
  const pivot = pivotOf(banjo, centreDistance)
  const shafts: BanjoDrawing['shafts'] = [
    { x: 0, y: 0 },
    { x: centreDistance, y: 0 },
  ]
  const pose = (swing: number): BanjoPose => {
    const slots = slotsOf(banjo, swing, centreDistance)
    return { swing, slots, plate: plateOf(pivot, slots) }
  }
  const drawing: BanjoDrawing = {
    terms,
    shafts,
    pivot,
    pivotName: banjo.pivot ?? 'output',
    turns: banjo.slots.map((slot) => ({ angle: 0, offset: 0, ...slot })),
    rest: pose((stops[0] + stops[1]) / 2),
    stops: [pose(stops[0]), pose(stops[1])],
    keepOut: [...(banjo.keepOut ?? [])],
    dimensions: [],
  }
  const found = terms === 'measured' ? measures(drawing) : drawnTerms(drawing)
  drawing.dimensions = [...found, ...keepOuts(drawing)].map((d) => ({
    ...d,
    entry: q.entries[d.field] ?? null,
    optional: /length|offset/.test(d.field),
  }))
  return drawing
}

type Found = Dimension extends infer D ? (D extends unknown ? Omit<D, 'entry' | 'optional'> : never) : never

const length = (field: string, label: string, from: Point, to: Point, lane = 0): Found & { kind: 'length' } => ({
  kind: 'length',
  field,
  label,
  from,
  to,
  lane,
})

/** A line of no length cannot be drawn. */
const some = (found: Found & { kind: 'length' }): Found[] => (apart(found.from, found.to) > FLAT ? [found] : [])

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y)
const otherShaft = ({ shafts, pivotName }: BanjoDrawing): Point => shafts[pivotName === 'output' ? 1 : 0]

const centres = ({ shafts }: BanjoDrawing): Found => length('centreDistance', 'centres', ...shafts)

/** Distances between centres, as rule and calipers take them. */
function measures(drawing: BanjoDrawing): Found[] {
  const { pivot, rest, stops } = drawing
  const first = rest.slots[0]!.to
  return [
    centres(drawing),
    ...rest.slots.flatMap(({ number, from, to }, i) => [
      ...some(length(`slots[${i}].near`, `near ${number}`, pivot, from, 1)),
      ...some(length(`slots[${i}].far`, `far ${number}`, pivot, to, 2)),
      ...some(length(`slots[${i}].length`, `length ${number}`, from, to, -1)),
      ...(i > 0 ? some(length(`slots[${i}].fromFirst`, `between ${number}`, first, to)) : []),
    ]),
    ...stops.flatMap(({ slots }, i) =>
      some(length(`stops[${i}].toStud`, `stop ${i + 1}`, otherShaft(drawing), slots[0]!.to)),
    ),
  ]
}

const bearing = (from: Point, to: Point): number => (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI

/** Along, offset and angles, as a drawing gives them. */
function drawnTerms(drawing: BanjoDrawing): Found[] {
  const { pivot, rest, stops, shafts, turns } = drawing
  const line = bearing(pivot, otherShaft(drawing))
  const reach = apart(...shafts)
  const angle = (field: string, label: string, from: number, to: number, part: number): Found => ({
    kind: 'angle',
    field,
    label,
    centre: pivot,
    from,
    to,
    radius: reach * part,
  })
  return [
    centres(drawing),
    ...turns.flatMap(({ angle: turn, offset, from: near, to: far }, i): Found[] => {
      const { number } = rest.slots[i]!
      const direction = line + rest.swing + turn
      const [s, c] = [Math.sin((direction * Math.PI) / 180), Math.cos((direction * Math.PI) / 180)]
      const at = (along: number): Point => ({
        x: pivot.x + along * c - offset * s,
        y: pivot.y + along * s + offset * c,
      })
      const path = `slots[${i}]`
      return [
        ...some(length(`${path}.from`, `from ${number}`, at(0), at(near), 1)),
        ...some(length(`${path}.to`, `to ${number}`, at(0), at(far), 2)),
        ...some(length(`${path}.offset`, `offset ${number}`, pivot, at(0))),
        ...(i > 0 ? [angle(`${path}.angle`, `angle ${number}`, line + rest.swing, direction, 0.36 + 0.1 * i)] : []),
      ]
    }),
    ...stops.map(({ swing }, i) => angle(`swing[${i}]`, `swing ${i + 1}`, line, line + swing, 0.7 + 0.12 * i)),
  ]
}

const keepOuts = ({ keepOut }: BanjoDrawing): Found[] =>
  keepOut.flatMap(({ x, y, radius }, i) => {
    const foot: Point = { x, y: 0 }
    const rim: Point = { x: x + radius * Math.SQRT1_2, y: y + radius * Math.SQRT1_2 }
    const path = `keepOut[${i}]`
    return [
      ...some(length(`${path}.x`, `x ${i + 1}`, { x: 0, y: 0 }, foot)),
      ...some(length(`${path}.y`, `y ${i + 1}`, foot, { x, y })),
      ...some(length(`${path}.radius`, `radius ${i + 1}`, { x, y }, rim)),
    ]
  })
