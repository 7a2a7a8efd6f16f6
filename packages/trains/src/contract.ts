import type { PitchText, Problem, Rational, RatioText } from '@trainwright/measures'

/** Hand of a thread, and of a leadscrew. */
export type Hand = 'right' | 'left'
/** The fixed shaft that carries the first driver, a stud on the banjo, the shaft that carries the last driven gear. */
export type ShaftName = 'input' | 'stud' | 'output'

/** A lathe with its box. Plain data: survives JSON and structured clone. */
export interface Workshop {
  name?: string
  lathe: Lathe
  gears: GearStock[]
  /** Measuring wires at hand, mm; each above 0, up to 10000. */
  wires?: number[]
  head?: Head
}

/** A dividing head: turns of the crank (worm) for one of its spindle, and the circles of holes of its plates. */
export interface Head {
  /** Whole, 1 to 10000. */
  worm: number
  /** Holes of each circle of each plate; whole, 1 to 10000; at most 50 plates of 100 circles. */
  plates: number[][]
}

/** Gears of one kind in the box. */
export interface GearStock {
  /** Whole, 6 to 2000. */
  teeth: number
  /** How many gears are owned; default 1, at most 500 in all. */
  count?: number
  /** mm, up to 100; default 1. Give `dp` instead for an inch gear. */
  module?: number
  /** Diametral pitch, teeth per inch of pitch diameter; up to 1000. */
  dp?: number
  /** Degrees, 5 to 45; default 20. */
  pressureAngle?: number
  /** Where these gears can sit; default everywhere. */
  shafts?: ShaftName[]
}

/** Names a gear of the box by its teeth, and by module and pressure angle where the teeth alone could mean several. */
export interface GearRef {
  /** Whole, 6 to 2000. */
  teeth: number
  /** mm, up to 100; default whatever the box holds. */
  module?: number
  /** Degrees, 5 to 45; default whatever the box holds. */
  pressureAngle?: number
}

/**
 * What a lathe brings to a train: its leadscrew, its fixed ways, its shafts and, where it is known, its banjo. Lengths
 * in mm, each up to 10000.
 */
export interface Lathe {
  /** `pitch` as text, 0.001 to 1000 mm; hand default right. */
  leadscrew: { pitch: PitchText; hand?: Hand }
  /**
   * Fixed ways from spindle to input shaft, 1 to 16, and with `gearbox` 16 settings at most; default one of ratio 1.
   */
  drives?: FixedDrive[]
  /** Fixed ways from output shaft to leadscrew; default one of ratio 1. */
  gearbox?: FixedDrive[]
  /** 0 to 8; default 2. */
  studs?: number
  /** 1 to 8; default 2: stages lie in planes 1, 2, 1, 2. */
  planes?: number
  /** mm from a shaft's centre that tips keep away; default 6.5 modules of the gear whose tip it is. */
  shaftClearance?: number
  /** mm: largest tip radius on the input and the output shaft; each above 0. */
  room?: { input?: number; output?: number }
  /** mm, input shaft to output shaft; above 0. */
  centreDistance?: number
  /** Gears that stay on their shaft; counted in `gears` too. */
  fixedGears?: { input?: GearRef; output?: GearRef }
  /** Needs `centreDistance`. */
  banjo?: Banjo
  /** Whether the carriage has half nuts; for the set-up sheet. */
  halfNuts?: boolean
  /** Of the chasing dial: `travel` of the carriage for one of its turns, as text ('4 in'), and its lines, 1 to 1000. */
  dial?: { travel: string; lines: number }
  /** Whether the chuck screws on to the spindle; for the set-up sheet. */
  screwedNose?: boolean
  /** Spindle speeds, turns a minute; each above 0, up to 100000; at most 100. */
  speeds?: number[]
}

/** A fixed way from one shaft to another: a belt step, a tumbler reverse, a position of a gearbox. */
export interface FixedDrive {
  name?: string
  /** Turns out per turn in, as text or number, 1/1000000 to 1000000. */
  ratio: RatioText
  /** Whether it turns the other way round; default false. */
  reverses?: boolean
  /** A plain belt slips: trains over it carry a caution. Default neither. */
  belt?: 'toothed' | 'plain'
}

/**
 * The swinging plate with slots that holds the studs. Lengths in mm, angles in degrees, anticlockwise as seen from the
 * gear end.
 */
export interface Banjo {
  /** The shaft about which it swings; default output. */
  pivot?: 'output' | 'input'
  /** Degrees from the line pivot -> other shaft to slot 1: least and greatest, each -360 to 360. */
  swing: [number, number]
  /** 1 to 12 slots. */
  slots: Slot[]
  /**
   * Circles that no gear may enter: mm, in the frame with the output shaft at the origin and the input shaft on the
   * positive x axis; each number at most 10000, the radius at least 0; 50 circles at most.
   */
  keepOut?: { x: number; y: number; radius: number }[]
}

/** A slot for studs; a fixed hole has `from` equal to `to`. */
export interface Slot {
  /** Degrees anticlockwise from slot 1, -360 to 360; default 0. */
  angle?: number
  /** mm sideways from the pivot, to the left of the slot's direction, -10000 to 10000; default 0. */
  offset?: number
  /** mm along the slot's direction from the pivot's foot, where a stud's centre stands at the near end; 0 to 10000. */
  from: number
  /** mm, the same at the far end; at least `from`, up to 10000. */
  to: number
}

/** A thread to be cut: its lead is pitch x starts. */
export interface ThreadWanted {
  name?: string
  /** As text, 0.001 to 1000 mm: '0.7 mm', '26 tpi', '1/8 in', '0.5 module', '32 dp'; millimetres without a unit. */
  pitch: PitchText
  /** Whole, 1 to 100; default 1. */
  starts?: number
  /** Default right. */
  hand?: Hand
  /**
   * What the lead may be out, either way: `ppm`, 0 to below 1000000, or lengths as text, `error` ('0.005 mm') over
   * `over` ('10 mm'), less than the whole of it. Default 500 ppm (common practice, no source).
   */
  tolerance?: { ppm: number } | { error: string; over: string }
}

/** How to look for trains, and which to show. */
export interface FindOptions {
  /** Trains returned, 0 to 1000; default 50. */
  limit?: number
  /** Most stages, 1 to 4; default studs + 1. */
  stages?: number
  /** Default 'fewest gears'. */
  order?: 'fewest gears' | 'closest'
  /** Gears on the lathe now: among equals, fewer changes first. At most 100. */
  mounted?: GearRef[]
}

/** How to make a chart: the options of each search in it, and the sequence of its rows. */
export interface ChartOptions extends FindOptions {
  /** Default 'as given'; 'fewest changes' puts next to each other threads whose trains share gears. */
  sequence?: 'as given' | 'fewest changes'
}

/** What a search found: trains, their counts, the closest, or why there is none. */
export interface TrainSearch {
  /** Mountable and within tolerance, best first, one for each distinct gear set. */
  trains: Train[]
  /**
   * Distinct gear sets, before `limit`: `withinTolerance` counts all whose ratio is, `mountable` those of them that fit
   * the lathe.
   */
  counts: { withinTolerance: number; mountable: number }
  /**
   * The mountable train with the least error, within tolerance or not. Null when there is none; also when none is within
   * tolerance and none was found in some millions of steps beyond it.
   */
  closest: Train | null
  /** When `trains` is empty: why, most telling first. */
  obstacles: Obstacle[]
}

/**
 * A gear in full, as answers name it. Module in mm, pressure angle in degrees; `dp`, teeth per inch, when it was given
 * so, and compared exactly.
 */
export interface Gear {
  teeth: number
  module: number
  dp?: number
  pressureAngle: number
}

/** One shaft and its one or two gears; on a stud the driven gear first, then the driver. */
export interface ShaftGears {
  shaft: ShaftName
  /** Planes count from 1, next to the headstock. */
  gears: { gear: Gear; plane: number }[]
}

/** A driver and the gear whose turning it decides: driver teeth over driven teeth is its ratio. */
export interface Stage {
  driver: Gear
  driven: Gear
  /** From driver to driven. */
  idlers: Gear[]
}

/**
 * A train as it goes on the lathe. It holds no NaN, no infinity, nothing undefined; the same question gives the same
 * bytes.
 */
export interface Train {
  /** Index into `lathe.drives`, from 0. */
  drive: number
  /** Index into `lathe.gearbox`, from 0. */
  gearbox: number
  /** Input shaft, studs in order, output shaft. */
  shafts: ShaftGears[]
  stages: Stage[]
  /** Output-shaft turns per input-shaft turn, exactly. */
  ratio: Rational
  /** mm per spindle turn, exactly; with `approximate`, exactly for the rational pi of the measures. */
  lead: Rational
  /** lead / wanted lead - 1, exactly. */
  error: Rational
  /** The error in ppm, as near as a double comes; positive when the lead is long. */
  errorPpm: number
  /** Pi was involved. */
  approximate: boolean
  hand: Hand
  cautions: Caution[]
  /** Positions, when the banjo is known. */
  layout: Layout | null
}

/**
 * A plain belt slips; the leadscrew turns more than 3 times for one of the spindle; a stage steps up more than 3 : 1
 * (turn the leadscrew by hand); clearances rest on a rule of thumb (common practice, no source).
 */
export type CautionCode = 'plain-belt' | 'fast-leadscrew' | 'steep-step-up' | 'clearance-assumed'
/** Something to mind, never a refusal: a code and a sentence. */
export interface Caution {
  code: CautionCode
  message: string
}

/**
 * Where the shafts of a train stand on the banjo. Lengths in steps of 1e-9 mm, angles of 1e-9 degree, in the frame with
 * the output shaft at the origin and the input shaft on the positive x axis.
 */
export interface Layout {
  /** Degrees; null when no stud fixes it. */
  swing: number | null
  /**
   * mm, in the order of Train.shafts; `slot` is an index from 0, `along` mm in it from the pivot's foot, both null for
   * the fixed shafts.
   */
  shafts: { x: number; y: number; slot: number | null; along: number | null }[]
  /** Indices into shafts, and the distance of their centres, mm. */
  meshes: { between: [number, number]; centreDistance: number }[]
  /** The smallest to spare, mm, and what it is `between`, in words; null when nothing comes near. */
  clearance: { mm: number; between: string } | null
}

/**
 * Why there is no train, each measured by lifting one limit and searching again: nothing within tolerance (the closest
 * is so many ppm off); more studs `needed`; the wrong hand; a gear that fouls by `shortMm` mm; a slot (index from 0)
 * not reached by `shortMm` mm; gears kept from the shafts they would need; `too-many` pairs within the tolerance to be
 * looked at, and the count of stages that would do.
 */
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
  /** Index into `lathe.drives`, from 0; default 0. */
  drive?: number
  /** Index into `lathe.gearbox`, from 0; default 0. */
  gearbox?: number
  /** 1 to 4, in the order of the train; idlers from driver to driven, with studs for 8 shafts at most. */
  stages: { driver: GearRef; driven: GearRef; idlers?: GearRef[] }[]
}

/** Which gears the owner can make. Lengths in mm, angles in degrees. */
export interface ProposeOptions {
  /** How many gears to make; default 1. */
  make?: 1 | 2
  /** Least and greatest count, 6 to 2000; default [20, 127]. */
  teeth?: [number, number]
  /** Only these counts of teeth: what the owner's dividing gear can index. Default any. */
  makeable?: number[]
  /** mm, each 0 to 1000: no count whose root leaves less than `wall` over the bore (and keyway). */
  blank?: { bore: number; keyway?: number; wall: number }
  /** mm, above 0, up to 100. Default: the box's commonest. */
  module?: number
  /** Degrees, 5 to 45. Default: the box's commonest. */
  pressureAngle?: number
  /** Proposals returned, 0 to 1000; default 10. */
  limit?: number
}

/** What to make next. `wanted` is everywhere an index into the threads asked for. */
export interface GearProposals {
  /** Wanted threads that need no new gear. */
  already: { wanted: number; train: Train }[]
  /** Best first: most threads opened, then the smallest worst error, ppm without its sign, then fewest teeth. */
  proposals: { make: Gear[]; opens: { wanted: number; train: Train }[]; worstErrorPpm: number }[]
  /** Indices of wanted threads that no permitted gear (or pair) opens. */
  never: number[]
}

/**
 * One thread of a chart: its index among those wanted, the best train within tolerance, and the closest at any error.
 */
export interface ChartRow {
  wanted: number
  train: Train | null
  closest: Train | null
}

/** A workshop that holds only what is known here, or everything that is wrong with it. */
export type CheckedWorkshop = { ok: true; workshop: Workshop } | { ok: false; problems: Problem[] }
/** Where the shafts stand, or what keeps them from standing. */
export type LaidOut = { ok: true; layout: Layout } | { ok: false; obstacle: Obstacle }

/** Hears how far a long search is: `done` of `total` steps (threads looked at). */
export type ProgressListener = (done: number, total: number) => void
