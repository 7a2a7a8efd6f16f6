import fc from 'fast-check'
import type { Page, Shop } from '../src/state/kept.js'
import {
  blankMounted,
  SHAFTS,
  type TypedDrive,
  type TypedKind,
  type TypedLathe,
  type TypedThread,
} from '../src/state/typed.js'
import { blankBanjo } from '../src/state/typed-banjo.js'
import { blankChart, blankMaking, blankWishes } from '../src/state/typed-making.js'
import { blankWork } from '../src/state/typed-work.js'

/** What a person may have typed: anything, readable or not. */
const text = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.constantFrom('', '8 tpi', '1/', '__proto__', '<b>', '"', '\u2028', 'Ä½'),
)
const hand = fc.constantFrom('right', 'left')
const plain = fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 3 }), { noNullPrototype: true, maxKeys: 3 })

const drive: fc.Arbitrary<TypedDrive> = fc.record({
  name: text,
  ratio: text,
  reverses: fc.boolean(),
  belt: fc.constantFrom('none', 'toothed', 'plain'),
})

const kind: fc.Arbitrary<TypedKind> = fc.record({
  line: text,
  by: fc.constantFrom('module', 'dp'),
  size: text,
  angle: text,
  shafts: fc.subarray([...SHAFTS]),
})

const yesNo = fc.constantFrom('yes', 'no', 'unknown')

const ends = fc.record({ input: text, output: text })

const lathe: fc.Arbitrary<TypedLathe> = fc.record({
  leadscrew: fc.record({ pitch: text, hand }),
  studs: text,
  planes: text,
  centreDistance: text,
  shaftClearance: text,
  room: ends,
  fixed: ends,
  drives: fc.array(drive, { maxLength: 3 }),
  gearbox: fc.array(drive, { maxLength: 3 }),
  halfNuts: yesNo,
  dial: fc.record({ travel: text, lines: text }),
  screwedNose: yesNo,
  speeds: text,
  banjo: text.map((collars) => ({ ...blankBanjo(), collars })),
  also: plain as fc.Arbitrary<object>,
})

export const thread: fc.Arbitrary<TypedThread> = fc.record({
  name: text,
  pitch: text,
  starts: text,
  hand,
  tolerance: fc.record({ by: fc.constantFrom('ppm', 'length'), ppm: text, error: text, over: text }),
  work: fc
    .record({ diameter: text, engagement: text, cut: fc.constantFrom('screw', 'nut'), class: text })
    .map((some) => ({ ...blankWork(), ...some })),
})

export const shop: fc.Arbitrary<Shop> = fc.record({
  workshop: fc.record({
    name: text,
    lathe,
    kinds: fc.array(kind, { minLength: 1, maxLength: 3 }),
    wires: text,
    mounted: text.map((gears) => ({ ...blankMounted(), gears })),
    making: text.map((bore) => ({ ...blankMaking(), bore })),
    also: plain as fc.Arbitrary<object>,
  }),
  view: fc.record({
    rotate: fc.nat(359),
    mirror: fc.boolean(),
    units: fc.constantFrom('mm', 'inch'),
    sheet: fc.constantFrom('train', 'gear', 'chart'),
  }),
})

export const page: fc.Arbitrary<Page> = fc
  .record({
    threads: fc.array(thread, { minLength: 1, maxLength: 4 }),
    order: fc.constantFrom('fewest gears', 'closest'),
    at: fc.nat(),
    list: text,
    of: text,
  })
  .map(({ threads, order, at, list, of }) => ({
    threads,
    thread: at % threads.length,
    order,
    wishes: { ...blankWishes(), list },
    chart: { ...blankChart(), of },
  }))
