import type { Length } from '@trainwright/sheet'
import type { Units } from './typed.js'

/** A length in the unit that the person reads. */
export const inUnit = ({ text, inch }: Length, units: Units): string => (units === 'inch' ? inch : text)

/** '5.212 mm (0.2052 in)', '3.1 µm long over 25 mm (125 µin long over 1 in)', as sentences of the sheet hold lengths. */
const BOTH = /((?:under )?[−+]?[\d.]+ [mµ]m(?: \w+ over 25 mm)?) \(((?:under )?[−+]?[\d.]+ µ?in(?: \w+ over 1 in)?)\)/g

/** A sentence of the sheet with its lengths in one unit only. */
export const sentenceInUnit = (sentence: string, units: Units): string =>
  sentence.replace(BOTH, units === 'inch' ? '$2' : '$1')
