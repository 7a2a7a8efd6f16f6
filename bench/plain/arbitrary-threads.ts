import { exactly, parseLength } from '@trainwright/measures'
import type { ThreadWanted } from '@trainwright/trains'
import fc from 'fast-check'
import { seldom, usually, written } from './arbitrary-parts.js'
import { canMesh, type KindStage } from './arrangements.js'
import { type Fraction, fraction, fromRational, over, plus, times, toRational } from './fraction.js'
import type { Kind, Setting, Shop } from './shop.js'

/** A train to aim at: nobody says that it can be mounted, but its gears mesh and are all in the box. */
export interface Planted {
  stages: KindStage[]
  setting: Setting
}

/** Stages and idlers dealt from the box until it or the studs are used up. */
function deal(gears: readonly Kind[], stages: number, idlers: number): KindStage[] {
  const left = [...gears]
  const matching = (a: Kind): Kind | undefined => {
    const at = left.findIndex((b) => canMesh(a, b))
    return at < 0 ? undefined : left.splice(at, 1)[0]
  }
  const dealt: KindStage[] = []
  while (left.length > 0 && dealt.length < stages) {
    const driver = left.shift()!
    const driven = matching(driver)
    if (driven) dealt.push({ driver, idlers: [], driven })
  }
  for (let i = 0; i < idlers && dealt.length > 0; i++) {
    const stage = dealt[i % dealt.length]
    const idler = matching(stage.driver)
    if (idler) stage.idlers.push(idler)
  }
  return dealt
}

export function plantedIn({ kinds, settings, studs }: Shop): fc.Arbitrary<Planted> {
  const gears = kinds.flatMap((kind) => Array.from({ length: kind.owned }, () => kind))
  return fc
    .record({
      order: fc.shuffledSubarray(gears, { minLength: gears.length, maxLength: gears.length }),
      stages: fc.constantFrom(1, 1, 2, 2, 3).map((stages) => Math.min(stages, studs + 1)),
      idlers: fc.constantFrom(0, 0, 1),
      setting: fc.constantFrom(...settings),
    })
    .map(({ order, stages, idlers, setting }) => {
      const spare = studs - (stages - 1)
      const dealt = deal(order, stages, Math.min(spare, stages === 1 ? idlers + 1 : idlers))
      return { setting, stages: dealt.length > 0 ? dealt : [{ driver: order[0], idlers: [], driven: order[1] }] }
    })
}

function leadOf({ leadscrew }: Shop, { stages, setting }: Planted): Fraction {
  const ratios = stages.map(({ driver, driven }) => fraction(driver.teeth, driven.teeth))
  return ratios.reduce(times, times(leadscrew, setting.ratio))
}

/** Tolerances as given, beside what they are. */
const tolerances: fc.Arbitrary<{ given: ThreadWanted['tolerance']; is: Fraction }> = fc.oneof(
  fc
    .constantFrom(0, 1, 12.5, 100, 500, 2000, 20_000, 50_000, 200_000)
    .map((ppm) => ({ given: { ppm }, is: over(fromRational(exactly(ppm)), fraction(1_000_000)) })),
  fc
    .constantFrom(['0.005 mm', '10 mm'], ['1 thou', '1 in'], ['0.01', '300'], ['0.1 mm', '4"'], ['1', '20'])
    .map(([error, length]) => ({
      given: { error, over: length },
      is: over(fromRational(parseLength(error).mm), fromRational(parseLength(length).mm)),
    })),
  fc.constant({ given: undefined, is: fraction(1, 2000) }),
)

/** Where the planted lead stands, in tolerances: exact, at a border, inside, or just past it. */
const inside = fc.constantFrom<[number, number]>([0, 1], [0, 1], [1, 1], [-1, 1], [1, 2], [-1, 3])
const outside = fc.constantFrom<[number, number]>([1001, 1000], [-1001, 1000])

/** A pitch that measures can read, 0.001 to 1000 mm in 60 letters. */
function readable(pitch: Fraction): string | null {
  const { n, d } = toRational(pitch)
  const mm = Number(n) / Number(d)
  return mm >= 0.001 && mm <= 1000 && n.length + d.length < 58 ? `${n}/${d}` : null
}

/** Threads that the planted train cuts, or nearly; mostly of the hand that it turns. */
export function threadsFor(shop: Shop, planted: Planted): fc.Arbitrary<ThreadWanted> {
  const meshes = planted.stages.reduce((sum, { idlers }) => sum + 1 + idlers.length, 0)
  const alike = (meshes + planted.setting.reverses) % 2 === 0
  const turns = alike === ((shop.workshop.lathe.leadscrew.hand ?? 'right') === 'right') ? 'right' : 'left'
  return fc
    .record({
      starts: fc.constantFrom(undefined, undefined, undefined, 1, 2, 3),
      hand: usually<ThreadWanted['hand']>(fc.constant(turns), fc.constantFrom(undefined, 'right', 'left'), 6),
      tolerance: tolerances,
      place: usually(inside, outside, 7),
      other: seldom(fc.constantFrom('0.7 mm', '26 tpi', '0.5 module', '32 dp', '1.25', '3/32 in'), 14),
    })
    .map(({ starts, hand, tolerance, place: [n, d], other }) => {
      const factor = plus(fraction(1), times(fraction(n, d), tolerance.is))
      const pitch = over(over(leadOf(shop, planted), factor), fraction(starts ?? 1))
      return written<ThreadWanted>({
        pitch: other ?? readable(pitch) ?? '1 mm',
        starts,
        hand,
        tolerance: tolerance.given,
      })
    })
}
