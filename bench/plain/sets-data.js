// Data for sets.mzn, on standard output:
//   node sets-data.js <ratio, 254/195> <ppm, a whole number> <stages> <20x2 22 24 ...> > sets.dzn
import { argv } from 'node:process'
import { fileURLToPath } from 'node:url'
import { physicalGears } from './nested-loops.js'

const gcd = (a, b) => (b === 0n ? a : gcd(b, a % b))
const lowest = (n, d) => [n / gcd(n, d), d / gcd(n, d)]

/** The model's data for gears told apart by teeth, a ratio n / d and a tolerance of whole ppm. */
export function setsData(z, n, d, ppm, stages) {
  const teeth = [...new Set(z)].sort((a, b) => a - b)
  const bound = (side) => lowest(BigInt(n) * BigInt(1_000_000 + side * ppm), BigInt(d) * 1_000_000n)
  const [leastN, leastD] = bound(-1)
  const [mostN, mostD] = bound(1)
  return [
    `stages = ${stages};`,
    `kinds = ${teeth.length};`,
    `teeth = [${teeth}];`,
    `owned = [${teeth.map((t) => z.filter((u) => u === t).length)}];`,
    `least_n = ${leastN}; least_d = ${leastD};`,
    `most_n = ${mostN}; most_d = ${mostD};`,
    '',
  ].join('\n')
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const [ratio, ppm, stages, ...words] = argv.slice(2)
  const [n, d = '1'] = ratio.split('/')
  process.stdout.write(setsData(physicalGears(words.join(' ')), n, d, Number(ppm), Number(stages)))
}
