import type { Banjo, Lathe, ShaftName, Slot } from '@trainwright/trains'
import fc from 'fast-check'
import { refTo, seldom, usually, written } from './arbitrary-parts.js'
import type { Planted } from './arbitrary-threads.js'
import { reading, shaftsOf } from './arrangements.js'
import { meshDistances, tipRadius } from './clearances.js'
import { type Kind, resolve, type Shop } from './shop.js'

/** The lathe with fixed gears, room and centre distance that mostly suit the planted train. */
export function fitted(shop: Shop, { stages }: Planted): fc.Arbitrary<Lathe> {
  const { kinds, workshop } = shop
  const gears = reading(stages)
  const first = gears[0]
  const last = gears[gears.length - 1]
  const fixed = (planted: Kind, shaft: ShaftName) => {
    const able = kinds.filter((k) => k.stock.some((entry) => entry.shafts.includes(shaft)))
    const likely = able.includes(planted) ? [planted, planted, planted] : []
    const refs = [...likely, ...able].map((kind) => refTo(kinds, kind)).filter((ref) => ref !== null)
    return refs.length > 0 ? seldom(fc.constantFrom(...refs), 9) : fc.constant(undefined)
  }
  const radius = ({ gear }: Kind) =>
    seldom(
      fc.constantFrom(
        tipRadius(gear),
        tipRadius(gear) + 0.25,
        tipRadius(gear) - 0.25,
        ...kinds.map((k) => tipRadius(k.gear)),
      ),
      7,
    )
  const distances = meshDistances(shaftsOf(stages.map(asGears), 2))
  const reach = distances.reduce((sum, mm) => sum + mm)
  const direct = (first.gear.module * (first.teeth + last.teeth)) / 2
  const centre = fc.oneof(
    fc.constantFrom(direct, direct + first.gear.module / 10, direct + first.gear.module / 20, direct + 1),
    fc.constantFrom(reach, reach / 2, reach + 1),
    fc.integer({ min: 20, max: 120 }),
  )
  return fc
    .record({
      input: fixed(first, 'input'),
      output: fixed(last, 'output'),
      roomInput: radius(first),
      roomOutput: radius(last),
      centreDistance: seldom(centre, 3),
    })
    .map(({ input, output: wish, roomInput, roomOutput, centreDistance }) => {
      // One gear cannot be fixed in two places.
      const same = input && wish ? resolve(kinds, input) === resolve(kinds, wish) : false
      const output = same && resolve(kinds, input!)!.owned < 2 ? undefined : wish
      return written<Lathe>({
        ...workshop.lathe,
        fixedGears: input || output ? written({ input, output }) : undefined,
        room: roomInput || roomOutput ? written({ input: roomInput, output: roomOutput }) : undefined,
        centreDistance,
      })
    })
}

const asGears = ({ driver, idlers, driven }: Planted['stages'][0]) => ({
  driver: driver.gear,
  idlers: idlers.map((k) => k.gear),
  driven: driven.gear,
})

const degrees = (angle: number): number => (angle * 180) / Math.PI

/** The slot, in directions from the pivot, that holds a stud at (x, y): measured to whole degrees unless it is a hole. */
function slotThrough(
  { x, y }: { x: number; y: number },
  { offset, before, after }: { offset: number; before: number; after: number },
): Slot & { angle: number } {
  const radius = Math.hypot(x, y)
  const side = Math.abs(offset) < radius ? offset : 0
  const along = Math.sqrt(radius ** 2 - side ** 2)
  const from = before < 0 ? along : Math.max(0, Math.floor(along) - before)
  const to = before < 0 ? along : after < 0 ? along : Math.ceil(along) + after
  return { angle: degrees(Math.atan2(y, x) - Math.asin(side / radius)), offset: side, from, to }
}

const slotShape = fc.record({
  offset: fc.constantFrom(0, 0, 0, 5, -8.5, 12),
  /** Below 0: a hole. */
  before: fc.oneof(
    { weight: 9, arbitrary: fc.integer({ min: 0, max: 25 }) },
    { weight: 1, arbitrary: fc.constant(-1) },
  ),
  /** Below 0: the slot ends at the stud. */
  after: fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 0, max: 30 }) }, { weight: 1, arbitrary: fc.constant(-1) }),
})

/**
 * The lathe with a banjo on which the planted train's studs find their places, as far as nothing fouls: studs are set
 * down from the pivot outwards, each at its mesh distance in some direction, the other shaft where the last mesh
 * leaves it, and slots cut through them.
 */
export function onBanjo(shop: Shop, planted: Planted): fc.Arbitrary<Lathe> {
  const distances = meshDistances(shaftsOf(planted.stages.map(asGears), 2))
  return fc
    .record({
      lathe: fitted(shop, planted),
      shaftClearance: fc.constantFrom(undefined, 1, 1, 2, 4, 8),
      pivot: fc.constantFrom(undefined, 'output' as const, 'input' as const),
      // Past a right angle the next stud comes nearer to the pivot again.
      directions: fc.array(usually(fc.integer({ min: -70, max: 70 }), fc.integer({ min: -150, max: 150 }), 2), {
        minLength: 4,
        maxLength: 4,
      }),
      shapes: fc.array(slotShape, { minLength: 4, maxLength: 4 }),
      extra: seldom(slotShape, 3),
      shared: fc.boolean(),
      swing: fc.tuple(
        usually(fc.integer({ min: 0, max: 60 }), fc.constant(-1), 6),
        usually(fc.integer({ min: 0, max: 60 }), fc.constant(-1), 6),
      ),
      keepOut: seldom(
        fc.array(
          fc.record({
            x: fc.integer({ min: -80, max: 150 }),
            y: fc.integer({ min: -100, max: 100 }),
            radius: fc.integer({ min: 2, max: 20 }),
          }),
          { minLength: 1, maxLength: 2 },
        ),
        4,
      ),
    })
    .map(({ lathe, shaftClearance, pivot, directions, shapes, extra, shared, swing, keepOut }) => {
      const outwards = pivot === 'input' ? distances : [...distances].reverse()
      const studs: { x: number; y: number }[] = []
      let at = { x: 0, y: 0 }
      for (const [i, distance] of outwards.slice(0, -1).entries()) {
        const direction = (directions[i] * Math.PI) / 180
        at = { x: at.x + distance * Math.cos(direction), y: at.y + distance * Math.sin(direction) }
        studs.push(at)
      }
      // The other shaft lies on the line y = 0 of this picture, if the last mesh reaches it.
      const last = outwards[outwards.length - 1]
      const across = last ** 2 - at.y ** 2
      const centreDistance = Math.max(10, across > 0 ? at.x + Math.sqrt(across) : at.x)
      const cut = studs.map((stud, i) => slotThrough(stud, shapes[i]))
      if (extra || cut.length === 0) cut.push(slotThrough({ x: 30, y: 10 }, extra ?? shapes[0]))
      const slots = shared && cut.length > 1 ? cut.slice(0, -1) : cut
      const zero = slots[0].angle
      const [below, above] = swing
      const banjo = written<Banjo>({
        pivot,
        // At -1 the stop is just where the planted train needs it, or nearly.
        swing: [below < 0 ? zero : Math.floor(zero) - below, above < 0 ? zero : Math.ceil(zero) + above],
        slots: slots.map(({ angle, ...slot }, i) => (i === 0 ? slot : { ...slot, angle: angle - zero })),
        keepOut,
      })
      return written<Lathe>({ ...lathe, shaftClearance, centreDistance, banjo })
    })
}
