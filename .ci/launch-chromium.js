import { chromium } from 'playwright-core'
import { findChromium } from './chromium.js'

/** A browser in a container, that talks to nobody but the page's server. */
const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/**
 * Starts the browser of the browser tests, without a window.
 * @returns {Promise<import('playwright-core').Browser>}
 * @throws {Error} when the machine has none
 */
export async function launchChromium() {
  const executablePath = findChromium()
  if (!executablePath) throw new Error('no chromium on PATH, and CHROMIUM does not name one')
  return chromium.launch({ executablePath, args: quiet })
}
