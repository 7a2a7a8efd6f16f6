import type { ThreadWork } from '@trainwright/sheet'
import type { ThreadWanted, Workshop } from '@trainwright/trains'
import demoWorkshop from '../../test-data/demo-workshop.json' with { type: 'json' }
import type { Typed } from './state/typed.js'
import { threadFrom, workshopFrom } from './state/typed-from.js'
import { blankChart } from './state/typed-making.js'
import { workFrom } from './state/typed-work.js'

/**
 * What a first visit shows: a job on a bench lathe, solved. It is invented: restoring a surveyor's level. The box cuts the
 * first thread exactly, the second within tolerance, the third left-handed, and the last not at all.
 */
export const demo = (): Typed => ({
  threads: (demoWorkshop.threads as (ThreadWanted & { work: ThreadWork })[]).map(({ work, ...wanted }) => ({
    ...threadFrom(wanted),
    work: workFrom(work),
  })),
  thread: 0,
  workshop: workshopFrom(demoWorkshop.workshop as Workshop),
  wishes: { list: demoWorkshop.wishes.join('\n'), ppm: '' },
  chart: blankChart(),
  order: 'fewest gears',
  view: { rotate: 90, mirror: false, units: 'mm' },
})
