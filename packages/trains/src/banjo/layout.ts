import type { Layout } from '../contract.js'
import type { Standing } from './places.js'

/** Lengths are written to 1e-9 mm; adding 0 turns -0 into 0. */
export const nanometre = (mm: number): number => Math.round(mm * 1e9) / 1e9 + 0

/**
 * Writes a standing chain as a layout: from the banjo's frame into the frame with the output shaft at the origin and the
 * input shaft on the positive x axis; shafts from input to output.
 */
export function writeLayout(
  { last, farX, farY }: Standing,
  swing: number | null,
  centreDistance: number,
  pivotIsOutput: boolean,
  clearance: { mm: number; between: string } | null,
): Layout {
  const c = farX / centreDistance
  const s = farY / centreDistance
  const fixed = (x: number) => ({ x, y: 0, slot: null, along: null })
  const studs: Layout['shafts'] = []
  const centres: [number, number][] = []
  for (let place = last; place; place = place.before) {
    // Along the line from the pivot to the far shaft, and to its left.
    const along = place.x * c + place.y * s
    const left = place.y * c - place.x * s
    const x = pivotIsOutput ? along : centreDistance - along
    const y = pivotIsOutput ? left : -left
    studs.push({ x: nanometre(x), y: nanometre(y), slot: place.slot, along: nanometre(place.along) })
    centres.push([x, y])
  }
  if (!pivotIsOutput) {
    studs.reverse()
    centres.reverse()
  }
  const all: [number, number][] = [[centreDistance, 0], ...centres, [0, 0]]
  const meshes = all.slice(1).map(([x, y], i): Layout['meshes'][number] => {
    const dx = x - all[i][0]
    const dy = y - all[i][1]
    return { between: [i, i + 1], centreDistance: nanometre(Math.sqrt(dx * dx + dy * dy)) }
  })
  return {
    swing,
    shafts: [fixed(nanometre(centreDistance)), ...studs, fixed(0)],
    meshes,
    clearance: clearance && { mm: nanometre(clearance.mm), between: clearance.between },
  }
}
