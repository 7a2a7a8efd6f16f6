import { type Rational, rational } from './rational.js'

/** Longer than any measure a person types; anything past it is refused unread. */
export const LONGEST_TEXT = 60

const vulgar = /[\u00bc-\u00be\u2150-\u215e]/g

/** One spelling for spaces, inch marks, fraction slashes and vulgar fractions. */
export function tidy(text: string): string {
  return text
    .replace(/[\u2033\u201c\u201d]|''|\u2032\u2032/g, '"')
    .replace(vulgar, (c) => ` ${c.normalize('NFKC').replace('\u2044', '/')} `)
    .normalize('NFKC')
    .replace(/\u2044/g, '/')
    .replace(/\s+/g, ' ')
    .trim()
}

const decimal = /^\+?(\d+(?:[.,]\d*)?|[.,]\d+)$/
const fraction = /^\+?([\d.,]+) ?\/ ?([\d.,]+)$/
const mixed = /^\+?(\d+)(?: |-| - )(\d+) ?\/ ?(\d+)$/

export type NumberFault = 'not-a-number' | 'ambiguous-comma' | 'zero-denominator' | 'negative' | 'exponent'

/** `1,250` may be a thousand and more, or one and a quarter; `0,125` and `1,25` can only be decimals. */
const ambiguousComma = /^[1-9]\d{0,2},\d{3}$/

function readDecimal(text: string): { n: bigint; d: bigint } | NumberFault {
  const found = decimal.exec(text)
  if (!found) return 'not-a-number'
  if (ambiguousComma.test(found[1])) return 'ambiguous-comma'
  const [whole, part = ''] = found[1].split(/[.,]/)
  return { n: BigInt(whole + part), d: 10n ** BigInt(part.length) }
}

/**
 * Reads `0.45`, `.45`, `0,45`, `1/8`, `25.4/26`, `4 1/2`, `4-1/2` (tidied text), exactly.
 * Returns a fault instead of throwing: the caller knows what was expected there.
 */
export function readNumber(text: string): Rational | NumberFault {
  if (/^[-\u2212]/.test(text)) return 'negative'
  if (/^\+?[\d.,]+ ?e ?[-+]?\d+$/i.test(text)) return 'exponent'
  const m = mixed.exec(text)
  if (m) {
    const d = BigInt(m[3])
    return d === 0n ? 'zero-denominator' : rational(BigInt(m[1]) * d + BigInt(m[2]), d)
  }
  const f = fraction.exec(text)
  const top = readDecimal(f ? f[1] : text)
  if (typeof top === 'string') return top
  if (!f) return rational(top.n, top.d)
  const below = readDecimal(f[2])
  if (typeof below === 'string') return below
  return below.n === 0n ? 'zero-denominator' : rational(top.n * below.d, top.d * below.n)
}

/** The decimal that a finite number prints, exponent and all, exactly. */
export function exactly(value: number): Rational {
  const [, sign, whole, part = '', exponent = '0'] = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value))!
  const n = BigInt(sign + whole + part)
  const power = Number(exponent) - part.length
  return power >= 0 ? rational(n * 10n ** BigInt(power)) : rational(n, 10n ** BigInt(-power))
}
