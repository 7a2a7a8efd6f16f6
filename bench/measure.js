// Runs one job in this process and prints what it took, as JSON:
//   node --expose-gc bench/measure.js 'find 40' <times to run> <times left out at the start>
import { argv, memoryUsage, resourceUsage } from 'node:process'
import { jobs } from './jobs.js'

const [name, times, warmUp] = [argv[2], Number(argv[3]), Number(argv[4])]
const job = jobs[name]

globalThis.gc?.()
const idle = memoryUsage().rss
let result = ''
const ms = []
for (let i = 0; i < times; i++) {
  const began = performance.now()
  result = job()
  ms.push(performance.now() - began)
}
// The greatest size that the process ever had, whenever that was: heap, array buffers and compiled code alike.
const peak = resourceUsage().maxRSS * 1024 - idle
const warm = ms.slice(Math.min(warmUp, ms.length - 1)).sort((a, b) => a - b)
const at = (share) => warm[Math.floor(share * (warm.length - 1))]
console.log(JSON.stringify({ result, first: ms[0], median: at(0.5), low: at(0.05), high: at(0.95), peak }))
