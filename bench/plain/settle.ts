import type { Hand, Layout, ShaftGears } from '@trainwright/trains'
import { arrangements, type KindStage, reading, shaftsOf } from './arrangements.js'
import { HAIR, neighbourSpares, rankOfSpare, spans, tipRadius } from './clearances.js'
import type { GearSet } from './gear-sets.js'
import { betterLayout, layOutPlain } from './lay-out.js'
import { compareRanks } from './ranks.js'
import type { Kind, Setting, Shop } from './shop.js'
import { canSupply } from './stock.js'

/** An arrangement that goes on the lathe. */
export interface Mounting {
  set: GearSet
  setting: Setting
  stages: KindStage[]
  shafts: ShaftGears[]
  layout: Layout | null
  /** What places it among the arrangements of its set: compared number by number, smaller first. */
  rank: number[]
}

/** The spindle and leadscrew turn alike when the meshes and reversals are even; alike, a right-hand screw cuts right. */
function cutsHand(shop: Shop, hand: Hand, meshes: number, { reverses }: Setting): boolean {
  const alike = (meshes + reverses) % 2 === 0
  const leadscrew = shop.workshop.lathe.leadscrew.hand ?? 'right'
  const cut: Hand = alike ? leadscrew : leadscrew === 'right' ? 'left' : 'right'
  return cut === hand
}

/** Whether every gear may sit where it is: fixed gears in place, room, planes, and copies enough in the box. */
function suits(shop: Shop, stages: readonly KindStage[], shafts: readonly ShaftGears[]): boolean {
  const { fixed, planes, workshop } = shop
  const first = stages[0].driver
  const last = stages[stages.length - 1].driven
  const room = workshop.lathe.room ?? {}
  const roomy = (kind: Kind, radius: number | undefined): boolean =>
    radius === undefined || tipRadius(kind.gear) <= radius + HAIR
  return (
    (fixed.input === null || fixed.input === first) &&
    (fixed.output === null || fixed.output === last) &&
    roomy(first, room.input) &&
    roomy(last, room.output) &&
    (planes > 1 || shafts.every(({ gears }) => gears.length === 1)) &&
    canSupply(stages)
  )
}

/** How an arrangement stands, with the clearance to spare in mm (null: nothing is near anything); null: it does not. */
function stand(shop: Shop, shafts: ShaftGears[]): { layout: Layout | null; spare: number | null } | null {
  const { lathe } = shop.workshop
  if (lathe.banjo) {
    const [layout] = layOutPlain(lathe, shafts).sort(betterLayout)
    return layout ? { layout, spare: layout.clearance?.mm ?? null } : null
  }
  // Where the shafts stand is not known, but they seldom stand where two gears just meet.
  if (lathe.centreDistance === undefined && shafts.length === 2 && shop.studs > 0) return null
  if (lathe.centreDistance !== undefined && !spans(shafts, lathe.centreDistance)) return null
  const spares = neighbourSpares(lathe, shafts)
  if (spares.some((mm) => mm < -HAIR)) return null
  return { layout: null, spare: spares.length > 0 ? Math.min(...spares) : null }
}

/** How many of the gears stand on the lathe already. */
function inCommon(gears: readonly Kind[], mounted: readonly Kind[]): number {
  const left = [...mounted]
  return gears.filter((kind) => {
    const at = left.indexOf(kind)
    if (at >= 0) left.splice(at, 1)
    return at >= 0
  }).length
}

const teethOf = (kinds: readonly Kind[]): number => kinds.reduce((sum, k) => sum + k.teeth, 0)

function rankOf(stages: KindStage[], { drive, gearbox }: Setting, spare: number | null, mounted: readonly Kind[]) {
  const gears = reading(stages)
  return [
    gears.length,
    -inCommon(gears, mounted),
    rankOfSpare(spare),
    teethOf(stages.flatMap((s) => s.idlers)),
    drive,
    gearbox,
    ...gears.map((k) => k.teeth),
    ...gears.map((k) => k.moduleRank),
    ...gears.map((k) => k.gear.pressureAngle),
    // What ties here has one kind on both sides, so that the same row of gears can be read two ways: fewer stages
    // first, then idlers nearer the input.
    stages.length,
    ...stages.map((s) => -s.idlers.length),
  ]
}

const asGears = ({ driver, idlers, driven }: KindStage) => ({
  driver: driver.gear,
  idlers: idlers.map((k) => k.gear),
  driven: driven.gear,
})

/** The best arrangement of a set, or null when none goes on the lathe. */
export function settle(shop: Shop, set: GearSet, hand: Hand, mounted: readonly Kind[]): Mounting | null {
  const size = set.drivers.length
  for (let idlers = 0; size - 1 + idlers <= shop.studs; idlers++) {
    const settings = set.settings.filter((setting) => cutsHand(shop, hand, size + idlers, setting))
    if (settings.length === 0) continue
    const mountings: Mounting[] = []
    for (const stages of arrangements(set, idlers, shop.kinds)) {
      const shafts = shaftsOf(stages.map(asGears), shop.planes)
      if (!suits(shop, stages, shafts)) continue
      const standing = stand(shop, shafts)
      if (standing === null) continue
      for (const setting of settings) {
        const rank = rankOf(stages, setting, standing.spare, mounted)
        mountings.push({ set, setting, stages, shafts, layout: standing.layout, rank })
      }
    }
    // Fewest gears come first of all, so no arrangement with more idlers can be better.
    if (mountings.length > 0) return mountings.sort((a, b) => compareRanks(a.rank, b.rank))[0]
  }
  return null
}
