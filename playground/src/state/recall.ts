import type { Drawer } from './drawer.js'
import { FIRST_SHOP, type Held, PAGE, settled, withChanges } from './held.js'
import { migrate, type Page, readPage, readShop, type Shop } from './kept.js'
import { type SheetName, sheetName, TOP } from './top.js'

/** Where a drawer keeps which workshop was open last. */
export const OPEN = 'open'
/** Where a tab keeps what it has in hand, and the question that came to it with a link. */
export const LOOK = 'look'
export const VISIT = 'visit'

/** What was there when the page was last open. */
export interface Recalled {
  /** Null when nothing was kept. */
  held: Held | null
  /** A question that came to this tab with a link, as it stood when the tab was reloaded. */
  visit: { link: unknown; shop: Shop; page: Page } | null
  /** The sheet that lay on top in this tab. */
  top: SheetName
}

export function recall(drawer: Drawer, tab: Drawer): Recalled {
  const here = tab.news()
  const visit = Object(here.get(VISIT)) as Record<string, unknown>
  return {
    held: recallOwn(drawer, Object(here.get(LOOK))),
    visit: visit.shop ? { link: visit.link, shop: readShop(visit.shop), page: readPage(visit.page) } : null,
    top: sheetName(here.get(TOP)),
  }
}

/** From the first version if need be. What the tab had in hand goes before what was in hand last. */
function recallOwn(drawer: Drawer, look: { open?: unknown; thread?: unknown }): Held | null {
  const found = drawer.news()
  const first = drawer.first()
  if (found.size === 0 && first instanceof Object) {
    const { shop, page } = migrate(first)
    found.set(FIRST_SHOP, shop).set(PAGE, page)
  }
  const open = look.open ?? found.get(OPEN)
  found.delete(OPEN)
  if (found.size === 0) return null
  const page = readPage(found.get(PAGE))
  const inHand = { ...page, thread: page.threads[look.thread as number] ? (look.thread as number) : page.thread }
  const shops = [...found].filter(([key]) => key !== PAGE).map(([key, x]) => [key, readShop(x)] as const)
  return settled(withChanges(new Map([[PAGE, inHand]]), shops), open)
}
