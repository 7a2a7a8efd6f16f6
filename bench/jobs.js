// One piece of work per name, each run in a process of its own: a method that fills the heap slows the one after it.
import { findTrains, proposeGears } from '@trainwright/trains'
import { findTrainsPlain } from './build/find-trains.js'
import { countByLoops, physicalGears } from './plain/nested-loops.js'
import { banjo, boxText, hard, sets, wishes } from './questions.js'

const found = ({ counts }) => `${counts.withinTolerance} sets, ${counts.mountable} mount`
const proposed = ({ already, proposals, never }) =>
  `${already.length} cut now, ${never.length} never; best ${proposals
    .slice(0, 3)
    .map((p) => `${p.make.map((g) => g.teeth).join('+')} opens ${p.opens.length}`)
    .join(', ')}`

const loops = (name) => () => {
  const counts = countByLoops(physicalGears(boxText[name]), 254 / 195, 500, 3)
  return `${counts.join(', ')} choices of physical gears`
}

/** Every count and thread asked of findTrains: what proposeGears saves. */
function countByCount([workshop, wanted]) {
  let opened = 0
  const cut = (gears, thread) =>
    findTrains({ ...workshop, gears }, thread, { order: 'closest', limit: 1 }).trains.length > 0
  const open = wanted.filter((thread) => !cut(workshop.gears, thread))
  for (let teeth = 20; teeth <= 127; teeth++) {
    for (const thread of open) if (cut([...workshop.gears, { teeth }], thread)) opened++
  }
  return `${opened} counts open a thread`
}

export const jobs = {
  'find 12': () => found(findTrains(...sets('12'))),
  'find 20': () => found(findTrains(...sets('20'))),
  'find 40': () => found(findTrains(...sets('40'))),
  'find 100': () => found(findTrains(...sets('100'))),
  'find hard': () => found(findTrains(...hard())),
  'loops 12': loops('12'),
  'loops 20': loops('20'),
  'loops 40': loops('40'),
  'banjo roomy 20': () => found(findTrains(...banjo('roomy', '20'))),
  'banjo roomy 40': () => found(findTrains(...banjo('roomy', '40'))),
  'banjo tight 20': () => found(findTrains(...banjo('tight', '20'))),
  'banjo tight 40': () => found(findTrains(...banjo('tight', '40'))),
  'plain banjo roomy 20': () => found(findTrainsPlain(...banjo('roomy', '20'))),
  'plain banjo tight 20': () => found(findTrainsPlain(...banjo('tight', '20'))),
  'plain banjo roomy 40': () => found(findTrainsPlain(...banjo('roomy', '40'))),
  'plain banjo tight 40': () => found(findTrainsPlain(...banjo('tight', '40'))),
  'one gear 12': () => proposed(proposeGears(...wishes('12'))),
  'one gear 20': () => proposed(proposeGears(...wishes('20'))),
  'two gears 12': () => proposed(proposeGears(...wishes('12'), { make: 2 })),
  'two gears 20': () => proposed(proposeGears(...wishes('20'), { make: 2 })),
  'count by count 12': () => countByCount(wishes('12')),
  'count by count 20': () => countByCount(wishes('20')),
}
