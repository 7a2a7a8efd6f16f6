import type { Browser, Page } from 'playwright-core'
import { preview } from 'vite'
import { launchChromium } from '../../.ci/launch-chromium.js'

export interface BuiltPage {
  /** Where the page is served. */
  url: string
  browser: Browser
  /** A page in a context of its own, opened, at a link if one is given. Errors of the page itself are kept in `errors`. */
  open(size?: { width: number; height: number }, link?: string): Promise<{ page: Page; errors: string[] }>
  close(): Promise<void>
}

const playground = new URL('..', import.meta.url).pathname

/** Serves what `npm run build` made, or another built page, on a free port, and starts the browser. */
export async function serveBuiltPage(root = playground, outDir = 'dist'): Promise<BuiltPage> {
  const server = await preview({ root, build: { outDir }, preview: { port: 0, host: '127.0.0.1' }, logLevel: 'warn' })
  const url = server.resolvedUrls?.local[0]
  if (!url) throw new Error('the preview server has no address')
  const browser = await launchChromium()
  return {
    url,
    browser,
    async open(size = { width: 1280, height: 800 }, link = '') {
      const context = await browser.newContext({ viewport: size })
      const page = await context.newPage()
      const errors: string[] = []
      page.on('pageerror', (error) => errors.push(String(error)))
      page.on('console', (message) => message.type() === 'error' && errors.push(message.text()))
      await page.goto(url + link)
      return { page, errors }
    },
    async close() {
      await browser.close()
      ;(server.httpServer as { closeAllConnections?: () => void }).closeAllConnections?.()
      await server.close()
    },
  }
}
