import type { Drawer } from './drawer.js'
import {
  changedKeys,
  type Held,
  held as holding,
  newKey,
  PAGE,
  pageOf,
  placeOf,
  settled,
  shopOf,
  shopsOf,
  takenOver,
  typedOf,
  withChanges,
  withPage,
} from './held.js'
import { type Change, History } from './history.js'
import type { Job } from './job.js'
import { blankShop, type Page, readPage, readShop, type Shop, splitTyped } from './kept.js'
import { LOOK, OPEN, VISIT } from './recall.js'
import { at, same } from './same.js'
import { Store } from './store.js'
import type { Refusal } from './workshop-file.js'

/** What is no step, since nothing is typed by it: to take another thread in hand. */
const LOOKS = [`${PAGE}/thread`]

/** What there is to tell of the keeping; worded elsewhere. `what` is a part of what is typed, or a name. */
export type Notice =
  | { code: 'undone' | 'redone' | 'removed' | 'opened'; what: string }
  | { code: 'elsewhere' | 'gone' | 'left' | 'not-kept' | 'copied' | 'no-link' }
  | { code: 'refused'; from: 'file' | 'link'; refusal: Refusal }

export interface Keeping {
  held: Held
  /** False when the browser has no room for what was typed, or does not allow it. */
  kept: boolean
  /** The question came with a link, and nothing of it is kept beyond this tab. */
  visiting: boolean
  notice: Notice | null
}

interface Left {
  held: Held
  history: History
  link: string
}

interface Way {
  /** A step to be undone, and the group it belongs to. */
  step?: string
  notice?: Notice | null
  /** It comes from the storage, and need not be put there. */
  stored?: boolean
}

/**
 * Sees to it that nothing is lost: what is typed is kept at once, every step can be undone, and what another tab of the
 * page changes becomes a step of this one. The newest wins, and whatever it replaced can be brought back.
 */
export class Keeper extends Store<Keeping> {
  #history: History
  /** What could not be kept yet. */
  readonly #unsaved: Set<string>
  /** What is the person's own, while the page shows a question from a link. */
  #own: { held: Held; history: History } | null = null
  /** The link that brought it. */
  #link = ''
  /** A question from a link that was typed on and left: undo goes back to it, as long as no other step was made. */
  #left: Left | null = null

  constructor(
    held: Held,
    private readonly job: Job,
    private readonly drawer: Drawer,
    private readonly tab: Drawer,
    /** Nothing is the person's own yet: the page shows its demonstration. */
    private demo = false,
    private readonly now = () => performance.now(),
  ) {
    // Whether there is room shows with the first stroke only; whether it is allowed, at once.
    super({ held, kept: drawer.put('', undefined), visiting: false, notice: null })
    this.#history = new History(now)
    this.#unsaved = new Set([...held.parts.keys()].filter((key) => !drawer.holds(key)))
    job.typed.watch(() => this.#typed())
  }

  get steps(): { back: number; forth: number } {
    const { back, forth } = this.#history.steps
    return { back: back + (this.#left ? 1 : 0), forth }
  }

  say(notice: Notice | null): void {
    this.set({ ...this.value, notice })
  }

  #typed(): void {
    const { held } = this.value
    const now = splitTyped(this.job.typed.value)
    const olds = { shop: shopOf(held), page: pageOf(held) }
    const changes = new Map<string, unknown>()
    if (!unchanged(olds.shop, now.shop)) changes.set(held.open, { ...olds.shop, ...now.shop })
    if (!unchanged(olds.page, now.page)) changes.set(PAGE, { ...olds.page, ...now.page })
    if (changes.size === 0) return
    const after = withChanges(held.parts, changes)
    const place = placeOf(held.parts, after) ?? []
    const asked = this.value
    this.absorb()
    const { parts, open } = this.value.held
    const notice = this.value === asked ? null : this.value.notice
    const text = typeof at(after.get(place[0]!), place.slice(1)) === 'string'
    const where = place.join('/')
    const step = LOOKS.includes(where) ? {} : { step: text ? where : '' }
    this.#go({ parts: withChanges(parts, changes), open }, { ...step, notice })
  }

  /** Takes over what other tabs have changed since. */
  absorb(): void {
    if (this.#own) return
    const { held } = this.value
    const changes = new Map<string, unknown>()
    let gone = false
    for (const [key, x] of this.drawer.news()) {
      if (key === OPEN) continue
      if (x === undefined && (key === PAGE || key === held.open)) {
        // It stays here, and is kept again with the next stroke.
        this.#unsaved.add(key)
        gone ||= key === held.open
      } else {
        const part = x === undefined ? undefined : key === PAGE ? takenOver(readPage(x), pageOf(held)) : readShop(x)
        if (!same(part, held.parts.get(key))) changes.set(key, part)
      }
    }
    const seen = changes.has(PAGE) || changes.has(held.open)
    const next = { parts: withChanges(held.parts, changes), open: held.open }
    if (seen) this.#go(next, { step: 'elsewhere', notice: { code: 'elsewhere' }, stored: true })
    else if (changes.size > 0) this.#go(next, { notice: this.value.notice, stored: true })
    if (gone) this.say({ code: 'gone' })
  }

  undo(): void {
    this.absorb()
    if (this.#left) this.#return(this.#left)
    else this.#move('undo', 'undone')
  }

  #return({ held, history, link }: Left): void {
    this.#visit(history, link)
    this.#go(held, { notice: { code: 'undone', what: '' } })
  }

  redo(): void {
    this.absorb()
    this.#move('redo', 'redone')
  }

  #move(way: 'undo' | 'redo', code: 'undone' | 'redone'): void {
    const before = this.value.held.parts
    let place: string[] | null = null
    // A step that was typed back by hand is nothing to be seen: the one before it is meant.
    while (!place && this.#history[way](this.#swap)) place = placeOf(before, this.value.held.parts)
    if (place) this.say({ code, what: partAt(place) })
  }

  readonly #swap = (change: Change): Change => {
    const { parts, open } = this.value.held
    const changes = [...change].filter(([key]) => key !== OPEN)
    const after = settled(withChanges(parts, changes), change.get(OPEN) ?? open)
    this.#go(after)
    return replaced({ parts, open }, new Set([...change.keys(), ...changedKeys(parts, after.parts)]))
  }

  /** Opens another workshop. No step: nothing is typed by it. */
  choose(key: string): void {
    this.absorb()
    this.#go(settled(this.value.held.parts, key))
  }

  add(shop = blankShop()): void {
    this.absorb()
    this.#go(holding(this.value.held.parts, shop), { step: '' })
  }

  copy(): void {
    const shop = shopOf(this.value.held)
    const { workshop } = shop
    this.add({ ...shop, workshop: { ...workshop, name: `${workshop.name} (copy)`.trim() } })
  }

  remove(): void {
    this.absorb()
    const { parts, open } = this.value.held
    const what = shopOf(this.value.held).workshop.name
    const after = settled(withChanges(parts, [[open, undefined]]), null)
    this.#go(after, { step: '', notice: { code: 'removed', what } })
  }

  /** Takes in a workshop and its threads from elsewhere, beside what is there; alone, when that is a demonstration. */
  takeIn(shop: Shop, page: Page): void {
    this.absorb()
    const { held } = this.value
    const notice: Notice = { code: 'opened', what: shop.workshop.name }
    const [key, one] = shopsOf(held).find(([, known]) => same(known, shop)) ?? [newKey(), shop]
    const parts = this.demo ? [] : held.parts
    const own = this.demo ? page : withPage(pageOf(held), page)
    this.#go(holding([...parts, [PAGE, own]], one, key), { step: '', notice })
  }

  /** Shows a question that came with a link, and leaves alone what is the person's own; what came before is a step. */
  visit(shop: Shop, page: Page, link: string): void {
    const step = this.#own ? { step: '' } : {}
    this.#visit(this.#own ? this.#history : new History(this.now), link)
    this.#go(holding([[PAGE, page]], shop, VISIT), step)
  }

  #visit(history: History, link: string): void {
    this.#left = null
    this.#link = link
    this.#own ??= { held: this.value.held, history: this.#history }
    this.#history = history
  }

  /** Back to what is the person's own. */
  leave(): void {
    if (!this.#own) return
    const { held, history } = this.#own
    const left = { held: this.value.held, history: this.#history, link: this.#link }
    this.#own = null
    this.#history = history
    this.tab.put(VISIT, undefined)
    this.#go(held, { stored: true })
    this.absorb()
    if (left.history.steps.back === 0) return
    this.#left = left
    this.say({ code: 'left' })
  }

  /** Makes the question from the link the person's own. */
  stay(): void {
    const { held } = this.value
    this.leave()
    this.takeIn(shopOf(held), pageOf(held))
  }

  #go(after: Held, { step, notice = null, stored = false }: Way = {}): void {
    const before = this.value.held
    const keys = changedKeys(before.parts, after.parts)
    if (step !== undefined && placeOf(before.parts, after.parts)) {
      this.#history.note(replaced(before, keys), step)
      this.#left = null
      this.demo = false
    }
    const kept = stored ? this.value.kept : this.#put(keys, after)
    const lost = this.value.kept && !kept
    this.set({ held: after, kept, visiting: this.#own !== null, notice: lost ? { code: 'not-kept' } : notice })
    this.job.show(typedOf(after), before.open !== after.open)
  }

  #put(keys: readonly string[], held: Held): boolean {
    if (this.#own) return this.tab.put(VISIT, { link: this.#link, shop: shopOf(held), page: pageOf(held) })
    for (const key of keys) this.#unsaved.add(key)
    for (const key of this.#unsaved) {
      if (this.drawer.put(key, held.parts.get(key))) this.#unsaved.delete(key)
    }
    this.drawer.put(OPEN, held.open)
    this.tab.put(LOOK, { open: held.open, thread: pageOf(held).thread })
    if (this.#unsaved.size > 0) return false
    this.drawer.dropFirst()
    return true
  }
}

const unchanged = <T extends object>(old: T, now: T): boolean =>
  Object.entries(now).every(([key, value]) => same(Reflect.get(old, key), value))

/** What stood in these places, to be put back. A change of a workshop is put back with that workshop open. */
function replaced({ parts, open }: Held, keys: Iterable<string>): Change {
  const back = new Map<string, unknown>()
  for (const key of keys) {
    if (key !== PAGE) back.set(OPEN, open)
    if (key !== OPEN) back.set(key, parts.get(key))
  }
  return back
}

/** The name of the part where a change was made. */
const partAt = ([key, part = key === PAGE ? 'threads' : 'workshop', within = part]: readonly string[]): string =>
  part === 'workshop' || part === 'view' ? within : part
