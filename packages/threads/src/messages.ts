/** Every sentence of this package: what was expected, with the nearest that would work. */
const short = (x: number): number => Number(x.toPrecision(5))
const mm = (x: number): string => `${short(x)} mm`
interface Sizes {
  least: number
  greatest: number
  best: number
}
const wrong = (fault: string, { least, greatest, best }: Sizes): string =>
  `This wire is too ${fault} the crests; take ${mm(least)} to ${mm(greatest)}, best ${mm(best)}.`

const problems = {
  missing: () => 'An object with the question is needed.',
  number: (kind: string, least: number, most: number) =>
    `A ${kind}number from ${short(least)} to ${short(most)} is needed.`,
  choice: (known: readonly (string | boolean)[]) => `Not known here; take one of ${known.join(', ')}.`,
  one: (paths: readonly string[]) => `Give one of ${paths.join(' and ')}.`,
  core: (root: number, least: number) =>
    `The diameters cross: the root stands at ${mm(root)}; more than ${mm(least)} is needed.`,
  'no-flanks': () => 'This form has no sloping flanks that serve; measure its groove.',
  'wire-thin': (sizes: Sizes) => wrong('thin and sinks below', sizes),
  'wire-thick': (sizes: Sizes) => wrong('thick and rides on', sizes),
  'lead-angle': (angle: number, limit: number, effective: number) =>
    `The lead angle is ${angle.toFixed(2)}°; the correction holds to ${limit}°, from ${mm(effective)} effective diameter on.`,
  class: () => 'A class is written like 6g, 4h, 5g6g for a screw, 6H, 4H5H for a nut.',
  grade: (nearest: string) => `No such class at this pitch; the nearest is ${nearest}.`,
  'step-pitch': (pitches: readonly number[], nearest: number) =>
    `Published at this diameter: ${pitches.join(', ')} mm; the nearest is ${mm(nearest)}.`,
  measurement: () => 'Measure at least one of major, effective, pitch and angle.',
} as const
export type Code = keyof typeof problems
export type Data<C extends Code> = Parameters<(typeof problems)[C]>
export const sentence = <C extends Code>(code: C, ...data: Data<C>): string =>
  (problems[code] as (...data: Data<C>) => string)(...data)

const verdicts = {
  negligible: 'nobody will find it',
  fits: 'it fits if the rest is cut with care',
  tight: 'cut the effective diameter near its least',
  'will-not-fit': 'it binds; find a closer train or engage less thread',
}
export type VerdictCode = keyof typeof verdicts
export const verdictSentence = (code: VerdictCode, share: number): string =>
  `The lead error eats ${Number((share * 100).toPrecision(2))} % of the tolerance of the effective diameter: ${verdicts[code]}.`

/** The sentence for the names of the threads that fit, likeliest first. */
export const recognitionSentence = (names: readonly string[]): string =>
  names.length > 0 ? `This may be ${names.join(', or ')}.` : 'No published thread fits: treat it as your own.'

const cautions = {
  flanks: 'The second flank is only rubbed: finish with a light cut straight in.',
  'nut-crest': "This nose is broader than the form's root: the crests of a standard nut will foul.",
  tap: "A hard tap shatters: protect your eyes, turn it by hand, back it off often; harden it by the steel maker's own sheet.",
}
/** What there is to mind about a cut or a tap. */
export type CautionCode = keyof typeof cautions
/** Something to mind: a code and a sentence. */
export interface Caution {
  code: CautionCode
  message: string
}
export const caution = (code: CautionCode): Caution => ({ code, message: cautions[code] })
