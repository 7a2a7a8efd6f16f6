import {
  compare,
  divide,
  exactly,
  multiply,
  type Pitch,
  parseLength,
  parsePitch,
  parseRatio,
  type Rational,
  rational,
  toNumber,
} from '@trainwright/measures'
import type { FixedDrive, Hand, Lathe, ThreadWanted } from '../contract.js'

/** One position of drive and gearbox. */
export interface Setting {
  drive: number
  gearbox: number
  /** Drive ratio x gearbox ratio. */
  ratio: Rational
  reverses: boolean
  plainBelt: boolean
}

/** Settings of one fixed ratio: the search sees them as one, and takes the lowest of each turning sense. */
export interface FixedRatio {
  ratio: Rational
  /** By number of meshes modulo 2: the lowest setting that cuts the wanted hand with it, or -1. */
  setting: [number, number]
  /** Lead for one turn of train ratio 1, over the wanted lead, as a fraction and as a double. */
  n: bigint
  d: bigint
  value: number
  /** Lead in mm for one turn of train ratio 1. */
  leadN: bigint
  leadD: bigint
}

/** A thread on a lathe, in the exact terms of the search. */
export interface Question {
  settings: Setting[]
  ratios: FixedRatio[]
  leadscrew: Pitch
  /** mm: pitch x starts. */
  wantedLead: Rational
  tolerance: Rational
  approximate: boolean
}

export const DEFAULT_TOLERANCE_PPM = 500
const plainDrive: readonly FixedDrive[] = [{ ratio: 1 }]

/** Every drive with every gearbox position, in the order of their indices. */
export function settingsOf(lathe: Lathe): Setting[] {
  return (lathe.drives ?? plainDrive).flatMap((a, drive) =>
    (lathe.gearbox ?? plainDrive).map((b, gearbox) => ({
      drive,
      gearbox,
      ratio: multiply(parseRatio(a.ratio), parseRatio(b.ratio)),
      reverses: Boolean(a.reverses) !== Boolean(b.reverses),
      plainBelt: a.belt === 'plain' || b.belt === 'plain',
    })),
  )
}

/**
 * The hand cut with so many meshes: every external mesh reverses, so does a setting that says so; spindle and leadscrew
 * turning alike with a right-hand leadscrew cut a right-hand thread.
 */
export function handOf(lathe: Lathe, setting: Setting, meshes: number): Hand {
  const alike = (meshes % 2 === 0) !== setting.reverses
  return alike === (lathe.leadscrew.hand !== 'left') ? 'right' : 'left'
}

/** The tolerance as an exact fraction of the lead. */
export function toleranceOf({ tolerance }: ThreadWanted): Rational {
  if (tolerance === undefined) return rational(DEFAULT_TOLERANCE_PPM, 1_000_000)
  if ('ppm' in tolerance) return divide(exactly(tolerance.ppm), rational(1_000_000))
  return divide(parseLength(tolerance.error).mm, parseLength(tolerance.over).mm)
}

/** @param anyHand take the hand that comes: used to measure what the wanted hand costs */
export function makeQuestion(lathe: Lathe, wanted: ThreadWanted, anyHand = false): Question {
  const settings = settingsOf(lathe)
  const leadscrew = parsePitch(lathe.leadscrew.pitch)
  const pitch = parsePitch(wanted.pitch)
  const wantedLead = multiply(pitch.mm, rational(wanted.starts ?? 1))
  const perTurn = divide(leadscrew.mm, wantedLead)
  const hand = wanted.hand ?? 'right'
  const ratios: FixedRatio[] = []
  settings.forEach((setting, index) => {
    let same = ratios.find((r) => compare(r.ratio, setting.ratio) === 0)
    if (!same) {
      const base = multiply(perTurn, setting.ratio)
      const lead = multiply(leadscrew.mm, setting.ratio)
      same = {
        ratio: setting.ratio,
        setting: [-1, -1],
        n: BigInt(base.n),
        d: BigInt(base.d),
        value: toNumber(base),
        leadN: BigInt(lead.n),
        leadD: BigInt(lead.d),
      }
      ratios.push(same)
    }
    for (const parity of [0, 1] as const) {
      const cuts = anyHand || handOf(lathe, setting, parity) === hand
      if (cuts && same.setting[parity] < 0) same.setting[parity] = index
    }
  })
  const approximate = leadscrew.approximate || pitch.approximate
  return { settings, ratios, leadscrew, wantedLead, tolerance: toleranceOf(wanted), approximate }
}
