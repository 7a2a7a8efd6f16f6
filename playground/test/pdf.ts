import type { Page } from 'playwright-core'

/** Text as it can be compared: no white space, and one of the two micro signs. */
export const squeezed = (text: string): string => text.normalize('NFKC').replace(/\s+/g, '')

/** What is printed, page by page, without white space: lines break where they like. */
export async function printed(page: Page): Promise<string[]> {
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const data = new Uint8Array(await page.pdf({ preferCSSPageSize: true }))
  const pdf = await getDocument({ data, verbosity: 0, isEvalSupported: false }).promise
  const pages: string[] = []
  for (let i = 1; i <= pdf.numPages; i++) {
    const { items } = await (await pdf.getPage(i)).getTextContent()
    pages.push(squeezed(items.map((item) => ('str' in item ? item.str : '')).join('')))
  }
  await pdf.destroy()
  return pages
}
