import { compare, multiply, type Rational, rational, toNumber } from '@trainwright/measures'
import type { Caution, CautionCode, Lathe, Layout, ShaftGears, Stage, Train } from '../contract.js'
import { cautionMessage } from '../messages.js'
import type { Arrangement } from './arrangement.js'
import type { Kind } from './box.js'
import { handOf, type Question, type Setting } from './question.js'
import type { Ranked } from './ranking.js'
import { DEFAULT_PLANES } from './rules.js'

/** Turns of the leadscrew for one of the spindle, and steps of a stage, above which a caution is given (common practice, no source). */
const STEEP = 3

/** The shafts of a train, with the plane of each gear: stages lie in planes 1 to n and over again. */
export function shaftsOf(stages: readonly Stage[], planes: number): ShaftGears[] {
  const shafts: ShaftGears[] = []
  let gears: ShaftGears['gears'] = []
  stages.forEach((stage, k) => {
    const plane = (k % planes) + 1
    shafts.push({ shaft: k === 0 ? 'input' : 'stud', gears: [...gears, { gear: stage.driver, plane }] })
    for (const gear of stage.idlers) shafts.push({ shaft: 'stud', gears: [{ gear, plane }] })
    gears = [{ gear: stage.driven, plane }]
  })
  shafts.push({ shaft: 'output', gears })
  return shafts
}

export function stagesOf({ reading, idlers }: Arrangement, kinds: readonly Kind[]): Stage[] {
  let at = 0
  const next = () => ({ ...kinds[reading[at++]].gear })
  return idlers.map((count) => {
    const driver = next()
    const between = Array.from({ length: count }, next)
    return { driver, driven: next(), idlers: between }
  })
}

export const meshesOf = (stages: readonly Stage[]): number =>
  stages.reduce((sum, { idlers }) => sum + 1 + idlers.length, 0)

export function cautionsOf(codes: readonly (CautionCode | false)[]): Caution[] {
  return codes.filter((code) => code !== false).map((code) => ({ code, message: cautionMessage(code) }))
}

/** Whether the leadscrew turns more than STEEP times for one of the spindle; where it is not close, doubles say so. */
function isFast(fixed: Rational, ratio: Rational, quotient: number): boolean {
  const turns = toNumber(fixed) * quotient
  if (Math.abs(turns - STEEP) > 1e-9) return turns > STEEP
  return compare(multiply(fixed, ratio), rational(STEEP)) > 0
}

function cautions(
  lathe: Lathe,
  setting: Setting,
  figures: Figures,
  ranked: Ranked,
  stages: readonly Stage[],
): Caution[] {
  return cautionsOf([
    setting.plainBelt && 'plain-belt',
    isFast(setting.ratio, figures.ratio, ranked.drivers / ranked.driven) && 'fast-leadscrew',
    stages.some((s) => s.driver.teeth > STEEP * s.driven.teeth) && 'steep-step-up',
    // Without a banjo only pairs are looked at; on one, each gear and every shaft beside its own and those it meshes with.
    lathe.shaftClearance === undefined && (lathe.banjo ? meshesOf(stages) : stages.length) > 1 && 'clearance-assumed',
  ])
}

/** What follows from the ratio of a train alone. */
type Figures = Pick<Train, 'ratio' | 'lead' | 'error' | 'errorPpm'>

function figuresOf({ ratio: fixed, drivers, driven }: Ranked): Figures {
  const p = BigInt(drivers)
  const q = BigInt(driven)
  const error = rational(fixed.n * p - fixed.d * q, fixed.d * q)
  return { ratio: rational(p, q), lead: rational(fixed.leadN * p, fixed.leadD * q), error, errorPpm: toPpm(error) }
}

/** Whether two trains have the same ratio; products past what doubles hold exactly may be told apart though they are equal. */
function sameRatio(a: Ranked, b: Ranked): boolean {
  const cross = a.drivers * b.driven
  return a.ratio === b.ratio && cross === b.drivers * a.driven && cross <= Number.MAX_SAFE_INTEGER
}

/** Writes trains as the answer shows them. Only those that are shown are ever built. */
export function makeBuilder(lathe: Lathe, question: Question, kinds: readonly Kind[]) {
  // Of the trains that are shown many have one ratio, and stand next to each other.
  let last: Ranked | null = null
  let figures: Figures
  return (ranked: Ranked, layout: Layout | null): Train => {
    if (last === null || !sameRatio(last, ranked)) figures = figuresOf(ranked)
    last = ranked
    const { arrangement } = ranked
    const setting = question.settings[arrangement.setting]
    const stages = stagesOf(arrangement, kinds)
    return {
      drive: setting.drive,
      gearbox: setting.gearbox,
      shafts: shaftsOf(stages, lathe.planes ?? DEFAULT_PLANES),
      stages,
      ratio: { ...figures.ratio },
      lead: { ...figures.lead },
      error: { ...figures.error },
      errorPpm: figures.errorPpm,
      approximate: question.approximate,
      hand: handOf(lathe, setting, arrangement.reading.length - stages.length),
      cautions: cautions(lathe, setting, figures, ranked, stages),
      layout,
    }
  }
}

/** The one exit of an error from exactness. */
export const toPpm = ({ n, d }: Rational): number => toNumber({ n: `${n}000000`, d })
