import type { Banjo, Gear, Lathe, Layout, ShaftGears } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { shaftsOf } from './arrangements.js'
import { checkLayout } from './check-layout.js'
import { findTrainsPlain } from './find-trains.js'
import { betterLayout, layOutPlain } from './lay-out.js'
import { studsInSlots } from './studs-in-slots.js'

// Plain means slow: more than five seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 })

const gear = (teeth: number, module = 1): Gear => ({ teeth, module, pressureAngle: 20 })
/** A simple train, idlers between the first and the last. */
const simple = (...teeth: number[]): ShaftGears[] => {
  const gears = teeth.map((t) => gear(t))
  return shaftsOf([{ driver: gears[0], idlers: gears.slice(1, -1), driven: gears[gears.length - 1] }], 2)
}
const lathe = (centreDistance: number, banjo: Banjo): Lathe => ({
  leadscrew: { pitch: '1 mm' },
  centreDistance,
  banjo,
})
const places = (layouts: Layout[]) => layouts.map(({ swing, shafts }) => ({ swing, ...shafts[1] }))

// The angles of the 3-4-5 triangle: B opposite 4, and A = 90 - B = 36.86989764584402.
const B = (Math.atan2(4, 3) * 180) / Math.PI // 53.13010235415598

// 50-30-30: meshes of 40 and 30 mm over a centre distance of 50, so a right angle at the stud, which stands
// (30^2 + 50^2 - 40^2) / 100 = 18 mm along from the output and 24 mm to either side.
const right = simple(50, 30, 30)

describe('one stud', () => {
  const slot = { from: 20, to: 40 }

  it('stands where the triangle closes, on either side', () => {
    const layouts = layOutPlain(lathe(50, { swing: [-90, 90], slots: [slot] }), right).sort(betterLayout)
    expect(layouts).toEqual([
      {
        swing: -53.130102354,
        shafts: [
          { x: 50, y: 0, slot: null, along: null },
          { x: 18, y: -24, slot: 0, along: 30 },
          { x: 0, y: 0, slot: null, along: null },
        ],
        meshes: [
          { between: [0, 1], centreDistance: 40 },
          { between: [1, 2], centreDistance: 30 },
        ],
        // The tips of 50 and 30 at the fixed shafts: 50 - 26 - 16 - 0.5; the shafts have 17.5 and more.
        clearance: { mm: 7.5, between: '50 on shaft 0, 30 on shaft 2' },
      },
      expect.objectContaining({ swing: 53.130102354 }),
    ])
  })

  it('keeps to the swing, its stops included', () => {
    const ask = (swing: [number, number]) => layOutPlain(lathe(50, { swing, slots: [slot] }), right).length
    expect(ask([0, B])).toBe(1)
    expect(ask([B, 90])).toBe(1)
    expect(ask([-B, B])).toBe(2)
    expect(ask([0, B - 1e-6])).toBe(0)
    expect(ask([B - 360, B - 360 + 1])).toBe(1) // a whole turn back is the same place
  })

  it('keeps to the slot, its ends included', () => {
    const ask = (from: number, to: number) =>
      layOutPlain(lathe(50, { swing: [0, 90], slots: [{ from, to }] }), right).length
    expect([ask(20, 30), ask(30, 40), ask(20, 29.999999), ask(30.000001, 40)]).toEqual([1, 1, 0, 0])
  })

  it('runs beside the pivot in an offset slot', () => {
    // 18 mm to the left of the pivot and 24 along make 30 out, at angle A; so the swing is B - A or -B - A = -90.
    const layouts = layOutPlain(lathe(50, { swing: [-90, 90], slots: [{ offset: 18, from: 20, to: 40 }] }), right)
    expect(places(layouts.sort((a, b) => a.swing! - b.swing!))).toEqual([
      { swing: -90, x: 18, y: -24, slot: 0, along: 24 },
      { swing: 16.260204708, x: 18, y: 24, slot: 0, along: 24 },
    ])
    // From -40 on, the other end of the line serves as well: at 180 - A, swing B - 180 + A = -90 and -233.13.
    const both = { swing: [-90, 90] as [number, number], slots: [{ offset: 18, from: -40, to: 40 }] }
    expect(places(layOutPlain(lathe(50, both), right))).toContainEqual({
      swing: -90,
      x: 18,
      y: 24,
      slot: 0,
      along: -24,
    })
    // A line that just touches the circle, and one that misses it.
    const ask = (offset: number) =>
      layOutPlain(lathe(50, { swing: [-180, 0], slots: [{ offset, from: -10, to: 10 }] }), right).length
    // At 30 beside and 0 along the stud is at 90 degrees: swings B - 90 and -B - 90.
    expect([ask(30), ask(30.001)]).toEqual([2, 0])
  })

  it('swings about the input too, from the line to the output', () => {
    // Seen from the input at (50, 0), (18, 24) lies at (-32, 24): A above the line to the output, which points left, so
    // clockwise of it.
    const layouts = layOutPlain(lathe(50, { pivot: 'input', swing: [-90, 0], slots: [{ from: 35, to: 45 }] }), right)
    expect(places(layouts)).toEqual([{ swing: -36.869897646, x: 18, y: 24, slot: 0, along: 40 }])
  })

  it('lets a mesh that nothing adjusts stand a tenth of a module wide', () => {
    const hole = (at: number) =>
      layOutPlain(lathe(50, { swing: [0, 90], slots: [{ from: at, to: at }] }), right).map((l) => l.shafts[1].x)
    expect(hole(30)).toEqual([18])
    // The swing still sets the other mesh to 40: x = (30.05^2 + 50^2 - 40^2) / 100.
    expect(hole(30.05)).toEqual([18.030025])
    expect(hole(30.1).length).toBe(1)
    expect(hole(30.101)).toEqual([])
    expect(hole(29.999)).toEqual([])
    // A banjo that cannot swing: at 53.2 degrees the stud is sqrt(3400 - 3000 cos 53.2) = 40.0366 from the input.
    const stiff = (at: number) => layOutPlain(lathe(50, { swing: [at, at], slots: [slot] }), right).length
    expect([stiff(53), stiff(53.2), stiff(54)]).toEqual([0, 1, 0])
  })
})

describe('several studs', () => {
  // 20-40-40-20: a rectangle of 40 by 30, output (0, 0), then (0, 30), (40, 30), input (40, 0).
  const rectangle = simple(20, 40, 40, 20)
  // With slot 1 upright the second stud is 50 out on a slot B clockwise of it.
  const slots = [
    { from: 20, to: 40 },
    { angle: -B, from: 45, to: 55 },
  ]

  it('finds each its slot', () => {
    const found = layOutPlain(lathe(40, { swing: [80, 100], slots }), rectangle)
    expect(found.map((l) => l.shafts)).toEqual([
      [
        { x: 40, y: 0, slot: null, along: null },
        { x: 40, y: 30, slot: 1, along: 50 },
        { x: 0, y: 30, slot: 0, along: 30 },
        { x: 0, y: 0, slot: null, along: null },
      ],
    ])
    // Across the diagonal, 50 mm, stand tips of 11 and 21; across the bottom, 40 mm, two of 11.
    expect(found[0].clearance?.mm).toBe(17.5)
    // The last mesh closes at B - A = 16.26 degrees too, but the first stud is then at (28.8, 8.4), 14 from the input.
    const wide = layOutPlain(lathe(40, { swing: [0, 100], slots }), rectangle)
    expect(wide.map((l) => l.swing)).toEqual([90])
  })

  it('keeps out of castings', () => {
    // The tip of the stud's 40 at (0, 30) is 21 out; what stands 30 to its left may have a radius of 9.
    const ask = (radius: number) =>
      layOutPlain(lathe(40, { swing: [80, 100], slots, keepOut: [{ x: -30, y: 30, radius }] }), rectangle)
    expect(ask(8)[0].clearance?.mm).toBe(1)
    expect(ask(9)[0].clearance?.mm).toBe(0)
    expect(ask(9.000001)).toEqual([])
  })

  it('puts two studs in one slot', () => {
    // On one line through the output: 20-20-20-20 has studs at 20 and 40 mm, and the input, 20 from the second, lies
    // anywhere on a circle about it: with a centre distance of 60 only straight on, at swing 0.
    const found = layOutPlain(lathe(60, { swing: [-10, 10], slots: [{ from: 5, to: 50 }] }), simple(20, 20, 20, 20))
    expect(found.length).toBe(1)
    expect(found[0].shafts.map((s) => s.along)).toEqual([null, 40, 20, null])
    // Each tip of 11 keeps 6.5 from the shaft after the next at 40; tips of 11 and 11 are 40 - 22 - 0.5 apart.
    expect(found[0].clearance?.mm).toBe(17.5)
  })
})

describe('no stud', () => {
  it('needs the shafts where the gears meet', () => {
    const ask = (centre: number) =>
      layOutPlain(lathe(centre, { swing: [0, 90], slots: [{ from: 5, to: 50 }] }), simple(40, 60))
    expect(ask(50)).toEqual([
      {
        swing: null,
        shafts: [
          { x: 50, y: 0, slot: null, along: null },
          { x: 0, y: 0, slot: null, along: null },
        ],
        meshes: [{ between: [0, 1], centreDistance: 50 }],
        clearance: null,
      },
    ])
    expect([ask(50.1).length, ask(50.101).length, ask(49.999).length]).toEqual([1, 0, 0])
  })
})

describe('findTrainsPlain on a banjo', () => {
  it('keeps what stands, with its layout', () => {
    // 5/3 by 50:30 over an idler, which stands (30 + idler) / 2 from the output: 30 at 30, 35 at 32.5, 60 at 45 mm.
    const gears = [{ teeth: 50 }, { teeth: 30, count: 2 }, { teeth: 35 }, { teeth: 60 }]
    const ask = (banjo: Banjo) =>
      findTrainsPlain({ lathe: { ...lathe(50, banjo), studs: 1 }, gears }, { pitch: '5/3', tolerance: { ppm: 0 } })
    const short = ask({ swing: [0, 90], slots: [{ from: 25, to: 32 }] })
    expect(short.counts).toEqual({ withinTolerance: 1, mountable: 1 })
    expect(short.trains[0].stages[0].idlers.map((g) => g.teeth)).toEqual([30])
    expect(short.trains[0].layout?.swing).toBe(53.130102354)
    expect(checkLayout({ ...lathe(50, { swing: [0, 90], slots: [{ from: 25, to: 32 }] }) }, short.trains[0])).toEqual(
      [],
    )
    expect(ask({ swing: [0, 90], slots: [{ from: 32, to: 33 }] }).trains[0].stages[0].idlers[0].teeth).toBe(35)
    expect(ask({ swing: [0, 90], slots: [{ from: 33, to: 44 }] }).counts).toEqual({ withinTolerance: 1, mountable: 0 })
    // Where several reach, most clearance first: all have the 5 mm that count, so the smallest idler.
    expect(ask({ swing: [0, 90], slots: [{ from: 25, to: 50 }] }).trains[0].stages[0].idlers[0].teeth).toBe(30)
  })
})

describe('checkLayout', () => {
  const banjo: Banjo = { swing: [0, 90], slots: [{ from: 20, to: 40 }] }
  const [layout] = layOutPlain(lathe(50, banjo), right)
  const complaints = (changed: Partial<Layout>, other: Partial<Lathe> = {}) =>
    checkLayout({ ...lathe(50, banjo), ...other }, { shafts: right, layout: { ...layout, ...changed } })

  it('has nothing against a sound layout', () => expect(complaints({})).toEqual([]))

  it('sees what is wrong', () => {
    const moved = layout.shafts.map((s, i) => (i === 1 ? { ...s, x: s.x + 1e-5 } : s))
    expect(complaints({ shafts: moved }).length).toBeGreaterThan(0)
    expect(complaints({ swing: 53 }).join()).toMatch('beside its slot')
    expect(complaints({ swing: null }).join()).toMatch('swing goes with studs')
    expect(complaints({}, { shaftClearance: 25 }).join()).toMatch('50 on shaft 0 fouls shaft 2 by 1')
    expect(complaints({ clearance: { mm: 7, between: '' } }).join()).toMatch('the clearance is 7.5, not 7')
    expect(complaints({ clearance: null }).join()).toMatch('the clearance is 7.5')
    expect(complaints({}, { banjo: { ...banjo, swing: [0, 53] } }).join()).toMatch('is outside')
    expect(complaints({}, { banjo: { ...banjo, slots: [{ from: 31, to: 40 }] } }).join()).toMatch('outside its slot')
    expect(complaints({}, { banjo: { ...banjo, keepOut: [{ x: 18, y: 24, radius: 1 }] } }).join()).toMatch('fouls what')
    expect(complaints({}, { centreDistance: 51 }).join()).toMatch('the input shaft is out of place')
  })
})

describe('a train built around a place', () => {
  it('is found there', () => {
    let tried = 0
    fc.assert(
      fc.property(studsInSlots, ({ banjo, centreDistance, planted, stages }) => {
        const chain = shaftsOf(stages, 4)
        const machine = { ...lathe(centreDistance, banjo), shaftClearance: 0 }
        const complaints = checkLayout(machine, { shafts: chain, layout: { ...planted, clearance: null } })
        // The plain clearance is not the planted one's business; fouling is.
        fc.pre(complaints.every((what) => what.startsWith('the clearance is')))
        tried++
        const near = (a: Layout): boolean =>
          a.shafts.every((s, i) => Math.hypot(s.x - planted.shafts[i].x, s.y - planted.shafts[i].y) < 1e-4)
        const found = layOutPlain(machine, chain)
        expect(found.filter(near).length).toBeGreaterThan(0)
        for (const layout of found) expect(checkLayout(machine, { shafts: chain, layout })).toEqual([])
      }),
      { numRuns: 300 },
    )
    expect(tried).toBeGreaterThan(250)
  })
})
