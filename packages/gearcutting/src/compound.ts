import { gcd, inverse } from './whole.js'

/** A move on the crank, or of the plate. `turns` and `holes` bear one sign: both are negative (or 0) when it goes backward. */
export interface IndexMove {
  turns: number
  /** Spaces between holes, not holes: the hole that the pin stands in is not counted. */
  holes: number
  /** Holes in the circle in which they are counted. */
  circle: number
}

/** `spaces` of a circle, signed, as whole turns and spaces. */
export function move(spaces: number, circle: number): IndexMove {
  const turns = Math.trunc(spaces / circle)
  return { turns: turns + 0, holes: spaces - turns * circle + 0, circle }
}

export interface TwoCircles {
  plate: number
  /** Spaces of the crank over the plate, and of the plate under its pin, signed. */
  spaces: [number, number]
  circles: [number, number]
  /** Made less wanted, in crank turns: error / scale. */
  error: number
  scale: number
}

/** Both moves together in crank turns, however directed: what the hands have to count. */
const travel = ({ spaces, circles }: TwoCircles): number =>
  Math.abs(spaces[0]) / circles[0] + Math.abs(spaces[1]) / circles[1]

/**
 * The best way to turn `worm / divisions` by two circles of one plate: the crank in the first, the plate in the second.
 * Together they reach every multiple of 1 / lcm of the two; `exact` refuses any but the very place. Of equal errors the
 * one with the least travel, then the larger circles. Null when no plate serves.
 */
export function twoCircles(worm: number, divisions: number, plates: number[][], exact: boolean): TwoCircles | null {
  let best: TwoCircles | null = null
  for (const [plate, circles] of plates.entries()) {
    const distinct = [...new Set(circles)].sort((a, b) => b - a)
    for (const front of distinct)
      for (const back of distinct) {
        const common = (front / gcd(front, back)) * back
        if (common === front || common === back) continue
        const places = Math.round((worm * common) / divisions)
        const error = places * divisions - worm * common
        if (exact && error !== 0) continue
        // places = crank (common / front) + plate (common / back), the plate turning less than once, either way.
        const [f, b] = [common / front, common / back]
        const forward = ((places % f) * inverse(b, f)) % f
        for (const plateSpaces of [forward, forward - f]) {
          if (plateSpaces === 0) continue
          const found: TwoCircles = {
            plate,
            spaces: [(places - plateSpaces * b) / f, plateSpaces],
            circles: [front, back],
            error,
            scale: common * divisions,
          }
          if (found.spaces[0] !== 0 && (best === null || better(found, best))) best = found
        }
      }
  }
  return best
}

function better(a: TwoCircles, b: TwoCircles): boolean {
  // All have the same divisions, so whole numbers below 2^53 compare exactly.
  const closer = Math.abs(a.error) * b.scale - Math.abs(b.error) * a.scale
  if (closer !== 0) return closer < 0
  return travel(a) < travel(b) - 1e-12
}
