import type { Length } from '@trainwright/sheet'
import type { Units } from './typed.js'

/** A length in the unit that the person reads. */
export const inUnit = ({ text, inch }: Length, units: Units): string => (units === 'inch' ? inch : text)

/** '5.212 mm (0.2052 in)', as sentences of the sheet hold lengths. */
const BOTH = /([−+]?[\d.]+ (?:mm|µm)) \(([−+]?[\d.]+ in)\)/g

/** A sentence of the sheet with its lengths in one unit only. */
export const sentenceInUnit = (sentence: string, units: Units): string =>
  sentence.replace(BOTH, units === 'inch' ? '$2' : '$1')
