import type { Rational } from '@trainwright/measures'
import type { DialAnswer } from '@trainwright/threads'
import type { GearRef, Hand, ShaftName } from '@trainwright/trains'
import type { Amount, Labelled, Length, PitchFigure, Range } from './figure.js'
import type { Role, Turning } from './places.js'

/*
 * What the sheets hold: plain data that survives JSON and structured clone. What is not known is null. Every figure
 * comes as a number and as it is printed; sentences hold their figures ready printed. Nothing is left to be worked out.
 */

/** What else is known at the lathe. */
export interface SheetOptions {
  /** Gears on the lathe now: the sheet then says what comes off and what goes on. */
  mounted?: GearRef[]
  /** Diameters that the calipers touch, mm, 0.1 to 1000: of shafts and studs, or of the bushes on them. */
  diameters?: { input?: number; stud?: number; output?: number }
}

/** The whole job, in the order in which it is done. */
export interface SetUpSheet {
  kind: 'set-up'
  title: string
  job: Job
  gears: GearsToMount
  lead: RealLead
  /** Null when the sheet was asked for the train alone. */
  cutting: Cutting | null
  /** In the order in which they are made. */
  checks: Check[]
  runOut: RunOut
  /** Null for a thread of one start. */
  starts: Starts | null
  /** Null when nothing of it was asked. */
  mate: Mate | null
  cautions: SheetCaution[]
}

export interface Job extends Labelled {
  name: string | null
  /** What the workshop is called; null when it has no name. */
  workshop: string | null
  /** The pitch as it was typed. */
  wanted: string
  pitch: PitchFigure
  lead: PitchFigure
  starts: number
  hand: Hand
  /** What the lead may be out. `asked` is null where the default stands. */
  tolerance: Labelled & { ppm: Amount; asked: string | null }
}

export interface GearName extends Labelled {
  teeth: number
  /** 'module 1.5', said only where sizes differ. */
  size: string | null
}

export interface MountedGear extends GearName {
  plane: number
  role: Role
  /** Letter of the shaft that it turns. */
  turns: string | null
  /** Letter of the shaft that turns it. */
  turnedBy: string | null
}

export interface MountedShaft extends Labelled {
  /** 'A' for the input shaft, then on along the train. */
  letter: string
  shaft: ShaftName
  name: string
  /** Seen from the gear end, the spindle running forward. */
  turning: Turning
  /** One gear, or a keyed pair: the driven gear first. */
  gears: MountedGear[]
  /** Slot counted from 1, and along it from the foot of the pivot. */
  setting: { slot: number; along: Length } | null
}

export interface MeshToSet extends Labelled {
  /** Letters of the shafts. */
  between: [string, string]
  teeth: [number, number]
  plane: number
  centreDistance: Length
  /** What calipers read over both, and over which `diameters`: null when one is not known. */
  over: { diameters: [Length, Length]; distance: Length } | null
}

export interface GearsToMount extends Labelled {
  /** '24 → 72, 48 → (20) → 80'. */
  line: string
  /** The drive by its name; null when the lathe has one only, without a name. */
  drive: string | null
  /** The position of the gearbox, likewise. */
  gearbox: string | null
  /** In the order of the train: input shaft, studs, output shaft. */
  shafts: MountedShaft[]
  /** Idlers by the `letter` of their shafts. */
  idlers: { letter: string; gear: GearName }[]
  meshes: MeshToSet[]
  swing: Amount | null
  /** The least gap on the banjo, and what it is `between`, in words. */
  clearance: (Labelled & { gap: Length; between: string }) | null
  /** Null when nothing was said to be mounted. */
  changes: { off: GearName[]; on: GearName[]; stay: GearName[]; text: string } | null
  /** How to set the backlash. */
  backlash: { text: string; source: string }
}

/** What the train really cuts, and whether that matters. */
export interface RealLead {
  lead: PitchFigure
  hand: Hand
  /** lead / wanted - 1. `over`: the same along a run of thread; both null when there is no error. */
  error: { exact: Rational; ppm: Amount; over: (Labelled & { run: Length; error: Length }) | null }
  code: 'exact' | 'within' | 'outside'
  /** The code as a sentence. */
  verdict: string
  fit: Fit | null
}

/** What a lead error does to the fit over the length on which screw and nut engage. */
export interface Fit {
  engagement: Length
  /** Lead error over the engagement, signed. */
  axial: Length
  /** By how much the screw acts too large (the nut too small); null for upright flanks. */
  onEffective: Length | null
  /** Of the effective diameter, by class or allowance; null when neither was given. */
  tolerance: Length | null
  /** Of that tolerance. */
  share: Amount | null
  /** The lead error that would eat all of it; goes into a wanted thread's `tolerance` as { error, over }. */
  stands: (Labelled & { error: Length; over: Length }) | null
  code: 'negligible' | 'fits' | 'tight' | 'will-not-fit' | 'unjudged'
  /** The code as a sentence. */
  verdict: string
}

export interface PassToTake extends Labelled {
  /** Counted from 1, over cuts and spring passes. */
  number: number
  kind: 'cut' | 'spring'
  /** Setting from touching the work, straight in and along the slide that feeds. */
  to: Length
  travel: Length
  /** What this pass adds, straight in. */
  deeper: Length
}

export interface Cutting extends Labelled {
  cut: 'screw' | 'nut'
  /** Its name, the `standard` that gives it, its included angle. */
  form: { name: string; standard: string; angle: Amount }
  leadAngle: Amount
  /** Basic diameters of the part that is cut. */
  major: Length
  effective: Length
  minor: Length
  /** By class or allowance. */
  limits: (Labelled & { name: string; major: Range | null; effective: Range; minor: Range | null }) | null
  /** What the sheet works to: nominal sizes, or the middle of the limits. */
  aim: 'nominal sizes' | 'middle of the limits'
  /** Turn the blank to this, or bore the nut to it. */
  blank: Length
  /** For a nut: or drill to this, with so much depth of thread left; `depth` is that of the groove then, straight in. */
  drill: (Labelled & { hole: Length; engagement: Amount; depth?: Length }) | null
  /** Straight in, from the blank to the root. */
  depth: Length
  /** Diameter at the root of what is cut. */
  root: Length
  effectiveAim: Length
  /** For crests to be rounded. */
  crestRadius: Length | null
  /**
   * The compound slide, from the cross-slide's line of travel, and what a scale shows that counts from the lathe's axis.
   * `towards`: where it feeds besides into the work, so that the leading flank is cut; null when it feeds straight in.
   */
  compound: Labelled & { angle: Amount; fromAxis: Amount; towards: 'headstock' | 'tailstock' | null }
  infeed: Labelled & { radial: Length; travel: Length; sideways: Length }
  passes: PassToTake[]
}

/**
 * Code, sentence, and where the check is known from. A scratch pass has `crests`, a count of lines, and `spaces` between
 * them, a count of leads; wires a `correction` for the lead angle, and whether it is `applied`.
 */
export type Check = Labelled & { source: string } & (
    | { code: 'isolated' }
    | { code: 'gears-set' }
    | { code: 'by-hand' }
    | { code: 'covered' }
    | { code: 'return' }
    | { code: 'scratch-pass'; crests: number; spaces: number; wanted: Length; cut: Length; difference: Length }
    | { code: 'half-nuts'; open: DialAnswer | 'none'; lines: number[] }
    | {
        code: 'wires'
        wire: Length
        best: Length
        /** Over three wires: at what the sheet works to, and at the limits of the effective diameter. */
        over: Length
        limits: Range | null
        /** What the lead angle adds; already in `over` when it is applied. */
        correction: { adds: Length; applied: boolean } | null
      }
    | { code: 'no-wire'; best: Length; least: Length; greatest: Length }
    | { code: 'no-flanks' }
    | { code: 'effective'; effective: Length; limits: Range | null }
    | { code: 'try-mate' }
  )
/** What is checked. */
export type CheckCode = Check['code']

export interface RunOut extends Labelled {
  /** Which way the carriage travels while it cuts, the spindle running forward. */
  travel: 'headstock' | 'tailstock'
  groove: Length | null
  tool: Length
  /** By the groove; null when its width is not known, or the cut starts in it. */
  limit: Amount | null
  /** Every speed of the lathe, slowest first: the groove that it needs, and whether it `serves`; none where the cut starts in the groove. */
  speeds: (Labelled & { speed: Amount; groove: Length; serves: boolean | null })[]
}

/** How to come from the first start of a thread to the others. */
export interface Starts {
  /** A count of 2 or more. */
  count: number
  /** From the first start to each other one; each way by itself. */
  each: (Labelled & {
    /** Which start, counted from 1. */
    start: number
    /** Part of a turn of the spindle: '1/3'. */
    turn: string
    /** Compound slide parallel to the axis. */
    slide: Length
    /** Teeth of the gear on the input shaft, unmeshed and turned on; null when they do not divide. */
    teeth: number | null
    /** Carriage moved on by whole threads of the leadscrew with the half nuts open; null when no such move is short, or there are no half nuts. */
    carriage: { move: Length; threads: number } | null
  })[]
}

/** A tap to be made at home. */
export interface TapToMake {
  major: Length
  effective: Labelled & { range: Range }
  minor: Length
  hole: Length
  point: Length
  core: Length
  /** A count of 2 to 4. */
  flutes: number
  /** Chamfered `threads`, from and to; the `length` of the chamfer for them and its `angle` to the axis. */
  chamfers: (Labelled & {
    name: 'taper' | 'second' | 'bottoming'
    threads: [number, number]
    length: Range
    angle: [Amount, Amount]
  })[]
}

/** The other part of the job, and a tap for it. */
export interface Mate {
  /** Sizes of the other part; null when not asked for. */
  part: { is: 'screw' | 'nut'; major: Length; effective: Length; minor: Length; drill: Cutting['drill'] } | null
  tap: TapToMake | null
}

/** Something to mind: when, what, and who says so ('common practice, no source' where nobody does). */
export interface SheetCaution {
  code: string
  when: 'always' | 'gears' | 'power' | 'cutting' | 'tap'
  message: string
  source: string
}
