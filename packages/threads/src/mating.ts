import type { PitchText } from '@trainwright/measures'
import { checkCore, readThread, type ThreadRead } from './dimensions.js'
import type { Form } from './forms.js'
import { type Caution, caution } from './messages.js'
import { degrees, rounded } from './rounding.js'

interface NutQuestion {
  form: Form
  pitch: PitchText
  /** Nominal, mm. */
  major: number
}

/** A hole to be tapped; lengths in mm. */
export interface TappingDrill {
  /** mm. */
  hole: number
  /** Depth of thread left in the nut as a fraction of the form's own, from its major to its minor diameter. */
  engagement: number
}

/** Reads thread and hole; `full` is by how much the hole of a nut with all its depth of thread is under the nominal diameter. */
function readHole(q: NutQuestion): ThreadRead & { full: number; hole: number } {
  const thread = readThread(q)
  const { ask, pitch, profile, path, major, effective } = thread
  checkCore(effective, profile, ask, path)
  const least = rounded(effective - 2 * profile.nutDedendum)
  const full = major - least
  ask.one(null, 'engagement', 'hole')
  const wanted = ask.number('engagement', 0.3, 1, Math.min(pitch / full, 1))
  return { ...thread, full, hole: rounded(ask.number('hole', least, major, major - wanted * full)) }
}

/**
 * The hole for the mating nut: nominal diameter less the pitch (92 % of the full metric depth, 78 % Whitworth, 83 % BA; the
 * rule of metric drill tables, within the 77 to 87 % of BS 1157 for Whitworth), or for a wanted `engagement`; and the other
 * way, what a drill of `hole` mm leaves.
 * @throws InputError as threadDimensions, for an engagement outside 0.3 to 1, a hole outside minor to major diameter, or both.
 */
export function tappingDrill(q: NutQuestion & { engagement?: number; hole?: number }): TappingDrill {
  const { ask, major, full, hole } = readHole(q)
  ask.done()
  return rounded({ hole, engagement: (major - hole) / full })
}

/** One of a set of taps. */
export interface Chamfer {
  name: 'taper' | 'second' | 'bottoming'
  /** Chamfered threads, from and to. */
  threads: [number, number]
  /** Length of the chamfer for them, mm. */
  length: [number, number]
  /** Angle of the chamfer to the axis for them, degrees. */
  angle: [number, number]
}
/** A tap made at home; lengths in mm, angles in degrees. */
export interface Tap {
  /** Over the crests, at least, mm: they have to clear the screw's. */
  major: number
  /** [least, greatest], mm. */
  effective: [number, number]
  /** At the root, at most, mm. */
  minor: number
  /** Hole for the tap, mm. */
  hole: number
  /** Diameter at the point, so that it enters the hole, mm. */
  point: number
  chamfers: Chamfer[]
  /** Diameter left in the middle by the flutes, mm. */
  core: number
  cautions: Caution[]
}

// Threads chamfered, ANSI taper, plug and bottoming taps (Widia tapping catalogue, p. 99).
const chamfers = [
  ['taper', 7, 10],
  ['second', 3, 5],
  ['bottoming', 1, 2],
] as const

/**
 * A tap to be made when none can be bought. It cuts a nut 0.3 to 0.5 of the nut's tolerance above nominal, and stands 0.4
 * of it over the crests (the zones of ISO 2857, class 2, from memory). `tolerance`: of the nut's effective diameter, mm;
 * by default 0.12 p + 0.03 (BS 93). Chamfer lengths as published for taper, second and bottoming taps. Point 0.1 p under
 * the hole; core 0.4, 0.45 or 0.5 of the major diameter for 2, 3 or 4 flutes (common practice, no source).
 * @throws InputError as tappingDrill, for a number of flutes other than 2 to 4, or a tolerance out of range.
 */
export function homeMadeTap(q: NutQuestion & { tolerance?: number; flutes?: number; engagement?: number }): Tap {
  const { ask, pitch: p, profile, effective, hole, major: nominal } = readHole(q)
  const flutes = ask.whole('flutes', 2, 4, 4)
  const tolerance = ask.number('tolerance', 1e-4, p / 2, 0.12 * p + 0.03)
  ask.done()
  const at = (height: number): number => effective + 2 * height
  const major = at(profile.nutAddendum) + 0.4 * tolerance
  const point = hole - 0.1 * p
  const angle = (threads: number): number => degrees(Math.atan((major - point) / 2 / (threads * p)))
  return rounded<Tap>({
    major,
    effective: [effective + 0.3 * tolerance, effective + 0.5 * tolerance],
    minor: Math.min(at(-profile.nutDedendum), at(-profile.dedendum) + 0.4 * tolerance),
    hole,
    point,
    chamfers: chamfers.map(([name, from, to]) => ({
      name,
      threads: [from, to],
      length: [from * p, to * p],
      angle: [angle(from), angle(to)],
    })),
    core: nominal * [0.4, 0.45, 0.5][flutes - 2],
    cautions: [caution('tap')],
  })
}
