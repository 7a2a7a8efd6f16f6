import { compare, multiply, parsePitch, type Rational, rational } from '@trainwright/measures'
import { BOUNDS } from './bounds.js'
import { dp, gearModule, pressureAngle, teeth } from './check-fields.js'
import { lathe } from './check-workshop.js'
import type { Gear, GearRef, Hand, Lathe, SetUp, Stage } from './contract.js'
import { isObject, list, object, optional, own, Reader, sound, whole } from './reader.js'
import { gearOf, moduleOf } from './search/box.js'
import { handOf, type Setting, settingsOf } from './search/question.js'
import { meshesOf } from './search/train.js'
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

const gear = object<NamedGear>({ teeth, module: gearModule, dp, pressureAngle })

const stageAlone = object<SetUp['stages'][number]>({
  driver: gear,
  driven: gear,
  idlers: optional(list(gear, 0, BOUNDS.studs)),
})
const stage: typeof stageAlone = (r, x, path) => {
  const read = stageAlone(r, x, path)
  if (read) checkMeshes(r, [read.driver, ...(read.idlers ?? []), read.driven], path)
  return read
}

const position = optional(whole(0, BOUNDS.settings))
const setUpAlone = object<SetUp>({ drive: position, gearbox: position, stages: list(stage, 1, BOUNDS.stages) })

/**
 * @param onBanjo the set-up is to be laid out
 * @throws WorkshopError naming every problem of lathe (`lathe.…`) and set-up (`setUp.…`).
 */
export function checkSetUp(x: unknown, setUp: unknown, onBanjo = false): CheckedSetUp {
  const r = new Reader()
  const ready = lathe(r, x, 'lathe')
  if (onBanjo && isObject(x) && own(x, 'banjo') === undefined) r.refuse('lathe.banjo', 'needs-banjo')
  const given = setUpAlone(r, setUp, 'setUp')
  const studs = given ? given.stages.reduce((sum, { idlers }) => sum + 1 + (idlers?.length ?? 0), -1) : 0
  if (studs > BOUNDS.studs) r.refuse('setUp.stages', 'too-many-studs', studs)
  const settings = ready ? settingsOf(ready) : []
  const [drive, gearbox] = ['drive', 'gearbox'].map((key) => (isObject(setUp) && sound(position, own(setUp, key))) || 0)
  const setting = settings.find((s) => s.drive === drive && s.gearbox === gearbox)
  if (ready && !setting) r.refuse('setUp', 'no-setting', settings.length)
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
 * the hand, never the lead. `approximate` says that pi is in the leadscrew's pitch.
 * @throws WorkshopError when lathe or set-up cannot be read, or gears that should mesh differ in module.
 */
export function leadOf(lathe: Lathe, setUp: SetUp): { lead: Rational; hand: Hand; approximate: boolean } {
  const { setting, stages, lathe: checked } = checkSetUp(lathe, setUp)
  const leadscrew = parsePitch(checked.leadscrew.pitch)
  const lead = stages.reduce(
    (product, { driver, driven }) => multiply(product, rational(driver.teeth, driven.teeth)),
    multiply(leadscrew.mm, setting.ratio),
  )
  const meshes = meshesOf(stages)
  return { lead, hand: handOf(checked, setting, meshes), approximate: leadscrew.approximate }
}
