import type { Banjo, Layout, Stage } from '@trainwright/trains'
import fc from 'fast-check'

/** A banjo whose studs were set anywhere in its slots, and the gears that mesh from shaft to shaft there. */
export interface StudsInSlots {
  banjo: Banjo
  centreDistance: number
  /** Where all stands: input shaft, studs, output shaft. */
  planted: Pick<Layout, 'shafts' | 'meshes'> & { swing: number }
  /** One a mesh: 30 teeth on both sides, of whatever module makes the two meet. */
  stages: Stage[]
}

const slot = fc.record({
  angle: fc.integer({ min: -90, max: 90 }),
  offset: fc.integer({ min: -20, max: 20 }),
  from: fc.integer({ min: 10, max: 60 }),
  length: fc.integer({ min: 1, max: 60 }),
})
const stud = fc.record({ slot: fc.nat(1), place: fc.integer({ min: 0, max: 16 }) })

export const studsInSlots: fc.Arbitrary<StudsInSlots> = fc
  .record({
    measured: fc.array(slot, { minLength: 2, maxLength: 2 }),
    studs: fc.array(stud, { minLength: 1, maxLength: 3 }),
    swing: fc.integer({ min: -80, max: 80 }),
    pivot: fc.constantFrom(undefined, 'output' as const, 'input' as const),
    centreDistance: fc.integer({ min: 60, max: 120 }),
  })
  .map(({ measured, studs, swing, pivot, centreDistance }) => {
    const slots = measured.map(({ length, ...rest }) => ({ ...rest, to: rest.from + length }))
    const banjo: Banjo = { ...(pivot && { pivot }), swing: [-90, 90], slots }
    const atInput = pivot === 'input'
    const set = studs.map(({ slot, place }) => {
      const { angle, offset, from, to } = slots[slot]
      const along = from + ((to - from) * place) / 16
      const turn = ((angle + swing + (atInput ? 180 : 0)) * Math.PI) / 180
      const x = along * Math.cos(turn) - offset * Math.sin(turn) + (atInput ? centreDistance : 0)
      return { x, y: along * Math.sin(turn) + offset * Math.cos(turn), slot, along }
    })
    const fixed = { y: 0, slot: null, along: null }
    const shafts = [{ x: centreDistance, ...fixed }, ...set, { x: 0, ...fixed }]
    const meshes = shafts.slice(1).map(({ x, y }, i) => ({
      between: [i, i + 1] as [number, number],
      centreDistance: Math.hypot(x - shafts[i].x, y - shafts[i].y),
    }))
    const stages = meshes.map((mesh) => {
      const gear = { teeth: 30, module: mesh.centreDistance / 30, pressureAngle: 20 }
      return { driver: gear, idlers: [], driven: gear }
    })
    return { banjo, centreDistance, planted: { swing, shafts, meshes }, stages }
  })
  .filter(({ planted }) => planted.meshes.every((mesh) => mesh.centreDistance > 1))
