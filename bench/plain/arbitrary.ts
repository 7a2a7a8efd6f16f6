import type { FindOptions, GearRef, Lathe, ThreadWanted, Workshop } from '@trainwright/trains'
import fc from 'fast-check'
import { fitted, onBanjo } from './arbitrary-fit.js'
import { bareLathe, box, refTo, seldom, written } from './arbitrary-parts.js'
import { type Planted, plantedIn, threadsFor } from './arbitrary-threads.js'
import { readShop, type Shop } from './shop.js'

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
