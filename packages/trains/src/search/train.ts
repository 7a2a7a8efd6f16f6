import { divide, multiply, type Rational, rational, subtract, toNumber } from '@trainwright/measures'
import type { Caution, CautionCode, Hand, Lathe, Layout, ShaftGears, Stage, Train } from '../contract.js'
import { cautionMessage } from '../messages.js'
import type { Kind } from './box.js'
import { handOf, type Question } from './question.js'
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

export function stagesOf({ arrangement: { reading, idlers } }: Ranked, kinds: readonly Kind[]): Stage[] {
  let at = 0
  const next = () => ({ ...kinds[reading[at++]].gear })
  return idlers.map((count) => {
    const driver = next()
    const between = Array.from({ length: count }, next)
    return { driver, driven: next(), idlers: between }
  })
}

export function cautionsOf(codes: readonly (CautionCode | false)[]): Caution[] {
  return codes.filter((code) => code !== false).map((code) => ({ code, message: cautionMessage(code) }))
}

function cautions(lathe: Lathe, question: Question, train: Omit<Train, 'cautions'>, setting: number): Caution[] {
  const turns = toNumber(divide(train.lead, question.leadscrew.mm))
  const steep = train.stages.some((s) => s.driver.teeth > STEEP * s.driven.teeth)
  return cautionsOf([
    question.settings[setting].plainBelt && 'plain-belt',
    turns > STEEP && 'fast-leadscrew',
    steep && 'steep-step-up',
    train.stages.length > 1 && lathe.shaftClearance === undefined && 'clearance-assumed',
  ])
}

/** The train as the answer shows it. Only the trains that are shown are ever built. */
export function buildTrain(
  lathe: Lathe,
  question: Question,
  kinds: readonly Kind[],
  ranked: Ranked,
  layout: Layout | null,
): Train {
  const { arrangement, table, p, q } = ranked
  const setting = question.settings[arrangement.setting]
  const stages = stagesOf(ranked, kinds)
  const ratio: Rational = rational(BigInt(table.product[p]), BigInt(table.product[q]))
  const lead = multiply(multiply(question.leadscrew.mm, setting.ratio), ratio)
  const error = subtract(divide(lead, question.wantedLead), rational(1))
  const hand: Hand = handOf(lathe, setting, arrangement.reading.length - stages.length)
  const train = {
    drive: setting.drive,
    gearbox: setting.gearbox,
    shafts: shaftsOf(stages, lathe.planes ?? DEFAULT_PLANES),
    stages,
    ratio,
    lead,
    error,
    errorPpm: toNumber(multiply(error, rational(1_000_000))),
    approximate: question.approximate,
    hand,
    layout,
  }
  return { ...train, cautions: cautions(lathe, question, train, arrangement.setting) }
}
