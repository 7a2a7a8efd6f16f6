import { expect, it } from 'vitest'
import { box, shop } from '../../../../bench/plain/in-brief.js'
import { proposeGearsPlain } from '../../../../bench/plain/propose-gears.js'
import type { GearStock, Lathe, ProposeOptions } from '../contract.js'
import { findTrains } from '../find-trains.js'
import { proposeGears } from '../propose-gears.js'

type Case = [name: string, gears: GearStock[], lathe: Partial<Lathe>, threads: string[], options: ProposeOptions]

// Small workshops, each of which brings one way of opening a thread, beside asking one question for each choice.
const two = { make: 2, limit: 100 } as const
it.each<Case>([
  ['both made drive', box(40, 60), { shaftClearance: 1 }, ['500/2400', '0.34'], { ...two, makeable: [20, 25, 34] }],
  [
    'both made are driven',
    box(20, 25, 30),
    { shaftClearance: 1 },
    ['500/3000', '0.21'],
    { ...two, makeable: [50, 60] },
  ],
  ['one drives, one is driven', box(30), { studs: 1 }, ['35/50', '0.71', '1'], { ...two, makeable: [35, 50, 70] }],
  ['one in the ratio, one an idler', box(20), { studs: 1 }, ['1/2', '2/5', '2'], { ...two, makeable: [40, 50, 60] }],
  ['both are idlers', box(20, 40), { studs: 2 }, ['1/2 left', '1/2'], { ...two, makeable: [25, 30, 35] }],
  ['two alike', box(20, 40), { studs: 2 }, ['1', '1 left'], { ...two, makeable: [30, 20] }],
  [
    'near ones',
    box(20, 30, 45),
    { studs: 1 },
    ['0.41', '0.63', '0.39', '0.58'],
    { ...two, makeable: [46, 48, 51, 52] },
  ],
  ['a hand in the way', box(20, 40), { studs: 2 }, ['1/2 left', '2/3', '4/5 left'], { ...two, makeable: [25, 30, 50] }],
  [
    'a fixed gear on either side',
    [{ teeth: 30 }, { teeth: 20, count: 2 }],
    { shaftClearance: 1, fixedGears: { input: { teeth: 20 }, output: { teeth: 20 } } },
    ['50/60', '6/5', '1'],
    { ...two, makeable: [20, 50, 60] },
  ],
  [
    'a fixed gear of an inch box, and one of many',
    [{ teeth: 24, dp: 20 }, { teeth: 36, dp: 20 }, { teeth: 36, module: 1 }, ...box(20, 50)],
    { studs: 1, fixedGears: { input: { teeth: 24 }, output: { teeth: 36, module: 1.27 } } },
    ['2/3', '2/3 left'],
    { makeable: [36, 24, 30], module: 1.27 },
  ],
  [
    'a fixed 36 of 20 DP, the only one, and another 36 made: 20:36 24:36',
    [...box(20, 25), { teeth: 24, dp: 20 }, { teeth: 36, dp: 20 }],
    { studs: 1, shaftClearance: 1, fixedGears: { output: { teeth: 36 } } },
    // Were the output free, 20-25-40 would cut the second.
    ['10/27', '1/2'],
    { makeable: [36, 40], module: 1 },
  ],
  [
    'the same teeth in other modules and angles',
    [...box(20, 40), { teeth: 30, module: 2 }, { teeth: 30, pressureAngle: 14.5 }, { teeth: 30, module: 0.5 }],
    { studs: 1, fixedGears: { output: { teeth: 40 } } },
    ['3/4', '1/2'],
    { makeable: [30, 40], limit: 100 },
  ],
  [
    'gears that may not sit everywhere',
    [
      { teeth: 20, shafts: ['input'] },
      { teeth: 40, shafts: ['output', 'stud'] },
      { teeth: 30, shafts: ['stud'] },
    ],
    { studs: 1 },
    ['1/2', '3/4', '1', '2'],
    { ...two, makeable: [20, 30, 40] },
  ],
  [
    'settings of two ratios, one of them reversing',
    box(20, 40),
    { studs: 1, drives: [{ ratio: 1 }, { ratio: 1, reverses: true }, { ratio: '1/2', reverses: true }] },
    ['1/2 left', '1/3', '1/5 left', '0.26'],
    { ...two, makeable: [30, 38, 50] },
  ],
  ['no more than asked for', box(20, 30, 40), { studs: 1 }, ['2/5', '3/5', '4/5'], { limit: 2, teeth: [48, 51] }],
])('a proposal is worth what findTrains says of it: %s', (_, gears, lathe, threads, options) => {
  const workshop = shop(gears, lathe)
  const wanted = threads.map((text) => {
    const [pitch, hand] = text.endsWith(' left') ? [text.slice(0, -5), 'left' as const] : [text, 'right' as const]
    return { pitch, hand, tolerance: { ppm: 40_000 } }
  })
  const found = proposeGears(workshop, wanted, options)
  expect(found.proposals.length).toBeGreaterThan(0)
  expect(found).toEqual(proposeGearsPlain(workshop, wanted, options, findTrains))
})
