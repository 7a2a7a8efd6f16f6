import {
  findThread,
  recogniseThread,
  recognitionVerdict,
  type SeriesThread,
  series,
  seriesNames,
} from '@trainwright/threads'

/*
 * Published threads and their tolerances: the tables are wanted by those only who look one up, so they come after the
 * first answer.
 */

export { leadToleranceOf } from './lead-tolerance.js'
export { recogniseThread, recognitionVerdict }

export const isThread = (name: string): boolean => findThread(name) !== null

const words = (text: string): string[] =>
  text
    .toUpperCase()
    .replace(/×/g, 'X')
    .split(/[\s,"#-]+|(?<=\d)(?=[A-Z])|(?<=[A-Z])(?=\d)/)
    .filter(Boolean)

/** Every word of what is sought begins a word of the name; each word of the name serves once. */
function matches(sought: readonly string[], name: readonly string[]): boolean {
  const left = [...name]
  return sought.every((word) => {
    const at = left.findIndex((one) => one.startsWith(word))
    if (at >= 0) left.splice(at, 1)
    return at >= 0
  })
}

/** Threads whose names begin like what is typed ('M6', 'BA 4', '1/4'): the one of that very name first. */
export function searchThreads(text: string): SeriesThread[] {
  const sought = words(text)
  const [first] = sought
  if (!first) return []
  const named = findThread(text)
  const found = seriesNames()
    .flatMap(series)
    .map((thread) => ({ thread, name: words(thread.name) }))
    .filter(({ name }) => matches(sought, name))
    .map(({ thread, name }) => ({ thread, rank: thread === named ? 0 : name[0]!.startsWith(first) ? 1 : 2 }))
  if (named && !found.some(({ thread }) => thread === named)) found.push({ thread: named, rank: 0 })
  return found.sort((a, b) => a.rank - b.rank).map(({ thread }) => thread)
}
