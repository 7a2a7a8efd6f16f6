import fc from 'fast-check'
import type { Page, Shop } from '../src/state/kept.js'
import { SHAFTS, type TypedDrive, type TypedKind, type TypedLathe, type TypedThread } from '../src/state/typed.js'
import type { TypedBanjo, TypedSlot, TypedStop } from '../src/state/typed-banjo.js'
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

/** Figures a person may have typed for a banjo, sane or not. */
const figure = fc.oneof(
  text,
  fc.integer({ min: -20, max: 160 }).map(String),
  fc.constantFrom('0', '1/2 in', '1e9', '-0'),
)
const sense = fc.constantFrom('anticlockwise', 'clockwise')
const slot: fc.Arbitrary<TypedSlot> = fc.record({
  near: figure,
  far: figure,
  length: figure,
  passes: fc.constantFrom('left', 'right'),
  fromFirst: figure,
  lies: sense,
  from: figure,
  to: figure,
  offset: figure,
  angle: figure,
})
const stop: fc.Arbitrary<TypedStop> = fc.record({ toStud: figure, lies: sense, swing: figure })
export const banjo: fc.Arbitrary<TypedBanjo> = fc.record({
  by: fc.constantFrom('none', 'measured', 'drawn'),
  pivot: fc.constantFrom('output', 'input'),
  slots: fc.array(slot, { minLength: 1, maxLength: 3 }),
  stops: fc.tuple(stop, stop),
  collars: figure,
  air: figure,
  keepOut: fc.array(fc.record({ x: figure, y: figure, radius: figure }), { maxLength: 2 }),
})

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
  banjo,
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
    mounted: fc.record({ drive: fc.nat(3), gearbox: fc.nat(3), gears: text }),
    also: plain as fc.Arbitrary<object>,
  }),
  view: fc.record({ rotate: fc.nat(359), mirror: fc.boolean(), units: fc.constantFrom('mm', 'inch') }),
})

export const page: fc.Arbitrary<Page> = fc
  .record({
    threads: fc.array(thread, { minLength: 1, maxLength: 4 }),
    order: fc.constantFrom('fewest gears', 'closest'),
    at: fc.nat(),
  })
  .map(({ threads, order, at }) => ({ threads, thread: at % threads.length, order }))
