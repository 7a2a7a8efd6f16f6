import type { Checks } from './checks.js'

/** A keyway in a bore; mm. */
export interface Keyway {
  /** 0.01 up to the bore, which is wider. */
  width: number
  /** From the edge of the bore, 0.01 to 10000. */
  depth: number
}

/** A hole that is told has a size. */
export const SIZE = [0.01, 10_000] as const

/** Bore and keyway as read: half the bore, and how far from the gear's centre it reaches, its keyway's corners with it. */
interface Read extends Keyway {
  inner: number
  reach: number
}

/** Checks a bore and its keyway; `at` is where they stand. */
export function readBore(
  { bore, keyway }: { bore?: number | undefined; keyway?: Keyway | undefined },
  checks: Checks,
  at = '',
): Read {
  const inner = checks.number(bore, `${at}bore`, ...SIZE, 'a bore in mm') / 2
  if (keyway === undefined) return { inner, width: 0, depth: 0, reach: inner }
  const told = checks.object(keyway)
  let width = checks.number(told.width, `${at}keyway.width`, ...SIZE, 'a width in mm')
  const depth = checks.number(told.depth, `${at}keyway.depth`, ...SIZE, 'a depth in mm')
  if (width >= 2 * inner) {
    checks.add(`${at}keyway.width`, 'keyway-too-wide', 2 * inner)
    width = Number.NaN
  }
  return { inner, width, depth, reach: Math.hypot(inner + depth, width / 2) }
}
