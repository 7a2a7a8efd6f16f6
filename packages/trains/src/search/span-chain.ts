import { HAIR } from '../bounds.js'
import { type Chain, freeChain } from './chain.js'
import { PLAY, type Rules } from './rules.js'

const MOST_MESHES = 16

/** Studs may stand anywhere, but the distance from input to output shaft is known: the meshes must be able to span it. */
export function makeSpanChain({ centre, count, module, anyReach }: Rules, distance: number): Chain {
  const sums = new Float64Array(MOST_MESHES)
  const longest = new Float64Array(MOST_MESHES)
  let meshes = 0
  return {
    ...freeChain,
    start() {
      meshes = 0
    },
    push(a, b) {
      const d = centre[a * count + b]
      const before = meshes++
      sums[meshes] = sums[before] + d
      longest[meshes] = Math.max(longest[before], d)
      return true
    },
    pop() {
      meshes--
    },
    close(a, b, _walk, spare) {
      const d = centre[a * count + b]
      if (meshes === 0 && meshesDirectly(distance, d, module[a])) return spare
      // A direct mesh is out by what it is too near, or too far past its play.
      const play = meshes === 0 && distance > d ? PLAY * module[a] : 0
      const short = 2 * Math.max(longest[meshes], d, distance) - sums[meshes] - d - distance - play
      if (anyReach) return -Math.max(short, 0)
      return meshes > 0 && short <= HAIR ? spare : null
    },
  }
}

/** A mesh that nothing can adjust holds from its nominal distance to a tenth of a module more. */
export const meshesDirectly = (distance: number, nominal: number, module: number): boolean =>
  distance >= nominal - HAIR && distance <= nominal + PLAY * module + HAIR
