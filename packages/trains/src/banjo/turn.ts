/** A direction as cosine and sine: turned and compared without angles, so that every machine gets the same bytes. */
export interface Turn {
  c: number
  s: number
}

const TERMS = 12
const DEGREE = Math.PI / 180

/** Cosine and sine of an angle in degrees by their series, with + - x / only; exact at quarter turns. */
export function turn(degrees: number): Turn {
  const quarters = Math.round(degrees / 90)
  const x = (degrees - 90 * quarters) * DEGREE
  let c = 1
  let s = x
  let term = x
  for (let n = 2; n < 2 * TERMS; n++) {
    term = (term * x) / n
    if (n % 2 === 0) c += n % 4 === 0 ? term : -term
    else s += n % 4 === 1 ? term : -term
  }
  switch (((quarters % 4) + 4) % 4) {
    case 1:
      return { c: -s, s: c }
    case 2:
      return { c: -c, s: -s }
    case 3:
      return { c: s, s: -c }
    default:
      return { c, s }
  }
}

/** Directions nearer than this to a limit stand on it: about the 1e-9 degree to which angles are written. */
const CLOSE = 2e-11

/** A range of directions, anticlockwise from one angle to another. */
export class Arc {
  private readonly from: Turn
  private readonly to: Turn
  private readonly middle: Turn
  private readonly wide: boolean
  private readonly whole: boolean

  constructor(
    readonly least: number,
    readonly greatest: number,
  ) {
    this.from = turn(least)
    this.to = turn(greatest)
    this.middle = turn((least + greatest) / 2)
    this.wide = greatest - least >= 180
    this.whole = greatest - least >= 360
  }

  /** Whether the range holds the direction of this cosine and sine. */
  holds(c: number, s: number): boolean {
    if (this.whole) return true
    const { from, to, middle } = this
    // Sines of the angles from the start of the range, and to its end; cosine of the angle from its middle.
    const after = from.c * s - from.s * c
    const before = c * to.s - s * to.c
    const along = middle.c * c + middle.s * s
    if (!this.wide) return after >= -CLOSE && before >= -CLOSE && along > 0
    // The gap is under half a turn: outside only when past both ends of the range and opposite its middle.
    return !(after < -CLOSE && before < -CLOSE && along < 0)
  }

  /** The angle of a direction in degrees, in the turn of the range that holds it; rounded to 1e-9. */
  degrees({ c, s }: Turn): number {
    const raw = Math.atan2(s, c) / DEGREE
    const turns = Math.round(((this.least + this.greatest) / 2 - raw) / 360)
    return Math.round((raw + 360 * turns) * 1e9) / 1e9 + 0
  }
}
