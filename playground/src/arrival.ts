import type { Keeper } from './state/keeper.js'
import { isLink, readLink } from './state/link.js'
import type { Recalled } from './state/recall.js'
import type { Opened } from './state/workshop-file.js'

/** A question from a link, or why it is refused. */
export interface Arrival {
  link: string
  opened: Opened
}

/** What the address asks for, as far as it was typed on before a reload; null when it asks for nothing. */
export async function arrival(visit: Recalled['visit']): Promise<Arrival | null> {
  const { hash } = location
  if (visit && (visit.link === hash || !isLink(hash))) return { link: hash, opened: visit }
  return isLink(hash) ? { link: hash, opened: await readLink(hash) } : null
}

export function receive(keeper: Keeper, { link, opened }: Arrival): void {
  if ('refusal' in opened) keeper.say({ code: 'refused', from: 'link', refusal: opened.refusal })
  else keeper.visit(opened.shop, opened.page, link)
}

/** A link may be put into the address of the open page, too. */
export function watchAddress(keeper: Keeper): void {
  addEventListener('hashchange', async () => {
    const came = await arrival(null)
    if (came) receive(keeper, came)
  })
}

/** Other tabs of this page: looks at what they have kept whenever they did, and after this one was asleep. */
export function watchTabs(keeper: Keeper): void {
  const look = () => keeper.absorb()
  addEventListener('storage', look)
  addEventListener('pageshow', look)
  document.addEventListener('visibilitychange', look)
}
