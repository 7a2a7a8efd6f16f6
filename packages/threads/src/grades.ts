import { byPitch, byStep, r40 } from './tables/iso965.js'

const series = r40.split(' ').map(Number)

/** Halves go to the even neighbour: 42.5 is printed 42, 47.5 is printed 48. */
const printed = (x: number): number => (x % 1 === 0.5 ? 2 * Math.round(x / 2) : Math.round(x))

/** The preferred number `steps` away from a printed one, as the tables print it, micrometres. */
function preferred(from: number, steps: number): number {
  const decade = from < 100 ? 1 : from < 1000 ? 10 : 100
  const to = series.findIndex((x) => printed(x * decade) === from) + steps
  return printed(series[(to + 40) % 40] * decade * 10 ** Math.floor(to / 40))
}

const lines = (table: string): string[][] => table.split('\n').map((line) => line.split(' '))

/** What the tables say of each pitch: pitch, mm; deviations g, f and e, 0 where there is none, Td(6) and TD1(6), micrometres. */
export const pitchRows: readonly (readonly number[])[] = lines(byPitch).map((line) => line.map(Number))
/** Td2(6) by pitch, for the diameters up to and including `upTo`. */
export const diameterSteps: readonly { upTo: number; td2: ReadonlyMap<number, number> }[] = lines(byStep).map(
  ([upTo, ...cells]) => ({
    upTo: Number(upTo),
    td2: new Map(cells.map((cell) => cell.split(':').map(Number) as [number, number])),
  }),
)

/** The tolerances of ISO 965-1: of the screw's major and effective diameter, of the nut's minor and effective. */
export type ToleranceOf = 'td' | 'td2' | 'td1' | 'tD2'

// The least pitch for which each grade exists.
const nut = { 4: 0, 5: 0.25, 6: 0.3, 7: 0.5, 8: 0.8 }
const grades: Readonly<Record<ToleranceOf, Readonly<Record<number, number>>>> = {
  td: { 4: 0, 6: 0, 8: 0.8 },
  td2: { 3: 0, 4: 0, 5: 0, 6: 0, 7: 0.35, 8: 0.8, 9: 0.8 },
  td1: nut,
  tD2: nut,
}

/** The grades that exist for a tolerance at a pitch. */
export const gradesAt = (of: ToleranceOf, pitch: number): number[] =>
  Object.keys(grades[of])
    .map(Number)
    .filter((grade) => pitch >= grades[of][grade])

/**
 * A tolerance in micrometres from its grade 6; tD2 from Td2(6). A grade is a ratio of 1.25, four steps of R40; TD2 stands
 * five above Td2 (the ratios 0.5 to 2 and 0.85 to 2.12 of Machinery's Handbook, 27th ed., p. 1797).
 */
export function toleranceAt(of: ToleranceOf, sixth: number, grade: number): number {
  // The one cell that no whole number of steps gives (from memory; the formula gives 1150, midway to 1120).
  if (of === 'td' && sixth === 710 && grade === 8) return 1180
  return preferred(sixth, 4 * (grade - 6) + (of === 'tD2' ? 5 : 0))
}
