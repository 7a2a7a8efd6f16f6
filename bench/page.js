// The page in a browser:  npm run bench:page [-- quick]
// Cold visits, each in a browser context of its own with nothing kept, on a laptop and on a telephone; then keystrokes in
// the pitch field, with the 20-gear box typed in. "Slowed" has the page's thread slowed four times by the browser; workers
// keep their speed, for which chromium has no brake.
import { cpus } from 'node:os'
import { argv, version } from 'node:process'
import { fileURLToPath } from 'node:url'
import { preview } from 'vite'
import { launchChromium } from '../.ci/launch-chromium.js'
import { at, figure } from './figures.js'
import { watchPage } from './page-watch.js'
import { boxText } from './questions.js'

const quick = argv.includes('quick')
const visits = quick ? 3 : 15
const rounds = quick ? 1 : 3
const screens = { laptop: { width: 1280, height: 900 }, phone: { width: 390, height: 844 } }
const speeds = { '': 1, ', slowed 4 x': 4 }

/** Typed one after the other, key by key; each stroke that leaves a pitch which can be read is a question. */
const pitches = [
  '0.635 mm',
  '1.27 mm',
  '26 tpi',
  '11.5 tpi',
  '0.75 module',
  '254/195 mm',
  '3/16 in',
  '2.5',
  '40 dp',
  '19 tpi',
]

const server = await preview({
  root: fileURLToPath(new URL('../playground', import.meta.url)),
  preview: { port: 0, host: '127.0.0.1' },
  logLevel: 'warn',
})
const url = server.resolvedUrls.local[0]
const browser = await launchChromium()

async function open(size, rate) {
  const context = await browser.newContext({ viewport: size })
  const page = await context.newPage()
  await (await context.newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate })
  await page.addInitScript(watchPage)
  await page.goto(url)
  await page.waitForFunction(() => window.seen.answer > 0)
  return { context, page }
}

/** ms from the start of the navigation to the frame with the first answer; tasks over 50 ms in it and in what follows. */
async function visit(size, rate) {
  const { context, page } = await open(size, rate)
  // The set-up sheet follows the answer, and the files are laid by for days without network.
  await page.waitForSelector('.parts')
  await page.waitForTimeout(1500)
  const { answer, long, shift } = await page.evaluate(() => window.seen)
  await context.close()
  return { answer, long, shift }
}

/** ms from each stroke to the last change of the answer that it brings about. */
async function type(size, rate) {
  const { context, page } = await open(size, rate)
  await page.waitForSelector('.parts')
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true
  })
  await page.fill('#f-kinds-0-line', boxText['20'])
  await page.fill('#f-lathe-studs', '3')
  await page.click('#f-wanted-pitch')
  await page.waitForTimeout(1500)
  await page.evaluate(() => window.seen.long.splice(0))
  const strokes = []
  for (const pitch of pitches) {
    await page.keyboard.press('Control+A')
    for (const key of pitch) {
      await page.evaluate(() => {
        window.seen.stroke = null
      })
      await page.keyboard.type(key)
      await page.waitForTimeout(quick ? 150 : 250)
      const { stroke } = await page.evaluate(() => window.seen)
      if (stroke?.answered) strokes.push(stroke.answered)
    }
  }
  const { long } = await page.evaluate(() => window.seen)
  await context.close()
  return { strokes, long }
}

const table = []
function row(what, list, aim, told = figure) {
  const sorted = [...list].sort((a, b) => a - b)
  table.push([what, sorted.length, ...[0.5, 0.05, 0.95, 1].map((share) => told(at(sorted, share))), aim])
}
/** The longest task of each run; those that the browser does not report are under its 50 ms. */
function longTasks(what, runs, aim) {
  const longest = runs.map(({ long }) => Math.max(0, ...long))
  row(what, longest, aim, (ms) => (ms === 0 ? 'under 50 ms' : figure(ms)))
}

for (const [screen, size] of Object.entries(screens)) {
  for (const [slowed, rate] of Object.entries(speeds)) {
    const runs = []
    for (let i = 0; i < visits; i++) runs.push(await visit(size, rate))
    row(
      `First answer, ${screen}${slowed}`,
      runs.map(({ answer }) => answer),
      rate > 1 ? '1.0 s' : '',
    )
    longTasks(`Longest task of a visit, ${screen}${slowed}`, runs, rate > 1 ? '' : '50 ms')
    const shifts = Math.max(...runs.map(({ shift }) => shift))
    if (shifts > 0) console.log(`Layout shift, ${screen}${slowed}: ${shifts.toFixed(4)}`)
  }
}
for (const [slowed, rate] of Object.entries(speeds)) {
  const runs = []
  for (let i = 0; i < rounds; i++) runs.push(await type(screens.laptop, rate))
  row(
    `Keystroke to answer, 20 gears${slowed}`,
    runs.flatMap(({ strokes }) => strokes),
    rate > 1 ? '' : '50 ms at 95 %',
  )
  longTasks(`Longest task while typing${slowed}`, runs, rate > 1 ? '' : '50 ms')
}
await browser.close()
server.httpServer.closeAllConnections()
await server.close()

console.log(`${cpus()[0].model}, ${cpus().length} cores, node ${version}, ${new Date().toISOString().slice(0, 10)}\n`)
console.log('| what | runs | median | 5 % | 95 % | worst | aim |')
console.log('|---|---|---|---|---|---|---|')
for (const cells of table) console.log(`| ${cells.join(' | ')} |`)
