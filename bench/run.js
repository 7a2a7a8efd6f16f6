// Side by side, in one run:  npm run bench [-- quick]
// Each job runs in processes of its own, the rivals in turn, three rounds each; the table gives the median of the rounds'
// medians, the range over all rounds, the first call, and how many times faster ours is than the rival.
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { argv, execPath, version } from 'node:process'
import { fileURLToPath } from 'node:url'
import { figure } from './figures.js'
import { boxText, wantedText } from './questions.js'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const scratch = mkdtempSync(join(tmpdir(), 'trainwright-bench-'))
const quick = argv.includes('quick')
const has = (command) => spawnSync('sh', ['-c', `command -v ${command}`]).status === 0

const node = (job, times, warmUp) => () =>
  JSON.parse(
    execFileSync(execPath, ['--expose-gc', here('measure.js'), job, String(times), String(warmUp)], {
      encoding: 'utf8',
    }),
  )

function compiled(box) {
  const program = join(scratch, 'nested-loops')
  execFileSync('g++', ['-O3', '-std=c++17', '-o', program, here('plain/nested-loops.cpp')])
  return () => {
    const { physical, ms } = JSON.parse(
      execFileSync(program, [wantedText, '500', '3', ...boxText[box].split(' ')], { encoding: 'utf8' }),
    )
    return {
      result: `${physical.join(', ')} choices of physical gears`,
      first: ms,
      median: ms,
      low: ms,
      high: ms,
      peak: 0,
    }
  }
}

/** A general constraint solver that lists the same sets, one run for each number of stages. */
const solver = (box) => () => {
  const began = performance.now()
  const counts = [1, 2, 3].map((stages) => {
    const data = execFileSync(execPath, [
      here('plain/sets-data.js'),
      wantedText,
      '500',
      String(stages),
      ...boxText[box].split(' '),
    ])
    const file = join(scratch, 'sets.dzn')
    writeFileSync(file, data)
    const text = execFileSync('minizinc', ['--solver', 'gecode', '-a', here('plain/sets.mzn'), file], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    })
    return text.split('----------').length - 1
  })
  const ms = performance.now() - began
  return { result: `${counts.join(', ')} sets`, first: ms, median: ms, low: ms, high: ms, peak: 0 }
}

const missing = (what) => ({ missing: what })
const cpp = (box) => (has('g++') ? compiled(box) : missing('no g++ on PATH'))
const gecode = (box) => (has('minizinc') ? solver(box) : missing('no minizinc on PATH'))

/** Ours first, then its rivals. */
const comparisons = [
  ['All sets, 12 gears', { ours: node('find 12', 70, 20), 'nested loops, JavaScript': node('loops 12', 5, 2) }],
  ['All sets, 20 gears', { ours: node('find 20', 70, 20), 'nested loops, JavaScript': node('loops 20', 5, 2) }],
  [
    'All sets, 40 gears',
    {
      ours: node('find 40', 70, 20),
      'nested loops, JavaScript': node('loops 40', 3, 1),
      'nested loops, C++ -O3': cpp('40'),
      'Gecode by MiniZinc': gecode('40'),
    },
  ],
  ['Few sets clear, 40 gears', { ours: node('find hard', 70, 20) }],
  ['All sets, 100 gears', { ours: node('find 100', 3, 1) }],
  [
    'Banjo, roomy, 20 gears',
    { ours: node('banjo roomy 20', 40, 20), 'one by one': node('plain banjo roomy 20', 1, 0) },
  ],
  [
    'Banjo, tight, 20 gears',
    { ours: node('banjo tight 20', 40, 20), 'one by one': node('plain banjo tight 20', 1, 0) },
  ],
  [
    'Banjo, roomy, 40 gears',
    { ours: node('banjo roomy 40', 20, 5), ...(!quick && { 'one by one': node('plain banjo roomy 40', 1, 0) }) },
  ],
  [
    'Banjo, tight, 40 gears',
    { ours: node('banjo tight 40', 20, 5), ...(!quick && { 'one by one': node('plain banjo tight 40', 1, 0) }) },
  ],
  [
    'One gear to make, 12 gears',
    { ours: node('one gear 12', 25, 10), 'count by count': node('count by count 12', 1, 0) },
  ],
  [
    'One gear to make, 20 gears',
    { ours: node('one gear 20', 25, 10), 'count by count': node('count by count 20', 1, 0) },
  ],
  ['Two gears to make, 12 gears', { ours: node('two gears 12', 4, 1) }],
  ['Two gears to make, 20 gears', { ours: node('two gears 20', 4, 1) }],
]

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor((list.length - 1) / 2)]

function row(name, rounds) {
  const middle = median(rounds.map((r) => r.median))
  const range = `${figure(Math.min(...rounds.map((r) => r.low)))} to ${figure(Math.max(...rounds.map((r) => r.high)))}`
  const memory = Math.max(...rounds.map((r) => r.peak))
  return { name, middle, range, first: rounds[0].first, memory, result: rounds[0].result }
}

console.log(`${cpus()[0].model}, ${cpus().length} cores, node ${version}, ${new Date().toISOString().slice(0, 10)}\n`)
console.log('| question | method | median | range | first call | memory | ours is faster by | finds |')
console.log('|---|---|---|---|---|---|---|---|')
for (const [title, methods] of comparisons) {
  const rounds = new Map(Object.keys(methods).map((name) => [name, []]))
  for (let round = 0; round < (quick ? 1 : 3); round++) {
    for (const [name, run] of Object.entries(methods)) {
      // What takes over ten seconds is run once.
      const slow = round > 0 && rounds.get(name)[0]?.median > 10_000
      if (typeof run === 'function' && !slow) rounds.get(name).push(run())
    }
  }
  const ours = row('ours', rounds.get('ours'))
  for (const [name, run] of Object.entries(methods)) {
    if (typeof run !== 'function') {
      console.log(`| ${title} | ${name} | ${run.missing} | | | | | |`)
      continue
    }
    const one = row(name, rounds.get(name))
    const faster = name === 'ours' ? '' : `${Math.round(one.middle / ours.middle)} x`
    const memory = one.memory > 0 ? `${(one.memory / 1e6).toFixed(0)} MB` : ''
    console.log(
      `| ${title} | ${name} | ${figure(one.middle)} | ${one.range} | ${figure(one.first)} | ${memory} | ${faster} | ${one.result} |`,
    )
  }
}
