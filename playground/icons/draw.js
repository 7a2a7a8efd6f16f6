// Draws the icons that home screens want as PNG from the one SVG: node playground/icons/draw.js
import { readFile } from 'node:fs/promises'
import { launchChromium } from '../../.ci/launch-chromium.js'

const folder = new URL('../public/', import.meta.url)
const svg = await readFile(new URL('icon.svg', folder), 'utf8')
const ground = /rx="10" fill="(#\w+)"/.exec(svg)[1]

/** A maskable icon is cut to any shape: the ground goes to the edge, the gears stay in the middle four fifths. */
const icons = [
  { file: 'icon-192.png', size: 192, part: 1, behind: 'transparent' },
  { file: 'icon-512.png', size: 512, part: 1, behind: 'transparent' },
  { file: 'icon-maskable-512.png', size: 512, part: 0.8, behind: ground },
  { file: 'icon-touch-180.png', size: 180, part: 0.9, behind: ground },
]

const browser = await launchChromium()
for (const { file, size, part, behind } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size } })
  const style = `margin: 0; height: 100vh; display: grid; place-items: center; background: ${behind}`
  await page.setContent(`<body style="${style}">${svg.replace('<svg', `<svg width="${size * part}"`)}`)
  await page.screenshot({ path: new URL(file, folder).pathname, omitBackground: true })
}
await browser.close()
