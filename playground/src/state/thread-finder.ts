import {
  findThread,
  recogniseThread,
  recognitionVerdict,
  type SeriesThread,
  series,
  seriesNames,
} from '@trainwright/threads'

/*
 * Published threads and their tolerances: the tables are wanted by those only who look one up, so they come when they
 * are asked for.
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

/** Threads whose names begin like what is typed ('M6', 'BA 4', '1/4'), the one of that very name first. */
export function searchThreads(text: string): SeriesThread[] {
  const sought = words(text)
  if (sought.length === 0) return []
  const named = findThread(text)
  const others = seriesNames().flatMap((name) =>
    series(name).filter((thread) => thread !== named && matches(sought, words(thread.name))),
  )
  return named ? [named, ...others] : others
}
