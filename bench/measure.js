// Runs one job in this process and prints what it took, as JSON:
//   node --expose-gc bench/measure.js 'find 40' <times to run> <times left out at the start>
import { argv, memoryUsage } from 'node:process'
import { jobs } from './jobs.js'

const [name, times, warmUp] = [argv[2], Number(argv[3]), Number(argv[4])]
const job = jobs[name]
const held = () => {
  const { heapUsed, arrayBuffers } = memoryUsage()
  return heapUsed + arrayBuffers
}

globalThis.gc?.()
const idle = held()
let peak = 0
let result = ''
const ms = []
for (let i = 0; i < times; i++) {
  const began = performance.now()
  result = job()
  ms.push(performance.now() - began)
  // Asking for the memory takes time and caches: never between two runs that count.
  if (i < warmUp || i === times - 1) peak = Math.max(peak, held() - idle)
}
const warm = ms.slice(Math.min(warmUp, ms.length - 1)).sort((a, b) => a - b)
const at = (share) => warm[Math.floor(share * (warm.length - 1))]
console.log(JSON.stringify({ result, first: ms[0], median: at(0.5), low: at(0.05), high: at(0.95), peak }))
