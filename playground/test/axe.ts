import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

// Evaluated, not added as a script tag: the page's own policy allows no script but its own.
// Its last value is left in the page: it is large, and takes long to bring over.
const source = `${readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')};0`

interface Axe {
  run(options: object): Promise<{ violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[] }>
}

/** What axe finds wrong on the page as it stands, one line each. By dark only the colours differ. */
export async function violations(page: Page): Promise<string[]> {
  const found: string[] = []
  await page.evaluate(source)
  for (const [colorScheme, runOnly] of [
    ['light', undefined],
    ['dark', ['color-contrast']],
  ] as const) {
    await page.emulateMedia({ colorScheme })
    const { violations } = await page.evaluate(
      (runOnly) =>
        (window as unknown as { axe: Axe }).axe.run({ resultTypes: ['violations'], ...(runOnly ? { runOnly } : {}) }),
      runOnly,
    )
    for (const { id, nodes } of violations) {
      for (const { html, failureSummary } of nodes) found.push(`${colorScheme}: ${id}: ${html} ${failureSummary}`)
    }
  }
  return found
}
