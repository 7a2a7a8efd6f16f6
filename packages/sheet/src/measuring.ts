import { leadCorrection, nearestWire, overWires, wireSizes } from '@trainwright/threads'
import type { Check } from './contract.js'
import { both, length, range, span, trace } from './figure.js'
import type { Asked } from './job.js'
import type { ThreadRead } from './limits.js'
import { GEOMETRY, PRACTICE } from './sources.js'

const WIRES = "NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2127"

/** Over the nearest wire owned. */
function wireCheck({ workshop }: Asked, { how, limits }: ThreadRead, aim: number): Check {
  const sizes = wireSizes(how)
  const best = length(sizes.best)
  const owned = nearestWire({ ...how, wires: workshop.wires ?? [] })
  if (!owned) {
    const [least, greatest] = range([sizes.least, sizes.greatest])
    const text = `No wire told touches the flanks: get three of ${span([least, greatest])}, best ${both(best)}.`
    return { code: 'no-wire', best, least, greatest, text, source: GEOMETRY }
  }
  const over = { ...how, wire: owned.wire }
  const lift = leadCorrection({ ...over, effective: aim })
  const applied = lift.matters && lift.valid
  const at = (effective: number) => overWires({ ...over, effective, leadCorrection: applied })
  const wire = length(owned.wire)
  const target = length(at(aim))
  const within = limits && range([at(limits.effective[0]), at(limits.effective[1])])
  const correction = lift.matters ? { adds: trace(lift.correction), applied } : null
  const told = correction
    ? applied
      ? ` The lead angle's ${both(correction.adds)} is in it.`
      : ` The lead angle is past the correction (it would add ${both(correction.adds)}): measure a master of the same lead beside it.`
    : ''
  return {
    code: 'wires',
    wire,
    best,
    over: target,
    limits: within,
    correction,
    text: `Over three wires of ${both(wire)} (best would be ${both(best)}): ${both(target)}${within ? `, within ${span(within)}` : ''}.${told}`,
    source: WIRES,
  }
}

/** How the thread is measured when it is cut: over wires, by its groove, or by its mate. */
export function measuringChecks(asked: Asked, read: ThreadRead, aim: number): Check[] {
  const effective = length(aim)
  const limits = read.limits && range(read.limits.effective)
  const size: Check = {
    code: 'effective',
    effective,
    limits,
    text: `Effective diameter ${both(effective)}${limits ? `, within ${span(limits)}` : ''}.`,
    source: read.limits?.source ?? GEOMETRY,
  }
  if (read.nut) {
    const text = 'Try the screw that it is for, or a gauge, before the work leaves the chuck.'
    return [{ code: 'try-mate', text, source: PRACTICE }, size]
  }
  if (read.sizes.angle === 0) {
    const text = 'No wire rests on upright flanks: measure the width of the groove, and the root by thin calipers.'
    return [{ code: 'no-flanks', text, source: PRACTICE }, size]
  }
  return [wireCheck(asked, read, aim), size]
}
