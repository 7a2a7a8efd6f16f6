import { type Rational, rational } from './rational.js'

/** Longer than any measure a person types; anything past it is refused unread. */
export const LONGEST_TEXT = 60

// Fractions in one sign, full-width forms and squared units such as ㎜. Not raised or lowered digits: 4² is not 42.
const compatible = /[\u00bc-\u00be\u2150-\u215f\u2189\uff01-\uff5e\u3380-\u33df]/g

/** One spelling for spaces, inch marks, fraction slashes and signs that stand for several letters or digits. */
export function tidy(text: string): string {
  return text
    .replace(compatible, (c) => {
      const plain = c.normalize('NFKC')
      return plain.includes('\u2044') ? ` ${plain} ` : plain
    })
    .replace(/[\u2033\u201c\u201d]|(['\u2032\u2019])\1/g, '"')
    .replace(/\u00b5/g, '\u03bc')
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/\s+/g, ' ')
    .trim()
}

const decimal = /^\+?(\d+(?:[.,]\d*)?|[.,]\d+)$/
const fraction = /^\+?([\d.,]+) ?\/ ?([\d.,]+)$/
const mixed = /^\+?(\d+)(?: |-| - )(\d+) ?\/ ?(\d+)$/

export type NumberFault = 'not-a-number' | 'ambiguous-comma' | 'zero-denominator' | 'improper-mixed' | 'negative'

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
  const m = mixed.exec(text)
  if (m) {
    const [whole, n, d] = m.slice(1).map(BigInt)
    if (d === 0n) return 'zero-denominator'
    // `1 250/4` is rather a thousand and more, parted by a space.
    return n < d ? rational(whole * d + n, d) : 'improper-mixed'
  }
  const f = fraction.exec(text)
  const top = readDecimal(f ? f[1] : text)
  if (typeof top === 'string') return top
  if (!f) return rational(top.n, top.d)
  const below = readDecimal(f[2])
  if (typeof below === 'string') return below
  return below.n === 0n ? 'zero-denominator' : rational(top.n * below.d, top.d * below.n)
}

/**
 * The decimal that a number of any range prints, exponent and all, exactly: 0.1 is one tenth.
 * @throws RangeError when the number is not finite.
 */
export function exactly(value: number): Rational {
  const found = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value))
  if (!found) throw new RangeError('the number is not finite')
  const [, sign, whole, part = '', exponent = 0] = found
  const n = BigInt(sign + whole + part)
  const power = Number(exponent) - part.length
  return power >= 0 ? rational(n * 10n ** BigInt(power)) : rational(n, 10n ** BigInt(-power))
}
