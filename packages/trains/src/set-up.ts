import { compare, multiply, parsePitch, type Rational, rational } from '@trainwright/measures'
import { BOUNDS } from './bounds.js'
import { checkLathe } from './check-workshop.js'
import type { Gear, GearRef, Hand, Lathe, SetUp, Stage } from './contract.js'
import { optional, type Read, Reader } from './reader.js'
import { gearOf, moduleOf } from './search/box.js'
import { handOf, type Setting, settingsOf } from './search/question.js'
import { WorkshopError } from './workshop-error.js'

/** A set-up given by hand, checked: its setting on the lathe, its stages in full. */
export interface CheckedSetUp {
  lathe: Lathe
  setting: Setting
  stages: Stage[]
}

/** A gear of a set-up: a ref, or a gear out of an answer, whose dp and pressure angle are heeded. */
type NamedGear = GearRef & Partial<Gear>

const sameMesh = (a: NamedGear, b: NamedGear): boolean =>
  compare(moduleOf(a), moduleOf(b)) === 0 && (a.pressureAngle ?? 20) === (b.pressureAngle ?? 20)

function checkMeshes(r: Reader, chain: NamedGear[], path: string): void {
  for (let i = 1; i < chain.length; i++) {
    if (!sameMesh(chain[i - 1], chain[i])) r.refuse(path, 'no-mesh', `${chain[i - 1].teeth} and ${chain[i].teeth}`)
  }
}

/** @throws WorkshopError naming every problem of lathe (`lathe.…`) and set-up (`setUp.…`). */
export function checkSetUp(lathe: unknown, setUp: unknown): CheckedSetUp {
  const r = new Reader()
  const gear: Read<NamedGear> = (x, p) =>
    r.object<NamedGear>(x, p, {
      teeth: (y, q) => r.whole(y, q, BOUNDS.leastTeeth, BOUNDS.mostTeeth),
      module: optional((y, q) => r.positive(y, q, 100)),
      dp: optional((y, q) => r.positive(y, q, 1000)),
      pressureAngle: optional((y, q) => r.number(y, q, 5, 45)),
    })
  const ready = checkLathe(r, lathe, 'lathe')
  const given = r.object<{ drive?: number; gearbox?: number; stages: SetUp['stages'] }>(setUp, 'setUp', {
    drive: optional((y, q) => r.whole(y, q, 0, BOUNDS.settings)),
    gearbox: optional((y, q) => r.whole(y, q, 0, BOUNDS.settings)),
    stages: (x, p) =>
      r.list(x, p, [1, BOUNDS.stages], (y, q) => {
        const stage = r.object<SetUp['stages'][number]>(y, q, {
          driver: gear,
          driven: gear,
          idlers: optional((z, s) => r.list(z, s, [0, BOUNDS.studs], gear)),
        })
        if (stage) checkMeshes(r, [stage.driver, ...(stage.idlers ?? []), stage.driven], q)
        return stage
      }),
  })
  const studs = given ? given.stages.reduce((sum, { idlers }) => sum + 1 + (idlers?.length ?? 0), -1) : 0
  if (studs > BOUNDS.studs) r.refuse('setUp.stages', 'too-many-studs', studs)
  const settings = ready ? settingsOf(ready) : []
  const setting = settings.find((s) => s.drive === (given?.drive ?? 0) && s.gearbox === (given?.gearbox ?? 0))
  if (ready && given && !setting) r.refuse('setUp', 'no-setting', settings.length)
  if (!ready || !given || !setting || r.problems.length > 0) throw new WorkshopError(r.problems)
  const stages = given.stages.map((s) => ({
    driver: gearOf(s.driver),
    driven: gearOf(s.driven),
    idlers: (s.idlers ?? []).map((g) => gearOf(g)),
  }))
  return { lathe: ready, setting, stages }
}

/**
 * What the lathe cuts with this set-up: the lead in mm for one turn of the spindle, exactly, and its hand. Idlers change
 * the hand, never the lead.
 * @throws WorkshopError when lathe or set-up cannot be read, or gears that should mesh differ in module.
 */
export function leadOf(lathe: Lathe, setUp: SetUp): { lead: Rational; hand: Hand; approximate: boolean } {
  const { setting, stages, lathe: checked } = checkSetUp(lathe, setUp)
  const leadscrew = parsePitch(checked.leadscrew.pitch)
  const lead = stages.reduce(
    (product, { driver, driven }) => multiply(product, rational(driver.teeth, driven.teeth)),
    multiply(leadscrew.mm, setting.ratio),
  )
  const meshes = stages.reduce((sum, { idlers }) => sum + 1 + idlers.length, 0)
  return { lead, hand: handOf(checked, setting, meshes), approximate: leadscrew.approximate }
}
