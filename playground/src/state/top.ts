import type { Drawer } from './drawer.js'
import { Store } from './store.js'

/** The sheets of the page; the one on top is seen and printed. */
export const SHEETS = ['train', 'gear', 'chart'] as const
export type SheetName = (typeof SHEETS)[number]

/** Where a tab keeps which sheet lies on top. */
export const TOP = 'top'

export const sheetName = (x: unknown): SheetName => SHEETS.find((name) => name === x) ?? SHEETS[0]

/** Which sheet lies on top in this tab, also after it is loaded again. */
export class Top extends Store<SheetName> {
  constructor(name: SheetName, tab: Drawer) {
    super(name)
    this.watch(() => tab.put(TOP, this.value))
  }
}
