import type { LitElement } from 'lit'
import type { SheetName } from '../state/top.js'
import type { Desk } from './base.js'

/** Lays another sheet on top and goes there. */
export async function turnTo({ top }: Desk, sheet: SheetName): Promise<void> {
  top.set(sheet)
  const sheets = document.querySelector<LitElement>('tw-sheets')!
  await sheets.updateComplete
  sheets.querySelector<HTMLElement>(`#sheet-${sheet}`)!.focus({ preventScroll: true })
  sheets.scrollIntoView({ block: 'start' })
}
