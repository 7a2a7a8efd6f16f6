import { tidy } from '@trainwright/measures'
import { allEntries, type SeriesThread } from './series.js'

const fillers = ['X', '×', 'NO', 'MM', 'IN', 'TPI']
const aliases: Readonly<Record<string, string>> = {
  W: 'BSW',
  WHIT: 'BSW',
  WHITWORTH: 'BSW',
  BSP: 'G',
  BSPP: 'G',
  LÖWENHERZ: 'LOEWENHERZ',
}

/**
 * What a name says in one spelling: its letters, B.A. as BA, then its numbers in their order; 1 1/8 is one number, 1.125. A
 * point ends a word or parts a number; elsewhere it is a slip, and kept so that nothing is found.
 */
function keyOf(name: string): string {
  const spelt = tidy(name)
    .toUpperCase()
    .replace(/(\d),(\d)/g, '$1.$2')
  let letters = ''
  const numbers: number[] = []
  for (const [token, whole = 0, n, d, word = token] of spelt.matchAll(
    /(?:(\d+)[\s-]+)?(\d+)\/(\d+)|\d*\.?\d+|([A-ZÖ]+)(?:\.(?!\d))?|[^\s#"-]/g,
  )) {
    const value = d ? Number(whole) + Number(n) / Number(d) : Number(token)
    if (!Number.isNaN(value)) numbers.push(value)
    else if (!fillers.includes(word)) letters += word
  }
  return [aliases[letters] ?? letters, ...numbers].join(' ')
}

let index: Map<string, SeriesThread> | undefined

/** Every thread by what its names say. */
function threadsByKey(): ReadonlyMap<string, SeriesThread> {
  if (index) return index
  index = new Map()
  for (const { thread, names } of allEntries())
    for (const key of names.map(keyOf)) if (!index.has(key)) index.set(key, thread)
  return index
}

/**
 * Finds a published thread by its name; null when no series has it. Capitals, spaces, `-`, `x` and `×` are taken as they
 * come: 'M6', 'm10 × 1', '1/4 BSF', '1/4-20 UNC', '#8-32 UNC', 'BA 4', '4BA', '5/16 ME 32', 'G 1/4', 'Tr 8x1.5',
 * '1 1/2 Whitworth', 'Loewenherz 3'. Where screw number and inch size share a digit ('4 UNC'), the number is meant.
 */
export function findThread(name: string): SeriesThread | null {
  return typeof name === 'string' && name.length <= 60 ? (threadsByKey().get(keyOf(name)) ?? null) : null
}
