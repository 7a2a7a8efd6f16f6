// Runs every check in order, goes on after a failure, and ends with `N passed, N failed`.
// Each check counts as one; the test runs count by their tests. Uses nothing that is not there before set-up.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { findChromium } from './chromium.js'
import { countTests } from './count-tests.js'
import { run } from './run-command.js'

const noChromium = `No chromium on this machine: the browser tests need one.
  Debian, Ubuntu:  sudo apt-get update && sudo apt-get install -y chromium
  macOS:           brew install --cask chromium
  or set CHROMIUM to the path of a Chromium or Chrome that is there.`

let passed = 0
const failures = []

const heading = (name) => console.log(`\n── ${name}`)

/** Keeps the counts; a failure is told again at the end with the command that repeats it. */
function note(name, outcome, again) {
  passed += outcome.passed
  if (outcome.failed > 0) failures.push({ name, failed: outcome.failed, again })
}

async function check(name, command, minutes = 2) {
  heading(`${name}: ${command}`)
  const fine = await run(command, minutes)
  console.log(`${fine ? 'passed' : 'FAILED'}: ${name}`)
  note(name, fine ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }, command)
  return fine
}

async function tests(name, project) {
  const command = `npx vitest run --project ${project}`
  heading(`${name}: ${command}`)
  const folder = mkdtempSync(join(tmpdir(), 'trainwright-'))
  const file = join(folder, 'report.json')
  const fine = await run(`${command} --reporter=default --reporter=json --outputFile.json="${file}"`, 8)
  note(
    name,
    countTests(() => readFileSync(file, 'utf8'), fine),
    command,
  )
  rmSync(folder, { recursive: true, force: true })
}

async function browserTests() {
  if (findChromium()) return tests('browser tests', 'browser')
  heading('browser tests')
  console.log(noChromium)
  if (process.env.CI === 'true') note('browser tests', { passed: 0, failed: 1 }, 'npm test')
  else console.log('The browser tests were skipped.')
}

if (await check('set-up', 'npm run --silent setup', 5)) {
  await check('lint and boundaries', 'npm run --silent lint')
  await check('types and build', 'npm run --silent build')
  await check('types of the tests', 'npm run --silent types')
  await check('nothing unused', 'npm run --silent unused')
  await tests('unit and property tests', 'unit')
  await tests('the packages from outside', 'library')
  await browserTests()
}

if (failures.length > 0) {
  heading('what failed')
  for (const { name, failed, again } of failures) console.log(`${name}: ${failed} failed; again with: ${again}`)
}
const failed = failures.reduce((sum, one) => sum + one.failed, 0)
process.exitCode = failed > 0 ? 1 : 0
console.log(`\n${passed} passed, ${failed} failed`)
