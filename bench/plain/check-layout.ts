import type { Gear, Lathe, Train } from '@trainwright/trains'

/** mm. */
const NEAR = 1e-6

/**
 * Checks a layout from nothing but the lathe, the gears and where the layout says that each shaft's centre is, to
 * 1e-6 mm. Shares no code with what lays trains out. Returns what is wrong, in words; nothing when all holds.
 */
export function checkLayout(lathe: Lathe, train: Pick<Train, 'shafts' | 'layout'>): string[] {
  const wrong: string[] = []
  const check = (holds: boolean, what: string): void => {
    if (!holds) wrong.push(what)
  }
  const { layout, shafts } = train
  const { banjo, centreDistance } = lathe
  if (!layout || !banjo || centreDistance === undefined) return ['there is no layout, banjo or centre distance']
  const at = layout.shafts
  const last = shafts.length - 1
  if (at.length !== shafts.length) return [`${at.length} positions for ${shafts.length} shafts`]
  if (at.some(({ x, y }) => !Number.isFinite(x) || !Number.isFinite(y))) return ['a position is not a number']

  const tip = (gear: Gear): number => gear.module * (gear.teeth / 2 + 1)
  const between = (i: number, j: number): number => Math.sqrt((at[i].x - at[j].x) ** 2 + (at[i].y - at[j].y) ** 2)

  // The fixed shafts.
  check(Math.abs(at[0].x - centreDistance) < NEAR && Math.abs(at[0].y) < NEAR, 'the input shaft is out of place')
  check(Math.abs(at[last].x) < NEAR && Math.abs(at[last].y) < NEAR, 'the output shaft is out of place')
  check(at[0].slot === null && at[last].slot === null, 'a fixed shaft stands in a slot')
  check(at[0].along === null && at[last].along === null, 'a fixed shaft stands along a slot')

  // The studs in their slots. The plate is rigid: with one swing for all, each stud's place seen from the pivot, turned
  // back by the swing and by its slot's angle, has the slot's offset for y and its place along the slot for x.
  const atInput = banjo.pivot === 'input'
  const pivot = atInput ? at[0] : at[last]
  const [least, most] = banjo.swing
  const { swing } = layout
  check((swing === null) === (last === 1), 'swing goes with studs')
  if (swing !== null) {
    const degree = NEAR / 1000 // well under 1e-6 mm at any stud
    check(swing >= least - degree && swing <= most + degree, `swing ${swing} is outside ${least} to ${most}`)
    for (let i = 1; i < last; i++) {
      const { x, y, slot: number, along: said } = at[i]
      const slot = number === null ? undefined : banjo.slots[number]
      if (!slot || said === null) {
        wrong.push(`stud ${i} stands in no slot`)
        continue
      }
      const turn = (((atInput ? 180 : 0) + swing + (slot.angle ?? 0)) * Math.PI) / 180
      const along = Math.cos(turn) * (x - pivot.x) + Math.sin(turn) * (y - pivot.y)
      const offset = Math.cos(turn) * (y - pivot.y) - Math.sin(turn) * (x - pivot.x)
      check(Math.abs(offset - (slot.offset ?? 0)) < NEAR, `stud ${i} lies beside its slot by ${offset}`)
      check(along > slot.from - NEAR && along < slot.to + NEAR, `stud ${i} stands at ${along}, outside its slot`)
      check(Math.abs(along - said) < NEAR, `stud ${i} stands at ${along}, not at ${said}`)
    }
  }

  // Mesh distances. Only what nothing can adjust may stand wide: a stud in a hole and the shaft before it, from the
  // pivot outwards; the last shaft when the banjo cannot swing; the fixed shafts meshing directly.
  check(layout.meshes.length === last, `${layout.meshes.length} meshes between ${shafts.length} shafts`)
  layout.meshes.forEach(({ between: [i, j], centreDistance: said }, k) => {
    check(i === k && j === k + 1, `mesh ${k} is between ${i} and ${j}`)
    check(Math.abs(between(k, k + 1) - said) < NEAR, `mesh ${k} is ${between(k, k + 1)} apart, not ${said}`)
  })
  for (let i = 0; i < last; i++) {
    const driver = shafts[i].gears[shafts[i].gears.length - 1]
    const driven = shafts[i + 1].gears[0]
    const { module } = driver.gear
    check(module === driven.gear.module, `mesh ${i} mixes modules`)
    check(driver.gear.pressureAngle === driven.gear.pressureAngle, `mesh ${i} mixes pressure angles`)
    check(driver.plane === driven.plane, `mesh ${i} is between two planes`)
    const outer = atInput ? i + 1 : i
    const hole = outer > 0 && outer < last ? banjo.slots[at[outer].slot ?? 0] : undefined
    const fixed = outer === 0 || outer === last ? last === 1 || least === most : hole && hole.from === hole.to
    const wide = between(i, i + 1) - (module * (driver.gear.teeth + driven.gear.teeth)) / 2
    check(wide > -NEAR && wide < (fixed ? 0.1 * module : 0) + NEAR, `mesh ${i} stands wide by ${wide}`)
  }

  // What could foul: every gear against every other shaft, gear and obstacle.
  const spares: number[] = []
  const clear = (mm: number, what: string): void => {
    spares.push(mm)
    check(mm > -NEAR, `${what} by ${-mm}`)
  }
  for (let i = 0; i <= last; i++) {
    for (const [g, { gear, plane }] of shafts[i].gears.entries()) {
      const meshesWith: number[] = []
      if (g === 0) meshesWith.push(i - 1)
      if (g === shafts[i].gears.length - 1) meshesWith.push(i + 1)
      for (let j = 0; j <= last; j++) {
        if (j === i || meshesWith.includes(j)) continue
        const round = lathe.shaftClearance ?? 6.5 * gear.module
        clear(between(i, j) - tip(gear) - round, `${gear.teeth} on shaft ${i} fouls shaft ${j}`)
      }
      for (let j = i + 1; j <= last; j++) {
        for (const [f, facing] of shafts[j].gears.entries()) {
          const mesh = j === i + 1 && g === shafts[i].gears.length - 1 && f === 0
          if (mesh || facing.plane !== plane) continue
          const gap = between(i, j) - tip(gear) - tip(facing.gear) - 0.5
          clear(gap, `${gear.teeth} on shaft ${i} fouls ${facing.gear.teeth} on shaft ${j}`)
        }
      }
      for (const { x, y, radius } of banjo.keepOut ?? []) {
        const gap = Math.sqrt((at[i].x - x) ** 2 + (at[i].y - y) ** 2) - radius - tip(gear)
        clear(gap, `${gear.teeth} on shaft ${i} fouls what stands at ${x}, ${y}`)
      }
    }
  }
  const said = layout.clearance?.mm ?? Number.POSITIVE_INFINITY
  const found = Math.min(...spares)
  check(said === found || Math.abs(said - found) < NEAR, `the clearance is ${found}, not ${said}`)
  return wrong
}
