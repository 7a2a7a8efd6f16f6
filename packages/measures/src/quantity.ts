import { type Expected, type Reason, sentence } from './messages.js'
import { exactly, LONGEST_TEXT, readNumber, tidy } from './number-text.js'
import { InputError } from './problems.js'
import { compare, type Rational } from './rational.js'

/** What a measure accepts: its units by spelling, the unit when none is written, and the range in that reading. */
export interface Grammar<Unit extends string> {
  what: Expected
  units: Readonly<Record<string, Unit>>
  bare: Unit
}

export interface Quantity<Unit extends string> {
  unit: Unit
  value: Rational
}

/** Throws the one InputError of this package. */
function refuse(what: Expected, reason: Reason, given: unknown, path: string, detail?: string): never {
  throw new InputError([{ path, code: reason, message: sentence(what, reason, given, detail) }])
}

const aboveZero = (value: Rational, what: Expected, given: unknown, path: string): Rational =>
  value.n === '0' ? refuse(what, 'zero', given, path) : value

const spelt = (unit: string): string => unit.toLowerCase().replace(/[. ]/g, '')

export const millimetres = {
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
} as const
export const inches = { in: 'in', inch: 'in', inches: 'in', '"': 'in' } as const

/**
 * Splits text into a number above zero and a unit: `4 1/2 tpi`, `3/8"`, `module 0.5`. A finite number is the decimal
 * that it prints.
 */
export function readQuantity<Unit extends string>(
  given: unknown,
  grammar: Grammar<Unit>,
  path: string,
): Quantity<Unit> {
  const { what, units, bare } = grammar
  if (given === undefined || given === null) refuse(what, 'missing', '', path)
  if (typeof given === 'number') {
    if (!Number.isFinite(given)) refuse(what, 'not-a-number', given, path)
    if (given < 0) refuse(what, 'negative', given, path)
    return { unit: bare, value: aboveZero(exactly(given), what, given, path) }
  }
  if (typeof given !== 'string') refuse(what, 'not-text', given, path)
  if (given.length > LONGEST_TEXT) refuse(what, 'too-long', given, path)
  const text = tidy(given)
  if (text === '') refuse(what, 'missing', given, path)
  const parts = /^([^a-z"μ]*)([a-z"μ][a-z". μ]*)$/i.exec(text)
  const reversed = parts ? null : /^([a-z][a-z. ]*?) ?([\d.,][^a-z"]*)$/i.exec(text)
  const number = (parts?.[1] ?? reversed?.[2] ?? text).trim()
  const written = parts?.[2] ?? reversed?.[1]
  const value = readNumber(number)
  if (typeof value === 'string') {
    // An exponent holds a letter, so it looks like a unit; tell it apart before blaming the number.
    return refuse(what, /^[+-]?[\d.,]+ ?e ?[-+]?\d/i.test(text) ? 'exponent' : value, given, path)
  }
  const key = written === undefined ? undefined : spelt(written)
  const unit = key === undefined ? bare : Object.hasOwn(units, key) ? units[key] : undefined
  if (unit === undefined) refuse(what, 'unit', given, path, written)
  return { unit, value: aboveZero(value, what, given, path) }
}

/** Refuses what is not within `least` to `most`, both included. */
export function within(
  value: Rational,
  [least, most]: readonly [Rational, Rational],
  what: Expected,
  given: unknown,
  path: string,
  range: string,
): void {
  if (compare(value, least) < 0 || compare(value, most) > 0) refuse(what, 'range', given, path, range)
}
