import { BOUNDS } from './bounds.js'
import type { GearRef } from './contract.js'
import { number, object, oneOf, optional, positive, whole } from './reader.js'

/** Readers of what workshops, questions and set-ups have in common. */

export const teeth = whole(BOUNDS.leastTeeth, BOUNDS.mostTeeth)
export const gearModule = optional(positive(BOUNDS.module))
export const pressureAngle = optional(number(5, 45))
export const dp = optional(positive(1000))
export const hand = optional(oneOf('right', 'left'))

export const gearRef = object<GearRef>({ teeth, module: gearModule, pressureAngle })
