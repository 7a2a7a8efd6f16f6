/** Every refusal of this package: what is wrong and the way out. */
const sentences = {
  object: () => 'An object with named values is needed.',
  number: (least: number, most: number) => `A number above ${least} and at most ${most} is needed.`,
  whole: (least: number, most: number) => `A whole number from ${least + 1} to ${most} is needed.`,
  choice: (known: readonly string[]) => `This is not known here; take one of ${known.join(', ')}.`,
  tolerance: () => "Give { ppm } from 0 to under 1000000, or { error, over } such as '0.005 mm' over '10 mm'.",
  mounted: () => 'A list of gears such as [{ teeth: 40 }, { teeth: 63, module: 1 }] is needed.',
  'class-or-allowance': () => 'A class says what an allowance would: give one of them.',
  'class-type': () => "A class is text such as '6g', '6H' or 'normal'.",
  'no-class': () => 'No classes are kept for this form: give an allowance in mm on the effective diameter.',
  'not-numbered': () =>
    'Pitch and diameter are those of no BA number: give an allowance in mm on the effective diameter.',
  'class-of-screw': () => 'This class is one of screws, and a nut is cut: its letter is a capital, such as 6H.',
  'class-of-nut': () => 'This class is one of nuts, and a screw is cut: its letter is small, such as 6g.',
  'crest-of-nut': () => 'A nut is bored, it has no crests to be left sharp: leave this out.',
  'no-train': () => 'A train as findTrains gives it is needed.',
  'other-lathe': () => 'This lathe does not cut that lead and hand with this train: search again for it.',
  'other-thread': () => 'This train was sought for another thread: search again for this one.',
} as const satisfies Record<string, (...data: never[]) => string>

export type Code = keyof typeof sentences
export type Data<C extends Code> = Parameters<(typeof sentences)[C]>
export const sentence = <C extends Code>(code: C, ...data: Data<C>): string =>
  (sentences[code] as (...data: Data<C>) => string)(...data)
