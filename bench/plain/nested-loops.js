// Plain nested loops over the physical gears, with floats: what one writes first, here as the rival for speed.
// Drivers i < j < k and driven gears likewise, products hoisted out of the inner loops, nothing removed twice: gears
// that look alike count each time, and one kind may stand on both sides.
//   node nested-loops.js <ratio, 254/195> <ppm, 500> <most stages, 3> <20x2 22 24 ...>
import { argv } from 'node:process'
import { fileURLToPath } from 'node:url'

/** '20x2 22' as [20, 20, 22]. */
export const physicalGears = (/** @type {string} */ text) =>
  text
    .trim()
    .split(/\s+/)
    .flatMap((word) => {
      const [teeth, count = '1'] = word.split('x')
      return Array.from({ length: Number(count) }, () => Number(teeth))
    })

/** `z` less the gears at these places. */
const without = (z, ...taken) => z.filter((_, at) => !taken.includes(at))

/** Calls `each` with the teeth of drivers and driven of every hit of one stage; returns how many there are. */
function oneStage(z, low, high, each) {
  let hits = 0
  for (let i = 0; i < z.length; i++) {
    const least = z[i] / high
    const most = z[i] / low
    const left = without(z, i)
    for (let a = 0; a < left.length; a++) {
      if (left[a] >= least && left[a] <= most) {
        hits++
        if (each) each([z[i]], [left[a]])
      }
    }
  }
  return hits
}

function twoStages(z, low, high, each) {
  let hits = 0
  for (let i = 0; i < z.length; i++) {
    for (let j = i + 1; j < z.length; j++) {
      const drivers = z[i] * z[j]
      const least = drivers / high
      const most = drivers / low
      const left = without(z, i, j)
      for (let a = 0; a < left.length; a++) {
        for (let b = a + 1; b < left.length; b++) {
          const driven = left[a] * left[b]
          if (driven >= least && driven <= most) {
            hits++
            if (each) each([z[i], z[j]], [left[a], left[b]])
          }
        }
      }
    }
  }
  return hits
}

function threeStages(z, low, high, each) {
  let hits = 0
  for (let i = 0; i < z.length; i++) {
    for (let j = i + 1; j < z.length; j++) {
      const two = z[i] * z[j]
      for (let k = j + 1; k < z.length; k++) {
        const drivers = two * z[k]
        const least = drivers / high
        const most = drivers / low
        const left = without(z, i, j, k)
        for (let a = 0; a < left.length; a++) {
          for (let b = a + 1; b < left.length; b++) {
            const ab = left[a] * left[b]
            for (let c = b + 1; c < left.length; c++) {
              const driven = ab * left[c]
              if (driven >= least && driven <= most) {
                hits++
                if (each) each([z[i], z[j], z[k]], [left[a], left[b], left[c]])
              }
            }
          }
        }
      }
    }
  }
  return hits
}

const byStages = [oneStage, twoStages, threeStages]

/** How many choices of physical gears come within `ppm` of `ratio`, for 1, 2 and so on to `stages` (at most 3). */
export const countByLoops = (z, ratio, ppm, stages) =>
  byStages.slice(0, stages).map((loops) => loops(z, ratio * (1 - ppm / 1e6), ratio * (1 + ppm / 1e6)))

/** The same hits told apart by tooth counts only, less those of two stages or more with one count on both sides. */
export function countSetsByLoops(z, ratio, ppm, stages) {
  return byStages.slice(0, stages).map((loops) => {
    const sets = new Set()
    loops(z, ratio * (1 - ppm / 1e6), ratio * (1 + ppm / 1e6), (drivers, driven) => {
      const [top, below] = [drivers, driven].map((side) => side.sort((x, y) => x - y))
      if (top.length === 1 || !top.some((teeth) => below.includes(teeth))) sets.add(`${top} ${below}`)
    })
    return sets.size
  })
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const [ratioText, ppmText, stagesText, ...words] = argv.slice(2)
  const [n, d = '1'] = ratioText.split('/')
  const question = [physicalGears(words.join(' ')), Number(n) / Number(d), Number(ppmText), Number(stagesText)]
  const began = performance.now()
  const physical = countByLoops(...question)
  const ms = performance.now() - began
  console.log(JSON.stringify({ physical, sets: countSetsByLoops(...question), ms }))
}
