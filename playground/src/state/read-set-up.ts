import type { Problem } from '@trainwright/measures'
import { moduleOf } from '@trainwright/sheet'
import type { GearRef, GearStock, SetUp, Train } from '@trainwright/trains'
import type { TypedMounted } from './typed.js'

/** The gears of each kind of the box as far as they can be read. */
type Kinds = readonly (readonly GearStock[] | null)[]

const PATH = 'mounted.gears'

/** A stage such as 24:72, 20-20-48 or 48 → (20) → 80, and the tooth size after it where the box has several: m1.5, dp20. */
const STAGE = /^(\d+(?:-\d+)+)(?:(m|dp)(\d+(?:\.\d+)?))?$/

const notAStage = (word: string): string =>
  `“${word}” is no pair of gears: write driver and driven, with idlers between them, such as 24:72 or 20-20-48.`

type Size = Pick<GearStock, 'module' | 'dp' | 'pressureAngle'>

/** The size of the teeth of a stage: that of the first kind of the box that has all its gears, or as written. */
function sizeOf(teeth: readonly number[], written: Size, kinds: Kinds): Size {
  const { module, dp } = written
  const likely = kinds
    .flatMap((kind) => (kind?.[0] ? [kind] : []))
    .filter(([gear]) => (module ?? gear!.module) === gear!.module && (dp ?? gear!.dp) === gear!.dp)
  const kind = likely.find((gears) => teeth.every((z) => gears.some((gear) => gear.teeth === z))) ?? likely[0]
  const { teeth: _, count: __, shafts: ___, ...size } = kind?.[0] ?? { teeth: 0, ...written }
  return size
}

/**
 * What is on the lathe now, as typed; null when nothing is, or it cannot be read. Stages stand apart by spaces or commas,
 * gears of a stage by : - / or arrows, idlers in brackets or not.
 */
export function readSetUp({ drive, gearbox, gears }: TypedMounted, kinds: Kinds, problems: Problem[]): SetUp | null {
  const line = gears.replace(/[\s()]+/g, ' ').replace(/ ?(?:->|[-–:/→]) ?/g, '-')
  const words = line.split(/[\s,;]+/).filter(Boolean)
  const stages = words.flatMap((word) => {
    const [, list, by, size] = STAGE.exec(word) ?? []
    if (!list) {
      problems.push({ path: PATH, code: 'stage', message: notAStage(word) })
      return []
    }
    const teeth = list.split('-').map(Number)
    const kind = sizeOf(teeth, by ? { [by === 'm' ? 'module' : 'dp']: Number(size) } : {}, kinds)
    const refs = teeth.map((z): GearRef => ({ teeth: z, ...kind }))
    return [{ driver: refs[0]!, driven: refs.at(-1)!, idlers: refs.slice(1, -1) }]
  })
  return words.length > 0 && stages.length === words.length ? { drive, gearbox, stages } : null
}

const within = (x: number, least: number, most: number): boolean => x >= least && x <= most

/** The gears of a set-up as the search wants them; a slip of the keyboard is none. */
export const mountedGears = (setUp: SetUp | null): GearRef[] =>
  (setUp?.stages ?? [])
    .flatMap(({ driver, idlers = [], driven }) => [driver, ...idlers, driven])
    .map(({ teeth, pressureAngle, ...size }) => ({
      teeth,
      module: moduleOf(size),
      ...(pressureAngle === undefined ? {} : { pressureAngle }),
    }))
    .filter(({ teeth, module }) => within(teeth, 6, 2000) && within(module, 0.01, 100))

/** '24:72 20-20-48': the line that reads back to the gears of a train. */
export const gearsLine = ({ stages }: Pick<Train, 'stages'>): string =>
  stages
    .map(({ driver, idlers, driven }) => [driver, ...idlers, driven].map(({ teeth }) => teeth))
    .map((teeth) => teeth.join(teeth.length > 2 ? '-' : ':'))
    .join(' ')
