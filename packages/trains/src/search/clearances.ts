import type { Arrangement } from './arrangement.js'
import { type Rules, TIP_GAP } from './rules.js'

/** How much a gear has to spare, mm; negative when it fouls. */
export interface Clearance {
  mm: number
  kind: number
  /** What the gear's tip is near: another shaft, or another gear's tip. */
  near: 'shaft' | 'tip'
}

/** The tightest clearance of an arrangement without a banjo, or null when nothing can foul. */
export function tightest({ reading, idlers }: Arrangement, rules: Rules): Clearance | null {
  let worst: Clearance | null = null
  const note = (mm: number, kind: number, near: Clearance['near']) => {
    if (worst === null || mm < worst.mm) worst = { mm, kind, near }
  }
  const centre = (i: number) => rules.centre[reading[i] * rules.count + reading[i + 1]]
  let at = 0
  for (let stage = 0; stage < idlers.length; stage++) {
    const driver = at
    const driven = at + idlers[stage] + 1
    // The driven gear before this driver keeps clear of the shaft after, the driver after keeps clear of the shaft before.
    if (stage > 0) note(centre(driver) - rules.need[reading[driver - 1]], reading[driver - 1], 'shaft')
    const next = driven + 1
    if (next < reading.length) {
      note(centre(driven - 1) - rules.need[reading[next]], reading[next], 'shaft')
      if (stage > 0 && idlers[stage] === 0 && rules.pairsShareAPlane) {
        const gap = centre(driver) - rules.tip[reading[driver - 1]] - rules.tip[reading[next]] - TIP_GAP
        note(gap, reading[next], 'tip')
      }
    }
    at = next
  }
  return worst
}
