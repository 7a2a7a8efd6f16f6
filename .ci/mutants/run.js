import { spawnSync } from 'node:child_process'
import { readFileSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

// Changes the sources in thousands of small ways, one at a time, and counts what the tests find: `npm run mutants`, or
// with the names of packages, or of one package and a file of it. Ends with 1 when a package stays below its floor.

const floors = { measures: 90, gearcutting: 80, threads: 80, sheet: 80, trains: 80 }
/** Runs of each property; those of trains search. */
const runs = { measures: 20, trains: 5 }
/** Mutated in turn: what is not mutated runs at full speed, and all of trains is in the way of every search. */
const hot = ['arranger', 'at-once', 'supply', 'sweep', 'table'].map((name) => `search/${name}.ts`)
const parts = { trains: ['*.ts', 'banjo/*.ts', 'propose/*.ts', 'worker/*.ts', 'search/*.ts', ...hot] }
const root = fileURLToPath(new URL('../..', import.meta.url))
const asked = process.argv.slice(2)
const file = asked.at(-1)?.endsWith('.ts') ? asked.pop() : undefined
const names = asked.length ? asked : Object.keys(floors)
for (const name of names) if (!(name in floors)) throw new Error(`${name} is none of ${Object.keys(floors).join(', ')}`)

/** Where a mutant stands, what stood there and what stands there now, on one line. */
function line(file, source, { location: { start, end }, mutatorName, replacement, status }) {
  const rows = source.split('\n').slice(start.line - 1, end.line)
  rows[rows.length - 1] = rows.at(-1).slice(0, end.column - 1)
  rows[0] = rows[0].slice(start.column - 1)
  const short = (text) => {
    const plain = text.replace(/\s+/g, ' ')
    return plain.length > 70 ? `${plain.slice(0, 69)}…` : plain
  }
  const was = `${short(rows.join(' '))} -> ${short(replacement ?? '')}`
  return `  ${file}:${start.line}:${start.column} ${status === 'NoCoverage' ? 'not run, ' : ''}${mutatorName}: ${was}`
}

function run(name, files, report) {
  rmSync(report, { force: true })
  const ended = spawnSync('npx', ['stryker', 'run', '.ci/mutants/stryker.config.js'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: {
      RUNS: String(runs[name] ?? 10),
      ...process.env,
      MUTATED: name,
      MUTATED_FILES: files,
      // In their turn.
      MUTATED_APART: name in parts && !hot.includes(files) ? hot.join(' ') : '',
    },
  })
  if (ended.status !== 0) throw new Error(`the mutants of ${name} could not be run`)
  return Object.entries(JSON.parse(readFileSync(report, 'utf8')).files)
}

function mutate(name) {
  const began = Date.now()
  const counts = { Killed: 0, Timeout: 0, Survived: 0, NoCoverage: 0 }
  for (const files of file ? [file] : (parts[name] ?? ['**/*.ts']))
    for (const [path, { source, mutants }] of run(name, files, `${root}reports/mutants/${name}.json`))
      for (const mutant of mutants) {
        counts[mutant.status] = (counts[mutant.status] ?? 0) + 1
        if (mutant.status === 'Survived' || mutant.status === 'NoCoverage') console.log(line(path, source, mutant))
        if (mutant.status === 'Survived' && mutant.testsCompleted < mutant.coveredBy.length)
          throw new Error(`of the tests that reach mutant ${mutant.id} of ${path} not all were run`)
      }
  const found = counts.Killed + counts.Timeout
  const survived = counts.Survived + counts.NoCoverage
  const all = found + survived
  const score = (100 * found) / all
  const minutes = ((Date.now() - began) / 60_000).toFixed(1)
  return {
    row: `| ${name} | ${all} | ${found} | ${counts.Timeout} | ${survived} | ${score.toFixed(1)} % | ${floors[name]} % | ${minutes} |`,
    good: score >= floors[name],
  }
}

const { SAMPLE, SEED = '20260101' } = process.env
if (SAMPLE) console.log(`a sample: one stretch of ten lines in ${SAMPLE}, SEED=${SEED}`)
const results = names.map((name) => {
  const result = mutate(name)
  console.log(`${result.row}\n`)
  return result
})
console.log('\n| package | mutants | found | of these by time | survived | score | floor | minutes |')
console.log('|---|---|---|---|---|---|---|---|')
for (const { row } of results) console.log(row)
process.exitCode = results.every(({ good }) => good) ? 0 : 1
