import type { Checks } from './checks.js'
import { cot, radians } from './rounding.js'

/** The forms that have a name; `forms` holds each with its standard. */
export type FormName =
  | 'metric'
  | 'unified'
  | 'whitworth'
  | 'ba'
  | 'trapezoidal'
  | 'acme'
  | 'loewenherz'
  | 'square'
  | 'sharp-v'

/** A form of the owner's own, symmetrical, with flat crest and root; the nut is its mirror image. */
export interface OwnForm {
  /** Included angle, degrees, 5 to 150. */
  angle: number
  /** Truncation at the crest as a fraction of the sharp height, 0 to 0.499. */
  crest: number
  /** Truncation at the root as a fraction of the sharp height, 0 to 0.499. */
  root: number
}
/** A form by its name, or the owner's own. */
export type Form = FormName | OwnForm

/** A form as data. Heights are measured from the effective line, in pitches. */
export interface FormInfo {
  /** The standard that gives the form. */
  standard: string
  /** Included angle, degrees. */
  angle: number
  /** From the effective line out to the screw's crest, in pitches. */
  addendum: number
  /** From the effective line in to the screw's root, in pitches. */
  dedendum: number
  /** From the effective line in to the nut's crest, in pitches. */
  nutDedendum: number
  /** Crest and root are round, tangent to the flanks. */
  rounded?: true
  /** Clearance at the roots of screw and nut: [up to this pitch, mm], the last for all above. */
  clearance?: readonly (readonly [number, number])[]
}

const sixty = Math.sqrt(3) / 2
const whitworth = cot(radians(27.5)) / 6
const even = (standard: string, angle: number, half: number): FormInfo => ({
  standard,
  angle,
  addendum: half,
  dedendum: half,
  nutDedendum: half,
})
// Root H/6 round, its bottom 17/24 H below the crest: d3 = d - 1.22687 p; the nut's crest H/4 below the effective line.
const iso = (standard: string): FormInfo => ({
  standard,
  angle: 60,
  addendum: (sixty * 3) / 8,
  dedendum: sixty / 3,
  nutDedendum: sixty / 4,
})

/** The forms that have a name, as data. */
export const forms: Readonly<Record<FormName, FormInfo>> = {
  metric: iso('ISO 68-1'),
  unified: iso('ASME B1.1'),
  whitworth: { ...even('BS 84', 55, whitworth), rounded: true },
  ba: { ...even('BS 93', 47.5, 0.3), rounded: true },
  // Clearances of ISO 2901 and ASME B1.5 from memory; those of 1.5 to 10 mm agree with ISO 2904's diameters.
  trapezoidal: {
    ...even('ISO 2901', 30, 0.25),
    clearance: [
      [1.5, 0.15],
      [5, 0.25],
      [12, 0.5],
      [44, 1],
    ],
  },
  acme: {
    ...even('ASME B1.5', 29, 0.25),
    clearance: [
      [2.5399, 0.127],
      [25.4, 0.254],
    ],
  },
  loewenherz: even("Machinery's Handbook", 53 + 8 / 60, 0.375),
  // Square and sharp V as in Jones, Turning and Boring (1914).
  square: even('common practice', 0, 0.25),
  'sharp-v': even('common practice', 60, sixty / 2),
}

/** A form at one pitch: millimetres, from the effective line. */
export interface Profile {
  /** Included angle, degrees, and half of it in radians. */
  angle: number
  half: number
  /** 0 for a square thread, whose flanks never meet. */
  sharpHeight: number
  addendum: number
  dedendum: number
  nutAddendum: number
  nutDedendum: number
  /** Of crest and root where they are round, else 0. */
  radius: number
  /** How far out and in the flank runs straight. */
  flankTop: number
  flankBottom: number
}

/** The pitches of 0 to 16 BA: 0.9^n, to 0.01 mm. */
const baPitches = Array.from({ length: 17 }, (_, n) => Number((0.9 ** n).toFixed(2)))

function infoOf(form: Form, p: number, ask: Checks): FormInfo {
  // At its own pitches BS 93 gives the depth to 0.005 mm, and counts the diameters from that (Machinery's Handbook, 31st ed., p. 2115).
  if (form === 'ba' && baPitches.includes(p))
    return { ...forms.ba, ...even(forms.ba.standard, forms.ba.angle, Math.round(120 * p) / 400 / p) }
  if (typeof form === 'string' && Object.hasOwn(forms, form)) return forms[form]
  if (typeof form !== 'object' || form === null) {
    ask.say('form', 'choice', [...Object.keys(forms), 'your own { angle, crest, root }'])
    return even('', Number.NaN, Number.NaN)
  }
  const angle = ask.number('form.angle', 5, 150)
  const height = cot(radians(angle / 2)) / 2
  // At half the sharp height the flanks end on the effective line.
  const [addendum, dedendum] = ['form.crest', 'form.root'].map((end) => height * (0.5 - ask.number(end, 0, 0.499)))
  return { standard: 'own', angle, addendum, dedendum, nutDedendum: dedendum }
}

/** Reads a form and sets it out at a pitch of `p` mm. */
export function profileOf(form: Form, p: number, ask: Checks): Profile {
  const info = infoOf(form, p, ask)
  const half = radians(info.angle / 2)
  const sharpHeight = half === 0 ? 0 : (p / 2) * cot(half)
  const gaps = info.clearance ?? [[0, 0]]
  const clearance = (gaps.find(([upTo]) => p <= upTo) ?? gaps[gaps.length - 1])[1]
  const addendum = info.addendum * p
  const nutDedendum = info.nutDedendum * p
  const cosec = 1 / Math.sin(half)
  const radius = info.rounded ? (sharpHeight / 2 - addendum) / (cosec - 1) : 0
  const flankTop = info.rounded ? sharpHeight / 2 - radius * (cosec - Math.sin(half)) : addendum
  return {
    angle: info.angle,
    half,
    sharpHeight,
    addendum,
    dedendum: info.dedendum * p + clearance,
    nutAddendum: addendum + clearance,
    nutDedendum,
    radius,
    flankTop,
    flankBottom: info.rounded ? flankTop : nutDedendum,
  }
}

/** A form whose flanks slope, as wires and lead errors need it. */
export function slopingProfile(form: Form, p: number, ask: Checks): Profile {
  const profile = profileOf(form, p, ask)
  if (profile.half > 0 || Number.isNaN(profile.half)) return profile
  ask.say('form', 'no-flanks')
  return { ...profile, half: Number.NaN }
}
