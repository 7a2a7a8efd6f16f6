import type { Keeping, Notice } from './state/keeper.js'
import type { Refusal } from './state/workshop-file.js'

/** What the page says of its keeping. */

export const KEPT = 'Kept in this browser as you type.'
export const NOT_KEPT =
  'Not kept: the browser has no room or does not allow it. What you type goes when the page closes; save it as a file.'
export const VISITING = 'This question came with a link. It is not among your own yet.'
export const UPDATE = 'A newer version of this page is ready. What you typed stays.'

const parts: Readonly<Record<string, string>> = {
  threads: 'thread',
  order: 'which train comes first',
  view: 'how the drawing is turned',
  rotate: 'how the drawing is turned',
  mirror: 'how the drawing is turned',
  units: 'mm or inch',
  wires: 'measuring wires',
  mounted: 'what is on the lathe now',
  name: 'name of the workshop',
  lathe: 'lathe',
  kinds: 'box of gears',
  making: 'gears that can be made',
  wishes: 'wish list',
  chart: 'chart',
  workshop: 'workshop',
}

export const shopName = (name: string): string => name.trim() || 'Workshop without a name'

const refusals: Readonly<Record<Refusal['code'], string>> = {
  'too-big': 'is too big to be a workshop',
  unreadable: 'cannot be read: it is no workshop, or only a part of one',
  'not-ours': 'holds no workshop of this page',
  newer: 'comes from a newer version of this page: take the update, then open it again',
  damaged: 'is damaged',
}

function refused(from: 'file' | 'link', { code, places = [] }: Refusal): string {
  const first = places.slice(0, 3).map((place) => place.replace('workshop.', ''))
  const others = places.length > 3 ? ` and ${places.length - 3} more` : ''
  const where = places.length > 0 ? ` (${first.join(', ')}${others})` : ''
  return `This ${from} ${refusals[code]}${where}. Nothing was changed.`
}

export function worded(notice: Notice): string {
  switch (notice.code) {
    case 'undone':
      return `Undone: ${parts[notice.what] ?? 'last change'}.`
    case 'redone':
      return `Done again: ${parts[notice.what] ?? 'last change'}.`
    case 'removed':
      return `Removed: ${shopName(notice.what)}. Undo brings it back.`
    case 'opened':
      return `Opened: ${shopName(notice.what)}.`
    case 'elsewhere':
      return 'Changed in another tab of this page; the newest stands. Undo brings back what was here.'
    case 'gone':
      return 'Another tab removed this workshop. It is kept again as soon as you type.'
    case 'left':
      return 'Back to your own. Undo brings back the question from the link, as you changed it.'
    case 'not-kept':
      return NOT_KEPT
    case 'copied':
      return 'Link copied. It holds the workshop and the thread in hand.'
    case 'no-link':
      return 'This is too much for a link: save it as a file.'
    case 'refused':
      return refused(notice.from, notice.refusal)
  }
}

/** What the strip says: the news, else how things stand. */
export function standing({ notice, visiting, kept }: Keeping, update: boolean): string {
  if (notice) return worded(notice)
  if (!kept) return NOT_KEPT
  if (visiting) return VISITING
  return update ? UPDATE : KEPT
}
