import { expect, it } from 'vitest'
import { apart } from '../../../../bench/plain/alike.js'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { tipRadius } from '../../../../bench/plain/clearances.js'
import { betterLayout, layOutPlain } from '../../../../bench/plain/lay-out.js'
import type { Banjo, Gear, Lathe, Layout, Slot, Stage } from '../contract.js'
import { makeBox } from '../search/box.js'
import { type Lifted, makeRules } from '../search/rules.js'
import { BanjoChain } from './banjo-chain.js'

const gear = (teeth: number): Gear => ({ teeth, module: 1, pressureAngle: 20 })
/** '50-30-30' or '30-40 20-45': driver, idlers, driven of each stage. */
const stagesOf = (train: string): Stage[] =>
  train.split(' ').map((stage) => {
    const gears = stage.split('-').map((teeth) => gear(Number(teeth)))
    return { driver: gears[0], idlers: gears.slice(1, -1), driven: gears[gears.length - 1] }
  })

const trains = ['40-60', '50-30-30', '40-25-35-30', '30-40 20-45', '30-24-40 20-45', '36-30 34-28-45']
const slots: Slot[][] = [
  [{ from: 15, to: 70 }],
  [
    { from: 10, to: 80, offset: 8 },
    { angle: 35, offset: -3, from: 20, to: 75 },
  ],
  [
    { angle: 12, offset: 5, from: 32.16, to: 32.16 },
    { angle: -40, offset: -6, from: 10, to: 60 },
  ],
]
const swings: Banjo['swing'][] = [
  [-90, 90],
  [37, 37],
  [10, 220],
  [-180, 180],
  [-30, 315],
]
/** Near the far shaft, the pivot, and where studs stand. */
const castings = [
  { x: 12, y: 38, radius: 4 },
  { x: 30, y: -41, radius: 6 },
]

/**
 * Studs 30 mm out and 20 apart in two slots alike to both sides: each may stand in either, in the mirror, with as much to
 * spare. Then the slot of the stud nearer to the input decides, and the swing.
 */
const tilt = (Math.asin(1 / 3) * 180) / Math.PI
const forked: Slot[] = [tilt, -tilt].map((angle) => ({ angle, from: 25, to: 40 }))
const forks = { output: '50-30 20-20 30-30', input: '30-30 20-20 30-50' }

function* cases(): Generator<{ lathe: Lathe & { banjo: Banjo }; stages: Stage[] }> {
  for (const pivot of ['output', 'input'] as const)
    for (const swing of swings)
      for (const slots of [forked, [...forked].reverse()]) {
        const banjo: Banjo = { pivot, swing, slots }
        const lathe = { leadscrew: { pitch: '1 mm' }, planes: 3, shaftClearance: 2, centreDistance: 50, banjo }
        yield { lathe, stages: stagesOf(forks[pivot]) }
      }
  let n = 0
  for (const train of trains) {
    for (const slot of slots)
      for (const swing of swings)
        for (const centreDistance of [50, 63])
          for (const pivot of ['output', 'input'] as const) {
            const crowded = n++ % 3
            const banjo: Banjo = { pivot, swing, slots: slot, ...(crowded === 1 && { keepOut: castings }) }
            const shaftClearance = [0, 2, 5][crowded]
            const lathe = { leadscrew: { pitch: '1 mm' }, planes: 2 + (n % 2), shaftClearance, centreDistance, banjo }
            yield { lathe, stages: stagesOf(train) }
          }
  }
}

interface Case {
  lathe: Lathe & { banjo: Banjo }
  stages: Stage[]
  /** By the plain version. */
  best: Layout | undefined
}
let worked: Case[] | undefined
const allCases = (): Case[] => {
  worked ??= [...cases()].map(({ lathe, stages }) => {
    const [best] = layOutPlain(lathe, shaftsOf(stages, lathe.planes!)).sort(betterLayout)
    return { lathe, stages, best }
  })
  return worked
}

/** As layOut does, without asking which other idler would stand. */
function onBanjo(lathe: Lathe & { banjo: Banjo }, stages: Stage[], lifted: Lifted = {}) {
  const gears = stages.flatMap(({ driver, idlers, driven }) => [driver, ...idlers, driven])
  const box = makeBox(gears, undefined)
  const reading = gears.map(({ teeth }) => box.kinds.findIndex((kind) => kind.gear.teeth === teeth))
  const idlers = stages.map((stage) => stage.idlers.length)
  const chain = new BanjoChain(box, makeRules(lathe, box, lifted), lathe.banjo, lathe.centreDistance!, lathe.planes!)
  return { chain, arrangement: { reading, idlers, common: 0, spare: 0, idlerTeeth: 0, setting: 0 } }
}
type OnBanjo = ReturnType<typeof onBanjo>

/** Closes the chain as a search does, after a way on each stud that it takes back. */
function closed({ chain, arrangement }: OnBanjo, first: boolean): number | null {
  const outwards = <T>(list: T[]): T[] => (chain.reversed ? [...list].reverse() : list)
  const reading = outwards(arrangement.reading)
  const idlers = outwards(arrangement.idlers)
  const meshes: [number, number][] = []
  let at = 0
  for (const n of idlers) {
    for (let i = 0; i <= n; i++, at++) meshes.push([reading[at], reading[at + 1]])
    at++
  }
  chain.start()
  for (const [a, b] of meshes.slice(0, -1)) {
    // The other way may stand where this one does not: then it is taken back.
    if (chain.push(b, b)) chain.pop()
    if (!chain.push(a, b)) return null
  }
  const walk = { reading: Int32Array.from(reading), idlers: Int32Array.from(idlers), stages: idlers.length }
  return chain.close(...meshes[meshes.length - 1], walk, 5, first)
}

/** mm between the things that a clearance is said to be between, at the places of the layout. */
function measured({ lathe, stages }: { lathe: Lathe; stages: Stage[] }, { shafts, clearance }: Layout): number[] {
  const { between } = clearance!
  const gears = shaftsOf(stages, lathe.planes!).flatMap(({ gears }, i) =>
    gears.map(({ gear, plane }) => ({ ...shafts[i], teeth: gear.teeth, tip: tipRadius(gear), plane })),
  )
  const named = (teeth: string) => gears.filter((g) => g.teeth === Number(teeth))
  const gap = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y)
  const pair = /^gears of (\d+) and (\d+) in plane (\d)$/.exec(between)
  if (pair) {
    const [, a, b, plane] = pair
    return named(a).flatMap((g) =>
      named(b)
        .filter((h) => g.plane === Number(plane) && h.plane === g.plane)
        .map((h) => gap(g, h) - g.tip - h.tip - 0.5),
    )
  }
  const [, teeth, what, number] = /^gear of (\d+) and (?:the )?(input|output|stud|keep-out)(?: shaft| (\d))$/.exec(
    between,
  )!
  return named(teeth).map((g) => {
    if (what === 'keep-out') {
      const keepOut = lathe.banjo!.keepOut![Number(number) - 1]
      return gap(g, keepOut) - g.tip - keepOut.radius
    }
    const shaft = what === 'stud' ? Number(number) : what === 'input' ? 0 : shafts.length - 1
    return gap(g, shafts[shaft]) - g.tip - lathe.shaftClearance!
  })
}

it('is laid out as the plain version does, and the tightest place is named', () => {
  const tried = { stands: 0, fails: 0, stud: 0, 'input shaft': 0, 'output shaft': 0, 'keep-out': 0, plane: 0 }
  for (const given of allCases()) {
    const { lathe, stages, best } = given
    const placed = onBanjo(lathe, stages)
    const layout = placed.chain.layoutOf(placed.arrangement)
    if (!layout) {
      if (best) expect({ ...given, layout }).toEqual({ ...given, layout: best })
      tried.fails++
      continue
    }
    if (!best || apart(layout, best) > 1e-6) expect({ ...given, layout }).toEqual({ ...given, layout: best })
    tried.stands++
    if (!layout.clearance) continue
    expect(measured(given, layout)).toContainEqual(expect.closeTo(layout.clearance.mm, 6))
    for (const what of ['stud', 'input shaft', 'output shaft', 'keep-out', 'plane'] as const)
      if (layout.clearance.between.includes(what)) tried[what]++
  }
  for (const [what, times] of Object.entries(tried)) expect(times, what).toBeGreaterThan(2)
})

it('closes its chain in a search with as much to spare as the plain version has', () => {
  for (const { lathe, stages, best } of allCases()) {
    const placed = onBanjo(lathe, stages)
    const spare = best === undefined ? null : Math.min(best.clearance?.mm ?? 5, 5)
    expect(closed(placed, false)).toEqual(spare === null ? null : expect.closeTo(spare, 3))
    expect(closed(placed, true) === null).toBe(spare === null)
  }
})

it('tells how far it is from standing where ends of slots and swing are lifted', () => {
  for (const { lathe, stages } of allCases()) {
    const placed = onBanjo(lathe, stages, { reach: true })
    const { mm } = placed.chain.miss(placed.arrangement)
    expect(closed(placed, false)).toBe(-mm)
    expect(closed(placed, true)).toBe(0)
    // What stands but for clearance misses nothing.
    const free = onBanjo(lathe, stages, { clearance: true })
    expect(mm < 1e-6).toBe(free.chain.tightest(free.arrangement) !== null || closed(free, true) !== null)
  }
})

it('tells the tightest place of what fouls', () => {
  let fouls = 0
  for (const given of allCases()) {
    const { lathe, stages, best } = given
    if (best) continue
    const free = onBanjo(lathe, stages, { clearance: true })
    const tight = free.chain.tightest(free.arrangement)
    if (!tight) continue
    fouls++
    const layout = free.chain.layoutOf(free.arrangement)!
    expect(tight.mm).toBeLessThan(0)
    expect(layout.clearance).toEqual({ mm: expect.closeTo(tight.mm, 6), between: tight.between })
    expect(measured(given, layout)).toContainEqual(expect.closeTo(tight.mm, 6))
  }
  expect(fouls).toBeGreaterThan(20)
})

it('lets meshes stand wide only where it cannot swing or has a hole, by a tenth of the coarsest module', () => {
  const play = (banjo: Banjo) => {
    const box = makeBox(
      [20, 30, 25].map((teeth, i) => ({ teeth, module: [1, 2.5, 2][i] })),
      undefined,
    )
    const lathe: Lathe = { leadscrew: { pitch: '1 mm' }, centreDistance: 50, banjo }
    return new BanjoChain(box, makeRules(lathe, box), banjo, 50, 2).play
  }
  const slot = { from: 20, to: 40 }
  const hole = { from: 30, to: 30 }
  expect(play({ swing: [0, 90], slots: [slot, slot] })).toBe(0)
  expect(play({ swing: [0, 90], slots: [slot, hole] })).toBe(0.25)
  expect(play({ swing: [30, 30], slots: [slot] })).toBe(0.25)
})
