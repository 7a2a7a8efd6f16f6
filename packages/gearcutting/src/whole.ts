/** Greatest common divisor of two whole numbers, without sign. */
export const gcd = (a: number, b: number): number => (b === 0 ? Math.abs(a) : gcd(b, a % b))

/**
 * `n / d` in lowest terms as text: '-3/539', '2', '0'. Whole numbers below 2^53, as all of indexing is; so that exact
 * text costs this package no library of fractions.
 */
export function fractionText(n: number, d: number): string {
  const common = gcd(n, d)
  return d === common ? String(n / d) : `${n / common}/${d / common}`
}

/** The number x of 0 to `modulus` - 1 for which a x leaves 1, a and modulus having no common factor. */
export function inverse(a: number, modulus: number): number {
  let [r0, r1, s0, s1] = [modulus, a % modulus, 0, 1]
  while (r1 > 0) {
    const q = Math.floor(r0 / r1)
    ;[r0, r1, s0, s1] = [r1, r0 - q * r1, s1, s0 - q * s1]
  }
  return ((s0 % modulus) + modulus) % modulus
}
