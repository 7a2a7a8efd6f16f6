import type { GearName } from './contract.js'
import type { Amount, Labelled, Length } from './figure.js'

/** A gear to be made. */
export interface GearSheet {
  kind: 'gear'
  title: string
  gear: GearName & { pressureAngle: Amount; shift: number }
  blank: { diameter: Length; text: string }
  pitchDiameter: Length
  rootDiameter: Length
  /** Feed from touching the blank. */
  depth: Length
  bore: {
    diameter: Length
    keyway: { width: Length; depth: Length } | null
    wall: Length
    enough: boolean
    text: string
  } | null
  cutter: {
    /** Range first: what is stamped on the cutter rules. Null below 12 teeth. */
    range: string | null
    number: number | null
    /** Index into the cutters given. */
    owned: number | null
    text: string
  }
  /** Null without a head. */
  indexing: GearIndexing | null
  baseTangent: { teeth: number; length: Length; text: string }
  chordal: { thickness: Length; height: Length; text: string }
  undercut: { undercut: boolean; from: number; text: string }
  cautions: { code: string; message: string; source: string }[]
}

export interface GearIndexing {
  /** 'impossible': this head cannot; `text` says the way out and the table is empty. */
  kind: 'plain' | 'compound' | 'approximate' | 'impossible'
  /** Counted from 1. */
  plate: number | null
  moves: { turns: number; holes: number; circle: number; text: string }[]
  /** The same move in other circles. */
  others: string[]
  /** The largest error, of the work; null when exact. */
  worst: Amount | null
  text: string
  /** Each place counted from zero, so that nothing adds up. `error` in crank turns, exactly; '0' when exact. */
  table: (Labelled & { division: number; at: string[]; error: string })[]
  reminders: { code: string; message: string }[]
}
