import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

// The first is Debian's chromium without a window: the same browser, in half the time.
const names = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome']
const macOS = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

/** @param {string} path */
const runs = (path) => {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/**
 * Where the browser of the browser tests is: CHROMIUM when it is set, else the first one on PATH.
 * @returns {string | undefined} undefined when the machine has none
 */
export function findChromium() {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean)
  const onPath = names.flatMap((name) => folders.map((folder) => join(folder, name)))
  return [...(process.env.CHROMIUM ? [process.env.CHROMIUM] : [...onPath, ...macOS])].find(runs)
}
