import { describe, expect, it } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { diameterSteps, gradesAt, pitchRows, type ToleranceOf, toleranceAt } from './grades.js'
import { r40 } from './tables/iso965.js'

const cells = rows('threads/iso-tolerances.csv').map((row) => ({
  of: row.tolerance as ToleranceOf,
  upTo: Number(row.diameterUpTo),
  pitch: Number(row.pitch),
  grade: Number(row.grade),
  printed: row.micrometres,
}))
const named = pitchRows.map(([pitch, g, f, e, td, td1]) => ({ pitch, deviations: [g, f, e], td, td1 }))
const rowAt = (pitch: number) => named.find((row) => row.pitch === pitch)
const sixthOf = (of: ToleranceOf, upTo: number, pitch: number): number => {
  const row = rowAt(pitch)
  if (!row) return Number.NaN
  if (of === 'td' || of === 'td1') return row[of]
  return diameterSteps.find((step) => step.upTo === upTo)?.td2.get(pitch) ?? Number.NaN
}

describe('the tables of ISO 965-1', () => {
  // Machinery's Handbook, 31st ed., p. 2025, tables 10 and 11; 27th ed., p. 1794, table 8; the source of each row stands there.
  it('has every printed tolerance of every grade', () => {
    const wrong = cells
      .filter(({ printed }) => printed !== '')
      .map(({ of, upTo, pitch, grade, printed }) => {
        const found = gradesAt(of, pitch).includes(grade) ? toleranceAt(of, sixthOf(of, upTo, pitch), grade) : 'none'
        return found === Number(printed) ? '' : `${of} ${upTo} P ${pitch} grade ${grade}: ${found} against ${printed}`
      })
    expect(wrong.length).toBeGreaterThan(600)
    expect(wrong.filter(Boolean)).toEqual([])
  })

  it('has no grade where the table has a dash', () => {
    const extra = cells.filter(({ of, pitch, grade, printed }) => printed === '' && gradesAt(of, pitch).includes(grade))
    // Between 22.4 and 45 mm the table stops at grade 7 for a pitch of 1 mm; grade 8 by the same steps is kept.
    expect(extra).toEqual([{ of: 'tD2', upTo: 45, pitch: 1, grade: 8, printed: '' }])
  })

  it('covers the pitches of its diameter steps', () => {
    for (const { td2 } of diameterSteps) for (const pitch of td2.keys()) expect(rowAt(pitch)).toBeDefined()
    expect(diameterSteps.map(({ upTo }) => upTo)).toEqual([1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355])
  })
})

/** The formulas of ISO 965-1 (from memory), rounded to the nearest preferred number R40 as the standard says. */
const preferred = r40.split(' ').map(Number)
function nearestPreferred(x: number): number {
  const decade = 10 ** (Math.floor(Math.log10(x)) - 1)
  const near = [...preferred, 100].map((n) => n * decade)
  const found = near.reduce((best, n) => (Math.abs(n - x) < Math.abs(best - x) ? n : best))
  return Math.round(found * 10) / 10
}
/** As printed: halves to the even number. */
const whole = (x: number): number => (x % 1 === 0.5 ? 2 * Math.round(x / 2) : Math.round(x))

describe('the tables against the formulas, cell by cell', () => {
  const differing = (cells: [string, number, number][]): string[] =>
    cells
      .filter(([, formula, table]) => whole(nearestPreferred(formula)) !== table)
      .map(([cell, , table]) => `${cell}: ${table}`)

  it('names every differing fundamental deviation', () => {
    const cells = named.flatMap(({ pitch, deviations }) =>
      [15, 30, 50].map((start, i): [string, number, number] => [
        `${'gfe'[i]} ${pitch}`,
        start + 11 * pitch,
        deviations[i],
      ]),
    )
    // The g of 6g is checked by the published limits; f and e are from memory, and f looks rounded to whole micrometres.
    const there = cells.filter(([, , table]) => table > 0)
    expect(differing(there)).toEqual([
      'f 0.45: 35',
      'e 0.5: 50',
      'f 0.6: 36',
      'e 0.6: 53',
      'g 0.75: 22',
      'e 0.75: 56',
      'f 0.8: 38',
      'f 1.5: 45',
      'f 1.75: 48',
      'f 2: 52',
      'f 2.5: 58',
      'e 2.5: 80',
      'f 3.5: 70',
    ])
  })

  it('names every differing tolerance of a crest', () => {
    expect(
      differing(named.map(({ pitch, td }) => [`Td ${pitch}`, 180 * pitch ** (2 / 3) - 3.15 / Math.sqrt(pitch), td])),
    ).toEqual(['Td 4: 475'])
    expect(
      differing(
        named
          .filter(({ pitch }) => pitch >= 0.3)
          .map(({ pitch, td1 }) => [
            `TD1 ${pitch}`,
            pitch < 1 ? 433 * pitch - 190 * pitch ** 1.22 : 230 * pitch ** 0.7,
            td1,
          ]),
      ),
    ).toEqual(['TD1 0.5: 140', 'TD1 1: 236', 'TD1 2.5: 450'])
  })

  it('names every differing tolerance of an effective diameter', () => {
    const cells = diameterSteps.flatMap(({ upTo, td2 }, i) => {
      const over = i === 0 ? 0.99 : diameterSteps[i - 1].upTo
      return [...td2].map(([pitch, table]): [string, number, number] => [
        `Td2 to ${upTo} P ${pitch}`,
        90 * pitch ** 0.4 * Math.sqrt(over * upTo) ** 0.1,
        table,
      ])
    })
    expect(differing(cells)).toEqual([
      'Td2 to 5.6 P 0.5: 75',
      'Td2 to 90 P 5: 250',
      'Td2 to 355 P 3: 250',
      'Td2 to 355 P 4: 280',
    ])
  })
})
