import type { GearName } from './contract.js'
import type { Amount, Labelled, Length } from './figure.js'

/** A gear to be made. */
export interface GearSheet {
  kind: 'gear'
  title: string
  /** `shift` in modules. */
  gear: GearName & { pressureAngle: Amount; shift: number }
  blank: { diameter: Length; text: string }
  pitchDiameter: Length
  rootDiameter: Length
  /** Feed from touching the blank. */
  depth: Length
  /** Null when no bore was given; `enough` says whether the wall is what was wanted. */
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
    /** As the set counts its cutters, in the range 1 to 8. */
    number: number | null
    /** Index into the cutters given. */
    owned: number | null
    text: string
  }
  /** Null without a head. */
  indexing: GearIndexing | null
  baseTangent: { teeth: number; length: Length; text: string }
  chordal: { thickness: Length; height: Length; text: string }
  /** Whether a rack would `undercut` it, and the count of teeth `from` which it would not. */
  undercut: { undercut: boolean; from: number; text: string }
  cautions: { code: string; message: string; source: string }[]
}

/** How to index the gear on the head at hand. */
export interface GearIndexing {
  /** 'impossible': this head cannot; `text` says the way out and the table is empty. */
  kind: 'plain' | 'compound' | 'approximate' | 'impossible'
  /** Index of the plate counted from 1. */
  plate: number | null
  /** Whole turns and spaces of a circle, named by its count of holes; when approximate, only the first of steps that differ. */
  moves: { turns: number; holes: number; circle: number; text: string }[]
  /** The same move in other circles. */
  others: string[]
  /** The largest error, of the work; null when exact. */
  worst: Amount | null
  text: string
  /**
   * Each place `at` turns and holes counted from zero, so that nothing adds up. `error` in crank turns, exactly; '0' when exact.
   * `out` is the same in degrees of the work; null when exact.
   */
  table: (Labelled & { division: number; at: string[]; error: string; out: Amount | null })[]
  reminders: { code: string; message: string }[]
}
