import { describe, expect, it } from 'vitest'
import { threadDimensions } from './dimensions.js'
import type { FormName } from './forms.js'
import { leadCorrection, overWires, wireSizes } from './wires.js'

/** Minimum of a function with one valley between a and b, by golden section. */
function valley(f: (x: number) => number, a: number, b: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2
  let [low, high] = [a, b]
  for (let i = 0; i < 45; i++) {
    const [x, y] = [high - ratio * (high - low), low + ratio * (high - low)]
    if (f(x) < f(y)) high = y
    else low = x
  }
  return f((low + high) / 2)
}

interface Groove {
  /** Half the included angle, radians; lead; radius at which the flanks would meet; wire. */
  half: number
  lead: number
  apex: number
  wire: number
}

/**
 * Distance from the axis of a straight wire to one flank, a true helicoid: z = lead/(2 pi) theta + (r - apex) tan(half).
 * The wire lies across the screw at x = height and leans by `lean`. The other flank is this one turned half round about
 * the x axis, and so is the wire: one flank says it for both.
 */
function flankDistance({ half, lead, apex }: Groove, height: number, lean: number): number {
  const rise = Math.tan(half)
  const at = (theta: number): number => {
    // For one theta the distance is the root of a quadratic in r: take its least value.
    const [cx, cu] = [Math.cos(theta), rise * Math.cos(lean) - Math.sin(theta) * Math.sin(lean)]
    const u0 = ((lead * theta) / (2 * Math.PI) - apex * rise) * Math.cos(lean)
    const r = (height * cx - u0 * cu) / (cx * cx + cu * cu)
    return Math.hypot(r * cx - height, r * cu + u0)
  }
  return valley(at, -0.4, 0.4)
}

/** Measurement over wires that settle as deep as they can between flat anvils: no formula, only the contact. */
function overStraightWires(groove: Groove, effective: number): number {
  const heightAt = (lean: number): number => {
    let [low, high] = [effective / 2 - groove.wire, effective / 2 + 2 * groove.wire]
    for (let i = 0; i < 45; i++) {
      const middle = (low + high) / 2
      if (flankDistance(groove, middle, lean) < groove.wire / 2) low = middle
      else high = middle
    }
    return (low + high) / 2
  }
  const along = Math.atan(groove.lead / (Math.PI * effective))
  return 2 * valley(heightAt, 0.5 * along, 1.5 * along + 0.001) + groove.wire
}

function exact(form: FormName, pitch: number, starts: number, effective: number, wire: number): number {
  const { angle, sharpHeight } = threadDimensions({ form, pitch: `${pitch}`, effective })
  const half = (angle * Math.PI) / 360
  return overStraightWires({ half, lead: pitch * starts, apex: effective / 2 - sharpHeight / 2, wire }, effective)
}

const cases: [FormName, number, number, number][] = [
  ['metric', 1, 1, 5.35],
  ['metric', 1.5, 1, 9.026],
  ['metric', 1, 3, 11.35],
  ['whitworth', 1.27, 1, 5.537],
  ['ba', 0.66, 1, 3.205],
  ['ba', 0.25, 1, 1.05],
  ['loewenherz', 0.5, 1, 2.625],
  ['trapezoidal', 2, 1, 9],
  ['acme', 2.54, 1, 11.43],
  ['acme', 2.54, 2, 22],
]

describe('the lead-angle correction against a wire lying in the true helicoid', () => {
  it.each(cases)(
    'is at most 8 in 100 too large: %s, pitch %d, %d starts, effective %d',
    (form, pitch, starts, effective) => {
      const { best } = wireSizes({ form, pitch: `${pitch}` })
      const q = { form, pitch: `${pitch}`, starts, effective, wire: best }
      const { correction, valid } = leadCorrection(q)
      expect(valid).toBe(true)
      const lifted = exact(form, pitch, starts, effective, best) - overWires(q)
      expect(lifted).toBeGreaterThan(0)
      expect(correction / lifted).toBeGreaterThan(1.01)
      expect(correction / lifted).toBeLessThan(1.08)
    },
  )

  it('needs no correction where there is no lead', () => {
    const groove = { half: Math.PI / 6, lead: 1e-9, apex: 5 - Math.sqrt(3) / 4, wire: 0.6 }
    const { effective } = threadDimensions({ form: 'metric', pitch: '1', effective: 10 })
    expect(overStraightWires(groove, effective)).toBeCloseTo(
      overWires({ form: 'metric', pitch: '1', effective, wire: 0.6 }),
      7,
    )
  })

  it('leaves less than 1 part in 10 of its error when it is used', () => {
    const { best } = wireSizes({ form: 'acme', pitch: '2.54' })
    const q = { form: 'acme', pitch: '2.54', starts: 2, effective: 22, wire: best } as const
    const true_ = exact('acme', 2.54, 2, 22, best)
    const without = Math.abs(overWires(q) - true_)
    const withIt = Math.abs(overWires({ ...q, leadCorrection: true }) - true_)
    expect(withIt).toBeLessThan(without / 10)
  })
})
