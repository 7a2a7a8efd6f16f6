import type { Form, Nose } from '@trainwright/threads'

/**
 * The thread besides its pitch, as the sheet is asked for it. Lengths in mm, angles in degrees; numbers above 0, up to
 * 10000, unless said otherwise.
 */
export interface ThreadWork {
  form: Form
  /** Nominal diameter of the screw. Exactly one of the two diameters. */
  major?: number
  /** Effective diameter, as measured. */
  effective?: number
  /** What is cut: the screw (default) or the thread in the nut. */
  cut?: 'screw' | 'nut'
  /** Length over which screw and nut engage. */
  engagement?: number
  /**
   * ISO 965-1 for the metric form ('6g', '6H'), 'close' or 'normal' for BA. Not together with `allowance`. It counts from the
   * nominal diameter: with `effective` from that of the published thread which was measured, and the sheet works to that.
   */
  class?: string
  /** For threads without a class: how far the effective diameter may lie below (screw) or above (nut) its nominal. */
  allowance?: number
  /** Compound slide, from the cross-slide's line of travel; default 0, straight in. */
  compound?: number
  /** Default 'form'; 'sharp' leaves the crests of the sharp triangle. For a screw only. */
  crest?: 'form' | 'sharp'
  /** Nose of the tool; default the form's own root. */
  nose?: Nose
  /** Passes to full depth, a count of 1 to 200; default by the pitch. */
  passes?: number
  /** The first cut, mm straight in; instead of `passes`. */
  firstCut?: number
  /** Passes more at full depth, whole, 0 to 20; default 2 (common practice, no source). */
  springPasses?: number
  /** Width of the run-out groove. */
  groove?: number
  /** Width of the tool along the work where it leaves it; default a pitch (common practice, no source). */
  tool?: number
  /** Seconds from seeing the tool arrive to having it out; default 0.5. */
  reaction?: number
  /** Lines counted on the scratch pass; default 11, that is ten leads. */
  crests?: number
  /** What the mating part wants. */
  mate?: {
    /** Sizes of the other part: of the nut for a screw, of the screw for a nut. */
    part?: boolean
    /** A tap made at home: flutes default 4; tolerance of the nut's effective diameter default 0.12 p + 0.03. */
    tap?: boolean | { flutes?: 2 | 3 | 4; tolerance?: number }
    /** Depth of thread wanted in the nut, 0.3 to 1 of the form's own; default by the tapping drill's rule. */
    engagement?: number
  }
}
