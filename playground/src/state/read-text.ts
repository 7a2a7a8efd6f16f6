import { gather, type Problem, parseLength, parsePitch, toNumber } from '@trainwright/measures'

/** Decimals, as people type them and as numbers print: not 0x10, which would be 16 teeth. */
const decimal = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?$/i

/** NaN for what is no number, so that whoever checks it says where. */
export const number = (text: string): number => (decimal.test(text.trim()) ? Number(text) : Number.NaN)

/** Leaves out what was left blank, so that the default holds. */
export const given = <K extends string, V>(
  key: K,
  text: string,
  read: (text: string) => V | undefined,
): { [P in K]?: V } => {
  const value = text.trim() === '' ? undefined : read(text)
  return (value === undefined ? {} : { [key]: value }) as { [P in K]?: V }
}

/** Millimetres from any length that a person types. */
export const millimetres =
  (problems: Problem[], path: string) =>
  (text: string): number | undefined => {
    const length = gather(problems, () => parseLength(text, path))
    return length && toNumber(length.mm)
  }

/** A length is more than nothing, but a clearance may be 0. */
export const zeroOr = (read: (text: string) => number | undefined) => (text: string) =>
  number(text) === 0 ? 0 : read(text)

/** '45 80, 150': numbers, what is none as NaN. */
export const numbers = (text: string): number[] => text.split(/[\s,;]+/).flatMap((word) => (word ? [number(word)] : []))

/** A pitch with its unit: a bare number is millimetres, and whoever reads it again should not have to know that. */
export const withUnit = (pitch: string): string =>
  gather([], () => parsePitch(`${pitch} mm`)) ? `${pitch.trim()} mm` : pitch

/** '0.3 0.018 in, 0.5 mm': the lengths of a list, units where they are written. */
export const lengthTexts = (text: string): string[] =>
  text.match(/[^\s,;]+(\s*(mm|inch|in|thou|")(?![^\s,;]))?/gi) ?? []
