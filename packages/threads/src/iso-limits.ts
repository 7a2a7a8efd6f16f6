import type { PitchText } from '@trainwright/measures'
import { Checks } from './checks.js'
import { diameterSteps, gradesAt, pitchRows, toleranceAt } from './grades.js'
import { rounded } from './rounding.js'

/** A metric thread and its tolerance class. */
export interface LimitsQuestion {
  /** Nominal, mm, 1 to 355. */
  diameter: number
  /** mm as a number, or as text; one that is published from this diameter. */
  pitch: PitchText | number
  /** '6g', '4h', '5g6g' for screws; '6H', '5H', '4H5H' for nuts. */
  class: string
}
/** [least, greatest], mm. */
export interface Limits {
  major: [number, number]
  effective: [number, number]
  minor: [number, number]
}

const root3 = Math.sqrt(3)
const nearest = (all: readonly number[], to: number): number =>
  all.reduce((best, x) => (Math.abs(x - to) < Math.abs(best - to) ? x : best), all[0])

/**
 * Limits of size of an ISO metric thread by the tables of ISO 965-1: fundamental deviations e, f, g, h and G, H;
 * tolerances of crest and effective diameter. The minor diameter of a screw runs from a root of radius P/8 under the least
 * effective diameter to a flat root under the greatest; the major diameter of a nut up to its greatest effective
 * diameter + 0.793857 P (formulas of Machinery's Handbook, 27th ed., p. 1794).
 * @throws InputError for a class that is not written so or does not exist at this pitch (naming the nearest that does), a
 * pitch for which nothing is published at this diameter (naming the nearest), or a diameter outside the tables.
 */
export function isoLimits(q: LimitsQuestion): Limits {
  const ask = new Checks(q)
  const p = ask.mm('pitch')
  const d = ask.number('diameter', 1, 355)
  const parsed = /^\s*(\d)\s*([efghGH])\s*(?:(\d)\s*\2)?\s*$/.exec(String(q.class))
  if (!parsed) ask.say('class', 'class')
  const td2s = diameterSteps.find(({ upTo }) => d <= upTo)?.td2 ?? new Map<number, number>()
  const pitches = [...td2s.keys()]
  const pitch = nearest(pitches, p)
  if (Math.abs(pitch - p) > 1e-9) ask.say('pitch', 'step-pitch', pitches, pitch)
  ask.done()

  const [, first, letter, second = first] = parsed as RegExpExecArray
  const position = letter.toLowerCase() as 'h' | 'g' | 'f' | 'e'
  const nut = letter !== position

  const [, g, f, e, td, td1] = pitchRows.find(([at]) => at === pitch) as readonly number[]
  const deviation = { h: 0, g, f, e }[position] as number
  const exists = position === 'h' || deviation > 0
  const asked = [Number(first), Number(second)]
  const ofEffective = nut ? 'tD2' : 'td2'
  const ofCrest = nut ? 'td1' : 'td'
  const effectiveGrade = nearest(gradesAt(ofEffective, pitch), asked[0])
  // Of two equally near, the one nearer to 6, the usual: 5g6g, 7g6g.
  const crestGrade = nearest(gradesAt(ofCrest, pitch), asked[1] + (6 - asked[1]) / 9)
  if (!exists || effectiveGrade !== asked[0] || crestGrade !== asked[1]) {
    const to = exists ? letter : 'g'
    ask.say('class', 'grade', (effectiveGrade === crestGrade ? '' : `${effectiveGrade}${to}`) + crestGrade + to)
  }
  ask.done()

  const away = deviation / 1000
  const onEffective = toleranceAt(ofEffective, td2s.get(pitch) as number, effectiveGrade) / 1000
  const onCrest = toleranceAt(ofCrest, nut ? td1 : td, crestGrade) / 1000
  // H/24, H the height of the sharp triangle.
  const part = (root3 * pitch) / 48
  const major = d + (nut ? away : -away)
  const effective = major - 18 * part
  if (nut) {
    const minor = major - 30 * part
    const greatest = effective + onEffective
    return rounded<Limits>({
      major: [major, greatest + 22 * part],
      effective: [effective, greatest],
      minor: [minor, minor + onCrest],
    })
  }
  const least = effective - onEffective
  return rounded<Limits>({
    major: [major - onCrest, major],
    effective: [least, effective],
    // H/2 to a flat root; with a root of radius P/8, another P/4 less deep than the sharp triangle: H - P/4.
    minor: [least - 24 * part + pitch / 4, effective - 12 * part],
  })
}
