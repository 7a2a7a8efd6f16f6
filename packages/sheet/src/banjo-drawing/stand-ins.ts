import type { Banjo, MeasuredBanjo, MeasuredSlot, Slot } from '@trainwright/trains'

/** A banjo as far as it has been measured, with the units and ranges of MeasuredBanjo. */
export type RoughMeasures = Omit<Partial<MeasuredBanjo>, 'slots' | 'stops'> & {
  slots: readonly Partial<MeasuredSlot>[]
  stops: readonly Partial<MeasuredBanjo['stops'][number]>[]
}
/**
 * A banjo of a drawing as far as it is known; lengths in mm, angles in degrees, with the ranges and defaults of Banjo.
 */
export type RoughBanjo = Omit<Banjo, 'slots' | 'swing'> & {
  slots: readonly Partial<Slot>[]
  swing: readonly [number | undefined, number | undefined]
}

/** A banjo to have something to draw: as parts of the centre distance, and degrees from the line between the shafts. */
const TYPICAL = { centreDistance: 110, near: 0.36, long: 0.5, between: 38, stops: [-5, 60] } as const

/** The side of a triangle opposite the corner of `degrees` between sides a and b. */
const opposite = (a: number, b: number, degrees: number): number =>
  Math.sqrt(a * a + b * b - 2 * a * b * Math.cos((degrees * Math.PI) / 180))

/** The two ends of a slot, where one is not known or they stand the wrong way round. */
function ends(near: number | undefined, far: number | undefined, span: number): [number, number] {
  const a = near ?? Math.min(span * TYPICAL.near, (far ?? span) * 0.5)
  return [a, far !== undefined && far >= a ? far : a + span * TYPICAL.long]
}

/**
 * Fills up what has not been measured yet with a banjo of a usual size that agrees with what has, so that a drawing can
 * show what to measure. Never for an answer.
 */
export function standInMeasures(rough: RoughMeasures): MeasuredBanjo {
  const { centreDistance = TYPICAL.centreDistance } = rough
  const far: number[] = []
  const slots = rough.slots.map((slot, i): MeasuredSlot => {
    const [near, end] = ends(slot.near, slot.far, centreDistance)
    far.push(end)
    const fromFirst = slot.fromFirst ?? opposite(far[0]!, end, TYPICAL.between * i)
    return { ...slot, near, far: end, ...(i > 0 && { fromFirst }) }
  })
  const stops = TYPICAL.stops.map((degrees, i) => ({
    lies: degrees < 0 ? ('clockwise' as const) : ('anticlockwise' as const),
    ...rough.stops[i],
    toStud: rough.stops[i]?.toStud ?? opposite(far[0]!, centreDistance, degrees),
  }))
  return { ...rough, centreDistance, slots, stops: stops as unknown as MeasuredBanjo['stops'] }
}

/** The same for a banjo in the terms of a drawing, over a centre distance in mm. */
export function standInBanjo(
  rough: RoughBanjo,
  centreDistance: number = TYPICAL.centreDistance,
): { banjo: Banjo; centreDistance: number } {
  const turn = (x: number | undefined): number | undefined => (Math.abs(x ?? Number.NaN) <= 360 ? x : undefined)
  const least = turn(rough.swing[0]) ?? TYPICAL.stops[0]
  const greatest = turn(rough.swing[1]) ?? TYPICAL.stops[1]
  const slots = rough.slots.map((slot, i) => {
    const [from, to] = ends(slot.from, slot.to, centreDistance)
    return { offset: 0, ...slot, angle: turn(slot.angle) ?? TYPICAL.between * i, from, to }
  })
  return { banjo: { ...rough, swing: [least, Math.max(least, greatest)], slots }, centreDistance }
}
