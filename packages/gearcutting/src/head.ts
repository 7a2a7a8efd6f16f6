import { Checks } from './checks.js'

/**
 * A dividing head, or a rotary table with plates: crank turns for one turn of the work, and the circles of holes of
 * each plate. A change gear on the mandrel as division plate, with a plunger between its teeth, is
 * `{ worm: 1, plates: [[60]] }`.
 */
export interface Head {
  /** Crank turns for one turn of the work, whole, 1 to 1000. */
  worm: number
  /** Holes of each circle of each plate; whole, 2 to 1000. */
  plates: number[][]
}

/** Plates of a head, and circles of a plate. */
const MOST = 50

export const WORM = [1, 1000, 'crank turns for one turn of the work'] as const
export const DIVISIONS = [1, 10_000, 'a number of divisions'] as const

/** Tells everything that is wrong with a head. */
export function checkHead(head: Head, checks: Checks): void {
  const { worm, plates } = checks.object(head)
  checks.whole(worm, 'head.worm', ...WORM)
  if (!Array.isArray(plates) || plates.length === 0) checks.add('head.plates', 'no-plates')
  else if (plates.length > MOST) checks.add('head.plates', 'too-many', plates.length, MOST)
  else
    for (const [p, plate] of plates.entries()) {
      const path = `head.plates[${p}]`
      if (!Array.isArray(plate) || plate.length === 0) checks.add(path, 'no-circles')
      else if (plate.length > MOST) checks.add(path, 'too-many', plate.length, MOST)
      else
        for (const [c, circle] of plate.entries()) checks.whole(circle, `${path}[${c}]`, 2, 1000, 'a number of holes')
    }
}

/** Whether a whole number of spaces of this circle is one division. */
export const divides = (worm: number, circle: number, divisions: number): boolean => (circle * worm) % divisions === 0

/**
 * The division counts within `range`, both ends included, that plain indexing makes exactly, in order, by arithmetic. It feeds
 * `makeable` where a gear to make is sought.
 * @param range least and greatest count; default [20, 127], the gears commonly made
 * @throws InputError for a head that cannot divide and a range that is upside down or not 1 to 10000.
 */
export function indexable(head: Head, range: [number, number] = [20, 127]): number[] {
  const checks = new Checks()
  checkHead(head, checks)
  const [from, to] = (Array.isArray(range) ? range : []) as [number, number]
  if (checks.whole(from, 'range[0]', ...DIVISIONS) > checks.whole(to, 'range[1]', ...DIVISIONS))
    checks.add('range', 'upside-down', from, to)
  checks.done()
  const circles = [...new Set(head.plates.flat())]
  const counts = Array.from({ length: to - from + 1 }, (_, i) => from + i)
  return counts.filter((count) => circles.some((circle) => divides(head.worm, circle, count)))
}
