import { blankShop, joinTyped, type Page, type Shop, splitTyped } from './kept.js'
import { difference, same } from './same.js'
import type { Typed } from './typed.js'

/** All that the page holds: the workshops by their keys, and under `page` what is the page's own. */
export type Parts = ReadonlyMap<string, Shop | Page>

export interface Held {
  parts: Parts
  /** Key of the workshop that is open. */
  open: string
}

export const PAGE = 'page'

export const pageOf = ({ parts }: Held): Page => parts.get(PAGE) as Page
export const shopOf = ({ parts, open }: Held): Shop => parts.get(open) as Shop
export const typedOf = (held: Held): Typed => joinTyped(shopOf(held), pageOf(held))

/** The workshops in the order in which they were made. */
export const shopsOf = ({ parts }: Pick<Held, 'parts'>): [key: string, shop: Shop][] =>
  [...parts].filter((one): one is [string, Shop] => one[0] !== PAGE).sort(([a], [b]) => (a < b ? -1 : 1))

/** The key of the first workshop: the same in all tabs, whichever keeps it first. */
export const FIRST_SHOP = 'first'

/** A key for a new workshop, later in order than those before it. */
export const newKey = (): string => Date.now().toString(36) + Math.random().toString(36).slice(2, 8).padEnd(6, '0')

export function heldFrom(typed: Typed): Held {
  const { shop, page } = splitTyped(typed)
  return held([[PAGE, page]], shop, FIRST_SHOP)
}

/** These parts and another workshop, which is open. */
export function held(parts: Iterable<[string, Shop | Page]>, shop: Shop, key = newKey()): Held {
  return { parts: new Map([...parts, [key, shop]]), open: key }
}

/** Parts with changes made; undefined takes away. */
export function withChanges(parts: Parts, changes: Iterable<readonly [string, unknown]>): Parts {
  const changed = new Map(parts)
  for (const [key, value] of changes) {
    if (value === undefined) changed.delete(key)
    else changed.set(key, value as Shop | Page)
  }
  return changed
}

/** Sees to it that a workshop is open: the one asked for, else the last, else a blank one. */
export function settled(parts: Parts, open: unknown): Held {
  if (typeof open === 'string' && open !== PAGE && parts.has(open)) return { parts, open }
  const last = shopsOf({ parts }).at(-1)
  return last ? { parts, open: last[0] } : held(parts, blankShop())
}

/** Keys of the parts that were put in another's place. */
export const changedKeys = (a: Parts, b: Parts): string[] =>
  [...new Set([...a.keys(), ...b.keys()])].filter((key) => a.get(key) !== b.get(key))

/** The way to the one place where two states differ; it ends where they differ in several. Null when they are alike. */
export function placeOf(a: Parts, b: Parts): string[] | null {
  const keys = changedKeys(a, b).filter((key) => !same(a.get(key), b.get(key)))
  const [key] = keys
  if (key === undefined) return null
  return keys.length > 1 ? [] : [key, ...difference(a.get(key), b.get(key))]
}

/** Another tab's page as this tab takes it over: what is in hand here stays in hand. */
export function takenOver(theirs: Page, ours: Page): Page {
  const inHand = ours.threads[ours.thread]
  const there = theirs.threads.findIndex((thread) => same(thread, inHand))
  const thread = there >= 0 ? there : Math.min(ours.thread, theirs.threads.length - 1)
  return { ...theirs, thread, order: ours.order, view: ours.view }
}

/** A page with what another has besides: its threads, the one in hand there in hand here, and its wishes. */
export function withPage(page: Page, { threads, thread, order, wishes }: Page): Page {
  const missing = threads.filter((one) => !page.threads.some((known) => same(known, one)))
  const all = [...page.threads, ...missing]
  const lines = page.wishes.list.split('\n')
  const wished = wishes.list.split('\n').filter((line) => !lines.includes(line))
  const list = [page.wishes.list, ...wished].filter((line) => line.trim() !== '').join('\n')
  return {
    ...page,
    threads: all,
    thread: all.findIndex((one) => same(one, threads[thread])),
    order,
    wishes: wished.length > 0 ? { ...page.wishes, list } : page.wishes,
  }
}
