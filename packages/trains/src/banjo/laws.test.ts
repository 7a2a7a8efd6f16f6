import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { apart, bareAnswer } from '../../../../bench/plain/alike.js'
import { banjoQuestions, type Question } from '../../../../bench/plain/arbitrary.js'
import { checkLayout } from '../../../../bench/plain/check-layout.js'
import type { Banjo, Gear, Lathe, Layout, Train, TrainSearch } from '../contract.js'
import { findTrains, layOut, leadOf } from '../index.js'
import { WorkshopError } from '../workshop-error.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 200)

/** The answer, or null where nothing could ever stand and the banjo is refused. */
function ask({ workshop, wanted, options }: Question): TrainSearch | null {
  try {
    return findTrains(workshop, wanted, { ...options, limit: 20 })
  } catch (error) {
    if (error instanceof WorkshopError) return null
    throw error
  }
}
const asked = banjoQuestions.filter((question) => ask(question) !== null)

/** Runs a law on questions of which a good share has trains that stand. */
function law(name: string, holds: (question: Question, found: TrainSearch) => void): void {
  it(name, () => {
    let stood = 0
    const property = fc.property(asked, (question) => {
      const found = ask(question)!
      if (found.trains.length > 0) stood++
      holds(question, found)
    })
    fc.assert(property, { numRuns })
    // A few questions say little about shares.
    if (numRuns >= 100) expect(stood).toBeGreaterThan(0.2 * numRuns)
  })
}

const onLathe = (question: Question, change: (lathe: Lathe & { banjo: Banjo }) => Lathe): Question => {
  const { lathe } = question.workshop
  return { ...question, workshop: { ...question.workshop, lathe: change(lathe as Lathe & { banjo: Banjo }) } }
}

/** The machine seen in a mirror that stands along the line of the fixed shafts. */
const mirrored = (lathe: Lathe & { banjo: Banjo }): Lathe => {
  const { swing, slots, keepOut, ...rest } = lathe.banjo
  const banjo: Banjo = {
    ...rest,
    swing: [0 - swing[1], 0 - swing[0]],
    slots: slots.map((s) => ({ ...s, angle: 0 - (s.angle ?? 0), offset: 0 - (s.offset ?? 0) })),
    ...(keepOut && { keepOut: keepOut.map((k) => ({ ...k, y: 0 - k.y })) }),
  }
  return { ...lathe, banjo }
}
const inMirror = (layout: Layout): Layout => ({
  ...layout,
  swing: layout.swing === null ? null : 0 - layout.swing,
  shafts: layout.shafts.map((s) => ({ ...s, y: 0 - s.y })),
})

const larger = (gear: Gear, by: number): Gear => ({
  ...gear,
  module: by * gear.module,
  ...(gear.dp && { dp: gear.dp / by }),
})
const grown = (lathe: Lathe & { banjo: Banjo }, by: number): Lathe => {
  const { slots, keepOut, ...rest } = lathe.banjo
  const { shaftClearance, room, centreDistance = 0, fixedGears: _, ...bare } = lathe
  return {
    ...bare,
    banjo: {
      ...rest,
      slots: slots.map((s) => ({ ...s, offset: by * (s.offset ?? 0), from: by * s.from, to: by * s.to })),
      ...(keepOut && { keepOut: keepOut.map(({ x, y, radius }) => ({ x: by * x, y: by * y, radius: by * radius })) }),
    },
    centreDistance: by * centreDistance,
    ...(shaftClearance && { shaftClearance: by * shaftClearance }),
    ...(room && { room: Object.fromEntries(Object.entries(room).map(([shaft, mm]) => [shaft, by * mm])) }),
  }
}
const grownTrain = (train: Train, by: number): Pick<Train, 'stages' | 'shafts'> => ({
  stages: train.stages.map(({ driver, driven, idlers }) => ({
    driver: larger(driver, by),
    driven: larger(driven, by),
    idlers: idlers.map((gear) => larger(gear, by)),
  })),
  shafts: train.shafts.map(({ shaft, gears }) => ({
    shaft,
    gears: gears.map(({ gear, plane }) => ({ gear: larger(gear, by), plane })),
  })),
})

describe('trains on a banjo', () => {
  law('do not hang on the order of the box', (question, found) => {
    const { workshop } = question
    const gears = [...workshop.gears].reverse()
    expect(ask({ ...question, workshop: { ...workshop, gears } })).toEqual(found)
  })

  law('are laid out alike by layOut, and cut what leadOf says', (question, { trains, closest }) => {
    const { lathe } = question.workshop
    for (const train of closest ? [...trains, closest] : trains) {
      expect(layOut(lathe, train)).toEqual({ ok: true, layout: train.layout })
      expect(leadOf(lathe, train)).toMatchObject({ lead: train.lead, hand: train.hand })
    }
  })

  law('stand in the mirror when the machine does', (question, found) => {
    const mirror = onLathe(question, mirrored)
    const back = ask(mirror)!
    expect(bareAnswer(back)).toEqual(bareAnswer(found))
    back.trains.forEach((train, i) => {
      const here = found.trains[i].layout!
      expect(checkLayout(mirror.workshop.lathe, train)).toEqual([])
      expect(checkLayout(question.workshop.lathe, { ...train, layout: inMirror(train.layout!) })).toEqual([])
      // Where two layouts have as much clearance, the smaller swing is shown: in the mirror that is the other one.
      const other = apart(inMirror(train.layout!), here) > 1e-5
      if (other) expect(train.layout!.swing!).toBeLessThan(0 - here.swing!)
      const [a, b] = [train.layout!, here].map(({ clearance }) => Math.min(clearance?.mm ?? 5, 5))
      expect(Math.abs(a - b)).toBeLessThan(0.0011)
    })
  })

  law('still stand when all lengths grow: only the half millimetre between tips does not', (question, { trains }) => {
    const { lathe } = question.workshop
    for (const train of trains) {
      const by = 4
      const large = grown(lathe as Lathe & { banjo: Banjo }, by)
      const setUp = grownTrain(train, by)
      const laid = layOut(large, setUp)
      expect(laid.ok).toBe(true)
      if (!laid.ok) continue
      expect(checkLayout(large, { shafts: setUp.shafts, layout: laid.layout })).toEqual([])
    }
  })

  law('shrink with all lengths where no two gears share a plane but in mesh', (question) => {
    // Four planes and no idler: then nothing is measured by the half millimetre between tips.
    const large = onLathe(question, (lathe) => ({ ...grown(lathe, 4), planes: 4 }))
    const small = onLathe(question, (lathe) => ({ ...grown(lathe, 1), planes: 4 }))
    const { workshop } = large
    const gears = workshop.gears.map(({ module = 1, dp, ...gear }) =>
      dp ? { ...gear, dp: dp / 4 } : { ...gear, module: 4 * module },
    )
    const trains = ask({ ...large, workshop: { ...workshop, gears } })?.trains ?? []
    for (const train of trains.filter(({ stages }) => stages.every(({ idlers }) => idlers.length === 0))) {
      const laid = layOut(small.workshop.lathe, grownTrain(train, 1 / 4))
      expect(laid.ok).toBe(true)
      // Of two layouts with 5 mm and more to spare another may be shown in small, where there is less.
      const spare = train.layout!.clearance?.mm ?? 5
      if (laid.ok && spare < 5) expect(laid.layout.clearance!.mm).toBeCloseTo(spare / 4, 2)
    }
  })
})
