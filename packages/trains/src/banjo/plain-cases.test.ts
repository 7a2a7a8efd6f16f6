import { expect, it } from 'vitest'
import { apart } from '../../../../bench/plain/alike.js'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { tipRadius } from '../../../../bench/plain/clearances.js'
import { betterLayout, layOutPlain } from '../../../../bench/plain/lay-out.js'
import type { Banjo, Gear, Lathe, Layout, Slot, Stage } from '../contract.js'
import { makeBox } from '../search/box.js'
import { makeRules } from '../search/rules.js'
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
    { from: 32.55, to: 32.55 },
    { angle: -40, offset: -6, from: 10, to: 60 },
  ],
]
const swings: Banjo['swing'][] = [
  [-90, 90],
  [37, 37],
  [10, 220],
  [-180, 180],
  [-330, -60],
]
/** Near the far shaft, the pivot, and where studs stand. */
const castings = [
  { x: 12, y: 38, radius: 4 },
  { x: 30, y: -41, radius: 6 },
]

function* cases(): Generator<{ lathe: Lathe & { banjo: Banjo }; stages: Stage[] }> {
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

/** As layOut does, without asking which other idler would stand. */
function laidOut(lathe: Lathe & { banjo: Banjo }, stages: Stage[]): Layout | null {
  const gears = stages.flatMap(({ driver, idlers, driven }) => [driver, ...idlers, driven])
  const box = makeBox(gears, undefined)
  const reading = gears.map(({ teeth }) => box.kinds.findIndex((kind) => kind.gear.teeth === teeth))
  const idlers = stages.map((stage) => stage.idlers.length)
  const chain = new BanjoChain(box, makeRules(lathe, box), lathe.banjo, lathe.centreDistance!, lathe.planes!)
  return chain.layoutOf({ reading, idlers, common: 0, spare: 0, idlerTeeth: 0, setting: 0 })
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
  for (const given of cases()) {
    const { lathe, stages } = given
    const [best, second] = layOutPlain(lathe, shaftsOf(stages, lathe.planes!)).sort(betterLayout)
    const layout = laidOut(lathe, stages)
    if (!layout) {
      if (best) expect({ ...given, layout }).toEqual({ ...given, layout: best })
      tried.fails++
      continue
    }
    // Where two have as much to spare in as low slots, a float may decide.
    const near = best !== undefined && second !== undefined && apart(layout, second) < 1e-6
    if (!best || (!near && apart(layout, best) > 1e-6)) expect({ ...given, layout }).toEqual({ ...given, layout: best })
    tried.stands++
    if (!layout.clearance) continue
    expect(measured(given, layout)).toContainEqual(expect.closeTo(layout.clearance.mm, 6))
    for (const what of ['stud', 'input shaft', 'output shaft', 'keep-out', 'plane'] as const)
      if (layout.clearance.between.includes(what)) tried[what]++
  }
  for (const [what, times] of Object.entries(tried)) expect(times, what).toBeGreaterThan(2)
})
