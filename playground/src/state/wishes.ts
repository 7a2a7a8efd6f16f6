import { gather, type Problem, parsePitch, toNumber } from '@trainwright/measures'
import { findThread, type SeriesThread, series } from '@trainwright/threads'
import type { ThreadWanted } from '@trainwright/trains'
import { number, withUnit } from './read-text.js'
import type { TypedWishes } from './typed-making.js'

/** Where problems of the list and of its tolerance stand. */
export const LIST = 'wishes.list'
export const PPM = 'wishes.ppm'

const LEFT = /(^|\s)(LH|left([- ]hand(ed)?)?)(?=\s|$)/i
const STARTS = /(?:^|\s)(\d{1,3})[\s-]*starts?(?=\s|$)/i
const UNIT = /^[\d.,/\s-]+(mm|tpi|threads|mod|dp)/i

/** The longest beginning of a line, of whole words, that `read` takes, and what follows it. */
function beginning<T>(words: readonly string[], read: (text: string) => T | null): { found: T; rest: string } | null {
  for (let count = words.length; count > 0; count--) {
    const found = read(
      words
        .slice(0, count)
        .join(' ')
        .replace(/[,;:]$/, ''),
    )
    if (found !== null) return { found, rest: words.slice(count).join(' ') }
  }
  return null
}

const pitchOf = (text: string): string | null => (gather([], () => parsePitch(text)) ? text : null)

/** What stands on one line: a pitch and a name, or a published thread by its name. Null when neither can be read. */
function readLine(line: string): ThreadWanted | null {
  const starts = STARTS.exec(line)?.[1]
  const bare = line.replace(LEFT, ' ').replace(STARTS, ' ').trim()
  const words = bare.split(/\s+/)
  const more = {
    ...(LEFT.test(line) ? { hand: 'left' as const } : {}),
    ...(starts ? { starts: Number(starts) } : {}),
  }
  const thread = UNIT.test(bare) ? null : beginning(words, findThread)
  if (thread) return { name: bare, pitch: thread.found.pitch, ...more }
  const pitch = beginning(words, pitchOf)
  // '4 BAA' is no pitch of 4 mm.
  if (!pitch || (pitch.rest && !/[a-z"]/i.test(pitch.found))) return null
  return { ...(pitch.rest ? { name: pitch.rest.replace(/^[,;:]\s*/, '') } : {}), pitch: withUnit(pitch.found), ...more }
}

const tolerance = (ppm: string) => (ppm.trim() ? { tolerance: { ppm: number(ppm) } } : {})

/** The threads of the wish list, in its order. Lines that cannot be read are left out and named. */
export function readWishes({ list, ppm }: TypedWishes, problems: Problem[]): ThreadWanted[] {
  const size = number(ppm)
  const sized = ppm.trim() === '' || (size >= 0 && size < 1_000_000)
  if (!sized) problems.push({ path: PPM, code: 'tolerance', message: 'Write a number of ppm, such as 500.' })
  return list.split('\n').flatMap((line, i) => {
    if (line.trim() === '') return []
    const wish = line.length > 200 ? null : readLine(line)
    if (wish) return [{ ...wish, ...(sized ? tolerance(ppm) : {}) }]
    const message = `Line ${i + 1}, “${line.trim().slice(0, 40)}”, names no pitch: write 0.7 mm, 26 tpi or M6 first.`
    problems.push({ path: LIST, code: 'unread', message })
    return []
  })
}

const named = (threads: readonly SeriesThread[]): string => {
  const names = threads.map(({ name }) => name)
  return names.length > 3 ? `${names[0]} to ${names.at(-1)}` : names.join(', ')
}

/** A published series as lines of a wish list: one for each pitch, with the sizes that have it. */
export function seriesLines(name: string): string[] {
  const byPitch = new Map<string, SeriesThread[]>()
  for (const thread of series(name)) byPitch.set(thread.pitch, [...(byPitch.get(thread.pitch) ?? []), thread])
  return [...byPitch].map(([pitch, threads]) => `${pitch} ${named(threads)}`)
}

/** The list with more lines at its end; those that it holds already are not said twice. */
export function withLines(list: string, lines: readonly string[]): string {
  const held = list.split('\n').filter((line) => line.trim() !== '')
  return [...held, ...lines.filter((line) => !held.includes(line))].join('\n')
}

const mm = ({ pitch }: ThreadWanted): number => {
  const read = gather([], () => parsePitch(pitch))
  return read ? toNumber(read.mm) : Number.NaN
}

/** Whether both name the same helix. */
export const sameHelix = (a: ThreadWanted, b: ThreadWanted): boolean =>
  mm(a) === mm(b) && (a.starts ?? 1) === (b.starts ?? 1) && (a.hand ?? 'right') === (b.hand ?? 'right')
