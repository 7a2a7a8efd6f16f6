import type { FindOptions, GearRef, Lathe, ProposeOptions, ThreadWanted, Workshop } from '@trainwright/trains'
import fc from 'fast-check'
import { fitted, onBanjo } from './arbitrary-fit.js'
import { bareLathe, box, refTo, seldom, written } from './arbitrary-parts.js'
import { type Planted, plantedIn, threadsFor } from './arbitrary-threads.js'
import { readShop, resolve, type Shop } from './shop.js'

/** One question of findTrains. */
export interface Question {
  workshop: Workshop
  wanted: ThreadWanted
  options: FindOptions
}

const choices = ({ kinds }: Shop): fc.Arbitrary<FindOptions> => {
  const refs = kinds.map((kind) => refTo(kinds, kind)).filter((ref) => ref !== null)
  return fc
    .record({
      limit: fc.constantFrom(undefined, undefined, undefined, 1, 3, 10),
      stages: fc.constantFrom(undefined, undefined, undefined, undefined, undefined, 1, 2, 3, 4),
      order: fc.constantFrom(undefined, 'fewest gears' as const, 'closest' as const),
      // A gear of 11 teeth is not in any box.
      mounted: seldom(fc.array(fc.constantFrom<GearRef[]>(...refs, { teeth: 11 }), { minLength: 1, maxLength: 5 }), 2),
    })
    .map((options) => written<FindOptions>(options))
}

const around = (fit: (shop: Shop, planted: Planted) => fc.Arbitrary<Lathe>): fc.Arbitrary<Question> =>
  fc.record({ gears: box, lathe: bareLathe }).chain((workshop) => {
    const shop = readShop(workshop)
    return plantedIn(shop).chain((planted) =>
      fc.record({
        workshop: fit(shop, planted).map((lathe) => ({ ...workshop, lathe })),
        wanted: threadsFor(shop, planted),
        options: choices(shop),
      }),
    )
  })

/** Small workshops without a banjo, each with a thread: most have a train. */
export const questions: fc.Arbitrary<Question> = around(fitted)

/** Small workshops with a banjo: a good share have a train that stands on it. */
export const banjoQuestions: fc.Arbitrary<Question> = around(onBanjo)

/** One question of proposeGears. */
export interface Wish {
  workshop: Workshop
  wanted: ThreadWanted[]
  options: ProposeOptions
}

/** The workshop without one of the gears it lists, and without fixed gears if it was one of them. */
function lacking(workshop: Workshop, missing: number): Workshop {
  const gears = workshop.gears.filter((_, i) => i !== missing)
  const { kinds } = readShop({ ...workshop, gears, lathe: { ...workshop.lathe, fixedGears: {} } })
  const { fixedGears = {}, ...lathe } = workshop.lathe
  const named = (ref: GearRef | undefined): boolean => {
    const kind = ref && resolve(kinds, ref)
    return ref === undefined || (kind !== null && kind !== undefined && kind.owned > 1)
  }
  const kept = named(fixedGears.input) && named(fixedGears.output)
  return { ...workshop, gears, lathe: kept ? { ...lathe, fixedGears } : lathe }
}

/** Boxes that lack a gear, with a short list of threads that it would help to cut, and few counts to try. */
export const wishes = (asked: fc.Arbitrary<Question>, make: 1 | 2): fc.Arbitrary<Wish> =>
  fc
    .record({
      question: asked,
      missing: fc.nat(6),
      others: fc.subarray<ThreadWanted>([{ pitch: '0.7 mm' }, { pitch: '26 tpi', hand: 'left' }, { pitch: '1.25' }]),
      lead: fc.constantFrom(1, 2, 3),
      counts: fc.uniqueArray(fc.integer({ min: 18, max: 80 }), { minLength: 1, maxLength: make === 1 ? 12 : 3 }),
      module: fc.constantFrom(undefined, undefined, undefined, undefined, 1, 1.5),
      limit: fc.constantFrom(undefined, undefined, 1, 3),
    })
    .map(({ question: { workshop, wanted }, missing, others, lead, counts, module, limit }) => {
      const out = missing % workshop.gears.length
      const options = { make, teeth: [15, 90] as [number, number], makeable: [workshop.gears[out].teeth, ...counts] }
      return {
        workshop: lacking(workshop, out),
        wanted: [wanted, { ...wanted, starts: lead }, ...others],
        options: written<ProposeOptions>({ ...options, module, limit }),
      }
    })
