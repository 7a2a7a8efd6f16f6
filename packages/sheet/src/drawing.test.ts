import { type Banjo, findTrains, type Gear, type Lathe, parseBox, type Train } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawTrain, type TrainDrawing } from './drawing.js'
import { banjoExample } from './testing/banjo-example.js'
import { gear, trainOf } from './testing/train-of.js'

const lathe: Lathe = { leadscrew: { pitch: '3 mm' } }
const teeth = fc.integer({ min: 12, max: 127 })
const stage = fc
  .tuple(fc.constantFrom(0.5, 1, 1.25), fc.array(teeth, { minLength: 2, maxLength: 4 }))
  .map(([module, counts]): Gear[] => counts.map((z) => gear(z, module)))
const anyTrain = fc.array(stage, { minLength: 1, maxLength: 4 }).map((stages) => trainOf(stages))
const apart = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y)

/** The pairs of gears that mesh, read from the stages and not from the shafts. */
function meshingTeeth(train: Train): [number, number][] {
  return train.stages.flatMap(({ driver, idlers, driven }) => {
    const chain = [driver, ...idlers, driven]
    return chain
      .slice(1)
      .map((g, i): [number, number] => [(chain[i]!.teeth * chain[i]!.module) / 2, (g.teeth * g.module) / 2])
  })
}

/** How deep tips of gears in one plane on different shafts reach into one another, meshing pairs apart. */
function overlap(drawing: TrainDrawing): number {
  const { gears } = drawing
  return Math.max(
    0,
    ...gears.flatMap((a) =>
      gears
        .filter((b) => b.plane === a.plane && b.shaft > a.shaft)
        .filter((b) => !(b.shaft === a.shaft + 1 && a.role !== 'driven' && b.role !== 'driver'))
        .map((b) => a.tipRadius + b.tipRadius - apart(a, b)),
    ),
  )
}

describe('drawTrain without a layout', () => {
  it('makes the pitch circles of meshing gears touch, at the mesh point', () => {
    fc.assert(
      fc.property(anyTrain, (train) => {
        const { meshes, shafts } = drawTrain(lathe, train)
        const pairs = meshingTeeth(train)
        expect(meshes).toHaveLength(pairs.length)
        meshes.forEach((mesh, i) => {
          const [a, b] = mesh.between.map((s) => shafts[s]!) as [TrainDrawing['shafts'][0], TrainDrawing['shafts'][0]]
          const [driver, driven] = pairs[i]!
          expect(apart(a, b)).toBeCloseTo(driver + driven, 7)
          expect(apart(a, mesh)).toBeCloseTo(driver, 7)
          expect(apart(b, mesh)).toBeCloseTo(driven, 7)
          expect(mesh.centreDistance).toBeCloseTo(driver + driven, 7)
        })
      }),
    )
  })

  it('turns neighbours opposite ways, the input shaft with the spindle unless the drive reverses', () => {
    fc.assert(
      fc.property(anyTrain, fc.boolean(), (train, reverses) => {
        const { shafts, gears } = drawTrain({ ...lathe, drives: [{ ratio: 1, reverses }] }, train)
        shafts.forEach(({ turning }, i) => {
          expect(turning === 'clockwise').toBe((i % 2 === 0) !== reverses)
        })
        for (const g of gears) expect(g.turning).toBe(shafts[g.shaft]!.turning)
      }),
    )
  })

  it('draws every gear once, at its shaft and size, the far planes first', () => {
    fc.assert(
      fc.property(anyTrain, (train) => {
        const { gears, shafts } = drawTrain(lathe, train)
        const wanted = train.shafts.flatMap((s, i) => s.gears.map((g) => `${i} ${g.gear.teeth} ${g.plane}`))
        expect(gears.map((g) => `${g.shaft} ${g.teeth} ${g.plane}`).sort()).toEqual(wanted.sort())
        for (const g of gears) expect(apart(g, shafts[g.shaft]!)).toBe(0)
        for (const g of gears) expect(g.tipRadius / g.pitchRadius).toBeCloseTo((g.teeth + 2) / g.teeth, 12)
        expect(gears.map((g) => g.plane)).toEqual(gears.map((g) => g.plane).sort())
      }),
    )
  })

  it('overlaps no gears that a straight chain keeps apart', () => {
    fc.assert(
      fc.property(anyTrain, (train) => {
        const straight = drawTrain({ ...lathe, centreDistance: 1e6 }, train)
        fc.pre(overlap(straight) === 0)
        expect(overlap(drawTrain(lathe, train))).toBe(0)
      }),
    )
  })

  it('keeps the centre distance of the lathe when the chain can span it', () => {
    const drawing = drawTrain(
      { ...lathe, centreDistance: 88 },
      trainOf([
        [40, 60],
        [30, 75],
      ]),
    )
    expect(drawing.shafts[0]!.x).toBeCloseTo(88, 6)
    expect(drawing.schematic).toBe(true)
  })

  it('names the size of teeth only where the train mixes them', () => {
    const one = drawTrain(lathe, trainOf([[40, 60]]))
    const two = drawTrain(
      lathe,
      trainOf([
        [gear(40), gear(60)],
        [gear(30, 1.27, { dp: 20 }), gear(50, 1.27, { dp: 20 })],
      ]),
    )
    expect(one.gears.map((g) => g.size)).toEqual([null, null])
    expect(two.gears.map((g) => g.size)).toEqual(['module 1', 'module 1', '20 DP', '20 DP'])
  })

  it('is plain data', () => {
    const drawing = drawTrain(
      lathe,
      trainOf([
        [40, 60],
        [30, 75],
      ]),
    )
    expect(JSON.parse(JSON.stringify(drawing))).toEqual(drawing)
  })
})

describe('drawTrain with a layout', () => {
  const { lathe, train } = banjoExample
  const draw = () => drawTrain(lathe, train)

  it('stands every shaft where the layout has it', () => {
    const drawing = draw()
    expect(drawing.shafts.map(({ x, y }) => ({ x, y }))).toEqual(train.layout!.shafts.map(({ x, y }) => ({ x, y })))
    expect(drawing.schematic).toBe(false)
  })

  it('puts the stud in its slot, at its setting from the pivot', () => {
    const drawing = draw()
    const { slot, along } = drawing.shafts[1]!.setting!
    const { from, to } = drawing.banjo!.slots[slot - 1]!
    const stud = drawing.shafts[1]!
    const length = apart(from, to)
    const across = ((to.x - from.x) * (stud.y - from.y) - (to.y - from.y) * (stud.x - from.x)) / length
    expect(across).toBeCloseTo(0, 9)
    expect(apart(from, stud) + lathe.banjo!.slots[slot - 1]!.from).toBeCloseTo(along, 9)
  })

  it('encloses the pivot and every slot in the plate', () => {
    const drawing = draw()
    const { plate, slots, pivot } = drawing.banjo!
    for (const p of [pivot, ...slots.flatMap((s) => [s.from, s.to])]) {
      plate.forEach((a, i) => {
        const b = plate[(i + 1) % plate.length]!
        expect((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)).toBeGreaterThan(0)
      })
    }
  })

  it('mirrors a banjo on the input shaft', () => {
    const drawing = draw()
    // The same plate, turned about: what leaves the input shaft towards the output stands as far from it.
    const input = drawTrain({ ...lathe, banjo: { ...lathe.banjo!, pivot: 'input' } }, train)
    const from = (d: TrainDrawing) => d.banjo!.slots.map((s) => apart(s.from, d.banjo!.pivot))
    from(input).forEach((mm, i) => {
      expect(mm).toBeCloseTo(from(drawing)[i]!, 9)
    })
    expect(input.banjo!.slots[0]!.from.x).toBeCloseTo(lathe.centreDistance! - drawing.banjo!.slots[0]!.from.x, 9)
  })
})

describe('drawTrain on banjos that the search has solved', () => {
  const banjos: [string, Banjo][] = [
    [
      'about the output shaft',
      {
        swing: [-80, 80],
        slots: [
          { from: 25, to: 130 },
          { angle: 40, offset: 6, from: 25, to: 130 },
        ],
      },
    ],
    [
      'about the input shaft',
      {
        pivot: 'input',
        swing: [-80, 80],
        slots: [
          { from: 25, to: 130 },
          { angle: -35, offset: -4, from: 25, to: 130 },
        ],
      },
    ],
  ]
  it.each(banjos)('puts every stud in its slot, %s', (_, banjo) => {
    const lathe: Lathe = { leadscrew: { pitch: '8 tpi' }, studs: 2, shaftClearance: 10, centreDistance: 110, banjo }
    const gears = parseBox('20x2 24 30 32 36 40 45 48 50 54 60 63 65 72 80')
    const { trains } = findTrains({ lathe, gears }, { pitch: '48 tpi', hand: 'left' }, { limit: 20 })
    expect(trains.length).toBeGreaterThan(5)
    for (const train of trains) {
      const { shafts, banjo, meshes } = drawTrain(lathe, train)
      for (const { setting, ...stud } of shafts) {
        if (!setting) continue
        const { from, to } = banjo!.slots[setting.slot - 1]!
        expect(apart(from, stud) + apart(stud, to)).toBeCloseTo(apart(from, to), 6)
        expect(apart(from, stud) + 25).toBeCloseTo(setting.along, 6)
      }
      const nominal = meshingTeeth(train).map(([driver, driven]) => driver + driven)
      meshes.forEach((mesh, i) => {
        expect(mesh.centreDistance).toBeGreaterThan(nominal[i]! - 1e-6)
        expect(mesh.centreDistance).toBeLessThan(nominal[i]! + 0.1 + 1e-6)
      })
    }
  })
})
