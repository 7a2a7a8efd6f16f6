import type { Fault } from './banjo/near-miss.js'
import type { CautionCode, Gear, Hand, Lathe, Obstacle } from './contract.js'
import type { Refusal } from './search/engine.js'
import { studsOf } from './search/rules.js'

/** All wording of this package. Elsewhere failures and cautions are codes with data. */

const check = {
  object: () => 'This must be an object with named values.',
  list: () => 'This must be a list.',
  number: () => 'This must be a number.',
  text: () => 'This must be text.',
  function: () => 'This must be a function.',
  'yes-no': () => 'This must be true or false.',
  'one-of': (words) => `This must be one of: ${words}.`,
  'too-few': (n) => `At least ${n} must be given.`,
  'too-long': (n) => `This is longer than the ${n} that are taken.`,
  range: (r) => `This must lie within ${r}.`,
  positive: (most) => `This must be more than 0 and at most ${most}.`,
  whole: (r) => `This must be a whole number, ${r}.`,
  'module-and-dp': () => 'Give either module or dp, not both.',
  'too-many-gears': (n) => `The box holds ${n} gears; at most 500 can be searched.`,
  'too-many-settings': (n) => `Drives and gearbox make ${n} settings; at most 16 can be searched. Leave out some.`,
  'no-such-gear': (t) => `The box holds no gear of ${t} teeth (and module, where one is given).`,
  'which-gear': (t) => `The box holds gears of ${t} teeth of several kinds: give module and pressure angle too.`,
  'fixed-twice': (t) => `Two gears of ${t} teeth are fixed, but the box holds one.`,
  'fixed-elsewhere': (t) => `The gear of ${t} teeth cannot sit there: its shafts say otherwise.`,
  'needs-centre-distance': () => 'A banjo needs centreDistance, the distance from input shaft to output shaft.',
  'needs-banjo': () => 'To lay a train out, the banjo must be known.',
  'swing-order': () =>
    'The first angle of the swing must not be more than the second, nor may they span over 360 degrees.',
  'slot-order': (r) => `The slot ends before it starts (${r}): give the nearer end first.`,
  'out-of-reach': (r) => `No two gears reach from a slot to the shaft: ${r}. Measure again.`,
  'near-far': () => 'The nearer end is further from the pivot than the further one: measure both again.',
  'slot-length': () =>
    'These distances fit no slot: its length must be at least the difference of the two distances to the pivot, and the nearer end must lie outwards of the pivot.',
  'from-first': () => 'Measure from the stud at the far end of slot 1 to the stud at the far end of this slot.',
  'no-triangle': () => 'These three distances close no triangle: measure them again, centre to centre.',
  tolerance: () => 'Give ppm from 0 to under 1000000, or an error over a longer length, such as 0.005 mm over 10 mm.',
  'box-line': (word) => `“${word}” is no gear: write teeth, and x and a number for several, such as 20x2 24 30.`,
  'no-stages': () => 'A train needs at least one stage.',
  'too-many-studs': (n) => `The train needs ${n} studs; at most 8 are taken.`,
  'no-mesh': (pair) => `${pair} cannot mesh: module or pressure angle differ.`,
  'no-setting': (n) => `There is no such setting: the lathe has ${n}, counted from 0.`,
  'teeth-order': () => 'The fewest teeth must not be more than the most.',
} satisfies Record<string, (detail: string | number) => string>
export type CheckCode = keyof typeof check
export const checkMessage = (code: CheckCode, detail: string | number): string => check[code](detail)

const cautions: Record<CautionCode, string> = {
  'plain-belt': 'A plain belt is in the drive: it slips, and the lead drifts.',
  'fast-leadscrew':
    'The leadscrew turns more than three times for one turn of the spindle: turn the leadscrew by hand, not the spindle.',
  'steep-step-up': 'A stage steps up more than 3 : 1: turn the leadscrew by hand, not the spindle.',
  'clearance-assumed':
    'Shaft clearance is assumed by a workshop rule (6.5 modules): measure the nuts and washers and check before the train turns.',
}
export const cautionMessage = (code: CautionCode): string => cautions[code]

const nanometre = (x: number): number => Math.round(x * 1e9) / 1e9
const mm = (x: number): string => String(Math.round(x * 100) / 100)
const ppm = (x: number): string => String(x >= 100 ? Math.round(x) : Math.round(x * 100) / 100)

/** Obstacles with their figures and sentences. */
export const obstacle = {
  tolerance: (closestPpm: number): Obstacle => ({
    code: 'tolerance',
    closestPpm,
    message: `Nothing that can be mounted is within tolerance: the closest is ${ppm(Math.abs(closestPpm))} ppm too ${closestPpm < 0 ? 'short' : 'long'}.`,
  }),
  studs: (needed: number, lathe: Lathe): Obstacle => ({
    code: 'studs',
    needed,
    message: `It needs ${needed} stud${needed > 1 ? 's' : ''}; the lathe has ${studsOf(lathe)}.`,
  }),
  hand: (hand: Hand): Obstacle => ({
    code: 'hand',
    message: `What fits turns the wrong way: no stud or gear is left for an idler to make it ${hand}-handed.`,
  }),
  clearance: (gear: Gear, short: number, near: 'shaft' | 'tip'): Obstacle => ({
    code: 'clearance',
    gear,
    shortMm: nanometre(short),
    message: `The gear of ${gear.teeth} teeth fouls ${near === 'shaft' ? 'the next shaft' : 'a gear in its plane'} by ${mm(short)} mm.`,
  }),
  fouls: (gear: Gear, short: number, where: string): Obstacle => ({
    code: 'clearance',
    gear,
    shortMm: nanometre(short),
    message: `It stands, but lacks ${mm(short)} mm of clearance: ${where}.`,
  }),
  room: (gear: Gear, shaft: 'input' | 'output', short: number): Obstacle => ({
    code: 'clearance',
    gear,
    shortMm: nanometre(short),
    message: `The gear of ${gear.teeth} teeth is ${mm(short)} mm too large in radius for the room on the ${shaft} shaft.`,
  }),
  reach: (short: number, slot: number | null, message?: string): Obstacle => ({
    code: 'reach',
    shortMm: nanometre(short),
    slot,
    message:
      message ?? `The train does not span the distance between input and output shaft: it is out by ${mm(short)} mm.`,
  }),
  planes: (): Obstacle => ({
    code: 'shafts',
    message: 'The two gears of a pair need a plane each, and the lathe has one.',
  }),
  shafts: (): Obstacle => ({
    code: 'shafts',
    message: 'The gears may not sit where they would have to: look at their shafts, the fixed gears and the room.',
  }),
  bridge: (): Obstacle => ({
    code: 'shafts',
    message:
      'Two gears alone seldom reach from shaft to shaft, and no gear is left for an idler between them. Where the shafts do stand so, tell the distance between them.',
  }),
  nothing: (): Obstacle => ({
    code: 'shafts',
    message: 'No train of these gears was found that can be mounted on this lathe, whatever its lead.',
  }),
  tooMany: ({ pairs, stages }: Refusal) => ({
    code: 'too-many' as const,
    pairs,
    stages,
    message: `About ${pairs.toLocaleString('en')} pairs of gear products would have to be looked at; ${(50_000_000).toLocaleString('en')} is the bound. ${stages} stage${stages > 1 ? 's' : ''} at most would do (studs: ${stages - 1}), or a smaller tolerance.`,
  }),
}

/** What a clearance is between. Shafts are numbered from the input shaft, 0. */
export const between = {
  shaft: (teeth: number, shaft: number, last: number): string =>
    `gear of ${teeth} and ${shaft === 0 ? 'the input shaft' : shaft === last ? 'the output shaft' : `stud ${shaft}`}`,
  gear: (a: number, b: number, plane: number): string => `gears of ${a} and ${b} in plane ${plane}`,
  keepOut: (teeth: number, which: number): string => `gear of ${teeth} and keep-out ${which}`,
}

const fault = (f: Fault): string => {
  switch (f.what) {
    case 'slot':
      return `stud ${f.stud} would have to stand ${mm(f.mm)} mm beyond the ${f.end} end of slot ${f.slot + 1}`
    case 'mesh':
      return f.slot === null
        ? `the last mesh stays ${mm(f.mm)} mm too ${f.too === 'far' ? 'far apart' : 'near'}`
        : `stud ${f.stud} in slot ${f.slot + 1} stays ${mm(f.mm)} mm too ${f.too} for its mesh`
    case 'swing':
      return `the banjo would have to swing to ${mm(f.degrees)} degrees, past its stop at ${mm(f.stop)}`
  }
}

/** Why a train does not reach, studs counted from the pivot of the banjo; and the idler that would mend it. */
export const missMessage = (faults: readonly Fault[], idler: number | null): string => {
  const what = faults.length > 0 ? faults.map(fault).join('; ') : 'gears and shafts get in each other’s way'
  const mend = idler === null ? '' : ` An idler of ${idler} teeth in place of one of its own would make it reach.`
  return `The train does not stand on the banjo: ${what}.${mend}`
}
