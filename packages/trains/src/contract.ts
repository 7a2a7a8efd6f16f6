import type { PitchText, Problem, Rational, RatioText } from '@trainwright/measures'

export type Hand = 'right' | 'left'
export type ShaftName = 'input' | 'stud' | 'output'

/** A lathe with its box. Plain data: survives JSON and structured clone. */
export interface Workshop {
  name?: string
  lathe: Lathe
  gears: GearStock[]
  /** Measuring wires at hand, mm. */
  wires?: number[]
  head?: Head
}

/** A dividing head: turns of the crank (worm) for one of its spindle, and the circles of holes of its plates. */
export interface Head {
  worm: number
  plates: number[][]
}

/** Gears of one kind in the box. */
export interface GearStock {
  /** Whole, 6 or more. */
  teeth: number
  /** How many are owned; default 1. */
  count?: number
  /** mm; default 1. Give `dp` instead for an inch gear. */
  module?: number
  /** Diametral pitch, teeth per inch of pitch diameter. */
  dp?: number
  /** Degrees; default 20. */
  pressureAngle?: number
  /** Where these gears can sit; default everywhere. */
  shafts?: ShaftName[]
}

/** Names a gear of the box by its teeth, and by module and pressure angle where the teeth alone could mean several. */
export interface GearRef {
  teeth: number
  module?: number
  pressureAngle?: number
}

export interface Lathe {
  /** Hand default right. */
  leadscrew: { pitch: PitchText; hand?: Hand }
  /** Fixed ways from spindle to input shaft; default one of ratio 1. */
  drives?: FixedDrive[]
  /** Fixed ways from output shaft to leadscrew; default one of ratio 1. */
  gearbox?: FixedDrive[]
  /** Default 2. */
  studs?: number
  /** Default 2: stages lie in planes 1, 2, 1, 2. */
  planes?: number
  /** mm from a shaft's centre that tips keep away; default 6.5 modules of the gear whose tip it is. */
  shaftClearance?: number
  /** mm: largest tip radius on the input and the output shaft. */
  room?: { input?: number; output?: number }
  /** mm, input shaft to output shaft. */
  centreDistance?: number
  /** Gears that stay on their shaft; counted in `gears` too. */
  fixedGears?: { input?: GearRef; output?: GearRef }
  /** Needs `centreDistance`. */
  banjo?: Banjo
  halfNuts?: boolean
  /** Travel of one turn of the chasing dial, and its lines. */
  dial?: { travel: string; lines: number }
  screwedNose?: boolean
  /** Spindle speeds, turns a minute. */
  speeds?: number[]
}

export interface FixedDrive {
  name?: string
  /** Turns out per turn in. */
  ratio: RatioText
  reverses?: boolean
  belt?: 'toothed' | 'plain'
}

export interface Banjo {
  /** The shaft about which it swings; default output. */
  pivot?: 'output' | 'input'
  /** Degrees from the line pivot -> other shaft to slot 1: least and greatest. */
  swing: [number, number]
  slots: Slot[]
  /** mm, in the frame with the output shaft at the origin and the input shaft on the positive x axis. */
  keepOut?: { x: number; y: number; radius: number }[]
}

/** A slot for studs; a fixed hole has `from` equal to `to`. */
export interface Slot {
  /** Degrees anticlockwise from slot 1; default 0. */
  angle?: number
  /** mm sideways from the pivot, to the left of the slot's direction; default 0. */
  offset?: number
  /** mm along the slot's direction from the pivot's foot, where a stud's centre stands at each end. */
  from: number
  to: number
}

export interface ThreadWanted {
  name?: string
  pitch: PitchText
  /** Default 1. */
  starts?: number
  /** Default right. */
  hand?: Hand
  /** Default 500 ppm (common practice, no source). */
  tolerance?: { ppm: number } | { error: string; over: string }
}

export interface FindOptions {
  /** Trains returned; default 50, at most 1000. */
  limit?: number
  /** Most stages; default studs + 1, at most 4. */
  stages?: number
  /** Default 'fewest gears'. */
  order?: 'fewest gears' | 'closest'
  /** Gears on the lathe now: among equals, fewer changes first. */
  mounted?: GearRef[]
}

export interface ChartOptions extends FindOptions {
  /** Default 'as given'; 'fewest changes' puts next to each other threads whose trains share gears. */
  sequence?: 'as given' | 'fewest changes'
}

export interface TrainSearch {
  /** Mountable and within tolerance, best first, one for each distinct gear set. */
  trains: Train[]
  /** Distinct gear sets, before `limit`. */
  counts: { withinTolerance: number; mountable: number }
  /**
   * The mountable train with the least error, within tolerance or not. Null when there is none; also when none is within
   * tolerance and none was found in some millions of steps beyond it.
   */
  closest: Train | null
  /** When `trains` is empty: why, most telling first. */
  obstacles: Obstacle[]
}

export interface Gear {
  teeth: number
  module: number
  /** When it was given so; compared exactly. */
  dp?: number
  pressureAngle: number
}

/** One shaft and its one or two gears; on a stud the driven gear first, then the driver. */
export interface ShaftGears {
  shaft: ShaftName
  gears: { gear: Gear; plane: number }[]
}

export interface Stage {
  driver: Gear
  driven: Gear
  /** From driver to driven. */
  idlers: Gear[]
}

export interface Train {
  /** Index into `lathe.drives`. */
  drive: number
  /** Index into `lathe.gearbox`. */
  gearbox: number
  /** Input shaft, studs in order, output shaft. */
  shafts: ShaftGears[]
  stages: Stage[]
  /** Output-shaft turns per input-shaft turn. */
  ratio: Rational
  /** mm per spindle turn. */
  lead: Rational
  /** lead / wanted lead - 1. */
  error: Rational
  errorPpm: number
  /** Pi was involved. */
  approximate: boolean
  hand: Hand
  cautions: Caution[]
  /** Positions, when the banjo is known. */
  layout: Layout | null
}

export type CautionCode = 'plain-belt' | 'fast-leadscrew' | 'steep-step-up' | 'clearance-assumed'
export interface Caution {
  code: CautionCode
  message: string
}

export interface Layout {
  /** Degrees; null when no stud fixes it. */
  swing: number | null
  /** mm, in the order of Train.shafts. */
  shafts: { x: number; y: number; slot: number | null; along: number | null }[]
  /** Indices into shafts. */
  meshes: { between: [number, number]; centreDistance: number }[]
  /** The smallest to spare, and what it is between. */
  clearance: { mm: number; between: string } | null
}

export type Obstacle = { message: string } & (
  | { code: 'tolerance'; closestPpm: number }
  | { code: 'studs'; needed: number }
  | { code: 'hand' }
  | { code: 'clearance'; gear: Gear; shortMm: number }
  | { code: 'reach'; shortMm: number; slot: number | null }
  | { code: 'shafts' }
  | { code: 'too-many'; pairs: number; stages: number }
)

/** A set-up given by hand; a Train is one. */
export interface SetUp {
  drive?: number
  gearbox?: number
  stages: { driver: GearRef; driven: GearRef; idlers?: GearRef[] }[]
}

export interface ProposeOptions {
  /** How many gears to make; default 1. */
  make?: 1 | 2
  /** Default [20, 127]. */
  teeth?: [number, number]
  /** Only these counts: what the owner's dividing gear can index. */
  makeable?: number[]
  /** mm: no count whose root leaves less than `wall` over the bore (and keyway). */
  blank?: { bore: number; keyway?: number; wall: number }
  /** Default: the box's commonest. */
  module?: number
  pressureAngle?: number
  /** Default 10. */
  limit?: number
}

export interface GearProposals {
  /** Wanted threads that need no new gear. */
  already: { wanted: number; train: Train }[]
  proposals: { make: Gear[]; opens: { wanted: number; train: Train }[]; worstErrorPpm: number }[]
  /** Wanted threads that no permitted gear (or pair) opens. */
  never: number[]
}

export interface ChartRow {
  wanted: number
  train: Train | null
  closest: Train | null
}

export type CheckedWorkshop = { ok: true; workshop: Workshop } | { ok: false; problems: Problem[] }
export type LaidOut = { ok: true; layout: Layout } | { ok: false; obstacle: Obstacle }

/** Hears how far a long search is: `done` of `total` steps (threads looked at). */
export type ProgressListener = (done: number, total: number) => void
