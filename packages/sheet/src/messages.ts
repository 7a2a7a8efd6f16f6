/** Every refusal of this package: what is wrong and the way out. */
const allowance = 'give an allowance in mm on the effective diameter.'
const again = 'search again for it.'

const sentences = {
  object: () => 'An object is needed.',
  number: (kind: string, least: number, most: number) => `A ${kind}number from ${least} to ${most} is needed.`,
  choice: (known: readonly string[]) => `Not known here; take one of ${known.join(', ')}.`,
  tolerance: () => 'Give ppm from 0 to under 1000000, or an error over a longer length, such as 0.005 mm over 10 mm.',
  mounted: () => 'A list of gears such as [{ teeth: 40 }] is needed.',
  'class-or-allowance': () => 'Give a class or an allowance, not both.',
  'no-class': () => `This form has no classes here: ${allowance}`,
  'not-published': () => `This is the pitch and diameter of no published thread: ${allowance}`,
  'wrong-class': (part: string, example: string) => `A ${part} is cut: take one of its classes, such as ${example}.`,
  'crest-of-nut': () => 'A nut is bored: it has no crests to be left sharp.',
  'no-train': () => 'A train from findTrains is needed.',
  'other-lathe': () => `This lathe does not cut that lead and hand with this train: ${again}`,
  'other-thread': () => `This train was sought for another thread: ${again}`,
} as const satisfies Record<string, (...data: never[]) => string>

export type Code = keyof typeof sentences
export type Data<C extends Code> = Parameters<(typeof sentences)[C]>
export const sentence = <C extends Code>(code: C, ...data: Data<C>): string =>
  (sentences[code] as (...data: Data<C>) => string)(...data)
