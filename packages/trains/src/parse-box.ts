import { BOUNDS } from './bounds.js'
import { teeth } from './check-fields.js'
import type { GearStock } from './contract.js'
import { Reader, text as readText, whole } from './reader.js'
import { WorkshopError } from './workshop-error.js'

const line = readText(10_000)
const copies = whole(1, BOUNDS.gears)
const one = /^(\d{1,5})(?:[x×*](\d{1,4}))?$/i

/**
 * Reads a line of tooth counts: '20x2 24 30 127' is two gears of 20 teeth and one each of 24, 30 and 127. Words are
 * parted by spaces, commas or semicolons; a count given twice adds up. In the order in which they were first named.
 * @throws WorkshopError with a problem for each word that is no gear; the path is its place among the words, `gears[3]`.
 */
export function parseBox(text: string): GearStock[] {
  const r = new Reader()
  const counts = new Map<number, number>()
  // "20 x 2" is one gear, as it is written on paper.
  const words = (line(r, text, 'gears') ?? '')
    .replace(/\s+/g, ' ')
    .replace(/ ?([x×*]) ?/gi, '$1')
    .split(/[ ,;]+/)
  words
    .filter((w) => w !== '')
    .forEach((word, i) => {
      const found = one.exec(word)
      if (!found) {
        r.refuse(`gears[${i}]`, 'box-line', word.slice(0, 40))
        return
      }
      const z = teeth(r, Number(found[1]), `gears[${i}].teeth`)
      const count = copies(r, Number(found[2] ?? 1), `gears[${i}].count`)
      if (z !== undefined && count !== undefined) counts.set(z, (counts.get(z) ?? 0) + count)
    })
  const total = [...counts.values()].reduce((a, b) => a + b, 0)
  if (total > BOUNDS.gears) r.refuse('gears', 'too-many-gears', total)
  if (r.problems.length > 0) throw new WorkshopError(r.problems)
  return [...counts].map(([teeth, count]) => (count === 1 ? { teeth } : { teeth, count }))
}
