import type { ThreadWanted, Workshop } from '@trainwright/trains'
import demoWorkshop from '../../test-data/demo-workshop.json' with { type: 'json' }
import type { Typed } from './state/typed.js'
import { threadFrom, workshopFrom } from './state/typed-from.js'
import { blankWork, type TypedWork } from './state/typed-work.js'

/** What a first visit shows: a job on a bench lathe, solved. */
export const demo = (): Typed => ({
  threads: (demoWorkshop.threads as ThreadWanted[]).map((wanted, i) => ({
    ...threadFrom(wanted),
    work: { ...blankWork(), ...(demoWorkshop.work[i] as Partial<TypedWork>) },
  })),
  thread: 0,
  workshop: workshopFrom(demoWorkshop.workshop as Workshop),
  order: 'fewest gears',
  view: { rotate: 90, mirror: false, units: 'mm' },
})
