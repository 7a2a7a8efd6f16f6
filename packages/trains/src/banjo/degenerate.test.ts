import { describe, expect, it } from 'vitest'
import { checkLayout } from '../../../../bench/plain/check-layout.js'
import { box } from '../../../../bench/plain/in-brief.js'
import type { Banjo, GearStock, Lathe, Layout, Train } from '../contract.js'
import { findTrains, layOut, leadOf } from '../index.js'

/** A length or angle too small to be told from nothing, and one just large enough to count. */
const LESS = 1e-10
const MORE = 1e-6

interface Case {
  /** Driver, idlers, driven. */
  train: number[]
  centreDistance: number
  banjo: Banjo
  module?: number
  shaftClearance?: number
}

/**
 * The layout of a simple train, checked by itself; null when it does not stand. findTrains must say the same, asked for
 * what the train cuts from a box of its gears, and so must a box that holds them in another module, doubled.
 */
function standing(given: Case): Layout | null {
  const laid = lay(given)
  const { banjo, centreDistance, module = 1, shaftClearance } = given
  const doubled: Case = {
    ...given,
    module: 2 * module,
    centreDistance: 2 * centreDistance,
    ...(shaftClearance !== undefined && { shaftClearance: 2 * shaftClearance }),
    banjo: {
      ...banjo,
      slots: banjo.slots.map((s) => ({ ...s, offset: 2 * (s.offset ?? 0), from: 2 * s.from, to: 2 * s.to })),
    },
  }
  expect(lay(doubled) === null).toBe(laid === null)
  return laid
}

function lay({ train, centreDistance, banjo, module = 1, shaftClearance = 1 }: Case): Layout | null {
  const lathe: Lathe = {
    leadscrew: { pitch: '1 mm' },
    studs: train.length - 2,
    shaftClearance,
    centreDistance,
    banjo,
  }
  const gears: GearStock[] = box(...train).map((gear) => ({ ...gear, module }))
  const stage = { driver: gears[0], idlers: gears.slice(1, -1), driven: gears[gears.length - 1] }
  const laid = layOut(lathe, { stages: [stage] })
  const { lead, hand } = leadOf(lathe, { stages: [stage] })
  const wanted = { pitch: `${lead.n}/${lead.d}`, hand, tolerance: { ppm: 0 } }
  const { trains } = findTrains({ lathe, gears }, wanted, { stages: 1 })
  const teeth = (t: Train) => t.stages.flatMap((s) => [s.driver, ...s.idlers, s.driven]).map((g) => g.teeth)
  // With one idler, or two alike, the set has one arrangement and both must agree; with more another may stand.
  if (laid.ok || new Set(train.slice(1, -1)).size <= 1) {
    const same = trains.filter((t) => t.shafts.length === train.length && String(teeth(t)) === String(train))
    expect(same.length > 0).toBe(laid.ok)
    for (const { layout } of same) expect(layout).toEqual(laid.ok && laid.layout)
  }
  if (!laid.ok) return null
  const shafts: Train['shafts'] = train.map((t, i) => ({
    shaft: i === 0 ? 'input' : i === train.length - 1 ? 'output' : 'stud',
    gears: [{ gear: { teeth: t, module, pressureAngle: 20 }, plane: 1 }],
  }))
  expect(checkLayout(lathe, { shafts, layout: laid.layout })).toEqual([])
  return laid.layout
}
const stands = (given: Case): boolean => standing(given) !== null

// 50-30-30 over 50 mm: meshes of 40 and 30 mm, a right angle at the stud, which is seen from the output at
// B = atan(4/3) = 53.13 degrees, at (18, 24).
const B = (Math.atan2(4, 3) * 180) / Math.PI
const right = (banjo: Partial<Banjo>, rest: Partial<Case> = {}): Case => ({
  train: [50, 30, 30],
  centreDistance: 50,
  banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }], ...banjo },
  ...rest,
})

describe('circles that just touch', () => {
  // 40-40-40: meshes of 40 and 40 mm.
  const straight = (centreDistance: number, swing: [number, number] = [-10, 10]): Case => ({
    train: [40, 40, 40],
    centreDistance,
    banjo: { swing, slots: [{ from: 20, to: 60 }] },
  })

  it('stretched out straight between the shafts', () => {
    expect(standing(straight(80))).toMatchObject({
      swing: 0,
      shafts: [{ x: 80 }, { x: 40, y: 0, along: 40 }, { x: 0 }],
    })
    expect(stands(straight(80 - MORE))).toBe(true)
    expect(stands(straight(80 + LESS))).toBe(true)
    expect(stands(straight(80 + MORE))).toBe(false)
  })

  it('with the stop of the swing just there', () => {
    expect(
      [
        [0, 10],
        [-10, 0],
        [0, 0],
      ].map((swing) => stands(straight(80, swing as [number, number]))),
    ).toEqual([true, true, true])
    expect(stands(straight(80, [0.01, 10]))).toBe(false)
  })

  it('a slot and the circle round the pivot', () => {
    // 30 mm aside, the line of the slot touches the circle of 30 mm at its foot.
    const aside = (offset: number, rest: Partial<Banjo> = {}) =>
      stands(right({ swing: [-180, 180], slots: [{ offset, from: 0, to: 10 }], ...rest }))
    expect([30, 30 + LESS, 30 + MORE].map((offset) => aside(offset))).toEqual([true, true, false])
    expect([-30, -30 - LESS, -30 - MORE].map((offset) => aside(offset))).toEqual([true, true, false])
    expect(standing(right({ swing: [-180, 180], slots: [{ offset: 30, from: 0, to: 10 }] }))?.shafts[1].along).toBe(0)
  })

  it('a slot and the circle round another stud', () => {
    // 40-20-20-40: the first stud from the output stands 30 mm out along slot 1, the next 20 mm from there, in slot 2, which
    // runs square to slot 1 at 50 mm from the pivot and so touches that circle; and the input is 30 mm further.
    const across = (far: number): Case => ({
      train: [40, 20, 20, 40],
      centreDistance: 70,
      banjo: {
        swing: [-30, 30],
        slots: [
          { from: 25, to: 35 },
          { angle: -90, offset: far, from: 0, to: 5 },
        ],
      },
    })
    expect(standing(across(50))?.shafts.map(({ slot }) => slot)).toEqual([null, 1, 0, null])
    expect([50 + LESS, 50 + MORE].map((far) => stands(across(far)))).toEqual([true, false])
  })
})

describe('a stud exactly at the end of its slot', () => {
  it('at the near end', () => {
    const from = (mm: number) => stands(right({ slots: [{ from: mm, to: 40 }] }))
    expect([30, 30 + LESS, 30 + MORE].map(from)).toEqual([true, true, false])
  })

  it('at the far end', () => {
    const to = (mm: number) => stands(right({ slots: [{ from: 20, to: mm }] }))
    expect([30, 30 - LESS, 30 - MORE].map(to)).toEqual([true, true, false])
  })

  it('of a slot aside, where its place along is no whole number of anything', () => {
    // sqrt(30^2 - 7^2) = sqrt(851)
    const along = Math.sqrt(851)
    const ends = (from: number, to: number) => stands(right({ swing: [-90, 90], slots: [{ offset: 7, from, to }] }))
    expect([ends(along, 40), ends(20, along), ends(along + MORE, 40), ends(20, along - MORE)]).toEqual([
      true,
      true,
      false,
      false,
    ])
  })

  it('the second stud as well as the first', () => {
    // 20-40-40-20 in a rectangle of 40 by 30: studs straight above output and input, 30 and 50 mm from the pivot.
    const corner = (first: [number, number], second: [number, number]): Case => ({
      train: [20, 40, 40, 20],
      centreDistance: 40,
      banjo: {
        swing: [80, 100],
        slots: [
          { from: first[0], to: first[1] },
          { angle: -B, from: second[0], to: second[1] },
        ],
      },
    })
    // The angle B is a double, so the second stud stands within 1e-14 of 50.
    const tries: [[number, number], [number, number]][] = [
      [
        [20, 30],
        [40, 50],
      ],
      [
        [30, 40],
        [50, 60],
      ],
      [
        [20, 30 - MORE],
        [40, 50],
      ],
      [
        [20, 30],
        [40, 50 - MORE],
      ],
      [
        [30, 40],
        [50 + MORE, 60],
      ],
    ]
    expect(tries.map(([a, b]) => stands(corner(a, b)))).toEqual([true, true, false, false, false])
  })
})

describe('the swing exactly at its stop', () => {
  const swung = (swing: [number, number]) => stands(right({ swing }))

  it('at the first and at the second', () => {
    expect([swung([B, 90]), swung([0, B])]).toEqual([true, true])
    expect([swung([B + MORE, 90]), swung([0, B - MORE])]).toEqual([false, false])
  })

  it('a whole turn round', () => {
    // Up to -60, so that the stud below the line, at -B, is out of it.
    expect([swung([B - 360, -60]), swung([-350, B - 360])]).toEqual([true, true])
    expect([swung([B - 360 + MORE, -60]), swung([-350, B - 360 - MORE])]).toEqual([false, false])
    expect(swung([-180, 180])).toBe(true)
    expect(swung([0, 360])).toBe(true)
  })

  it('at half a turn', () => {
    // 20-30-50 over 15 mm: the stud stands 40 mm out behind the output, where 25 + 15 mm are: at 180 degrees, or -180.
    const behind = (swing: [number, number]) =>
      layOut(
        {
          leadscrew: { pitch: '1' },
          centreDistance: 15,
          shaftClearance: 0,
          planes: 2,
          banjo: { swing, slots: [{ from: 20, to: 60 }] },
        },
        {
          stages: [
            { driver: { teeth: 60 }, driven: { teeth: 50 } },
            { driver: { teeth: 30 }, driven: { teeth: 50 } },
          ],
        },
      )
    // It would stand but for its gears, which foul: that is what is told, not a swing.
    for (const swing of [
      [90, 180],
      [180, 200],
      [-180, -90],
      [-200, -180],
    ] as [number, number][]) {
      expect(behind(swing)).toMatchObject({ ok: false, obstacle: { code: 'clearance' } })
    }
    expect(behind([170, 179])).toMatchObject({ ok: false, obstacle: { code: 'reach' } })
  })
})

describe('equal gears', () => {
  it('three alike', () => {
    // Two sides of 30 and one of 40: the stud is sqrt(500) above the middle.
    const layout = standing({
      train: [30, 30, 30],
      centreDistance: 40,
      banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }] },
    })
    expect(layout?.shafts[1]).toEqual({ x: 20, y: expect.closeTo(Math.sqrt(500), 8), slot: 0, along: 30 })
  })

  it('four alike, in one slot through the pivot', () => {
    // Straight on at 20, 40 and 60 mm.
    const four = (swing: [number, number], centreDistance = 60) =>
      stands({ train: [20, 20, 20, 20], centreDistance, banjo: { swing, slots: [{ from: 5, to: 50 }] } })
    expect([four([-5, 5]), four([0, 0]), four([-5, 5], 60 + MORE)]).toEqual([true, true, false])
  })

  it('two alike on one stud', () => {
    const setUp = {
      stages: [
        { driver: { teeth: 30 }, driven: { teeth: 40 } },
        { driver: { teeth: 40 }, driven: { teeth: 30 } },
      ],
    }
    const lathe: Lathe = {
      leadscrew: { pitch: '1' },
      shaftClearance: 5,
      centreDistance: 50,
      banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }] },
    }
    expect(layOut(lathe, setUp)).toMatchObject({ ok: true, layout: { shafts: [{}, { x: 25, along: 35 }, {}] } })
  })
})

describe('a slot of no length', () => {
  const hole = (at: number, rest: Partial<Case> = {}) => stands(right({ slots: [{ from: at, to: at }] }, rest))

  it('holds from the nominal distance to a tenth of a module more', () => {
    expect([30, 30.05, 30.1].map((at) => hole(at))).toEqual([true, true, true])
    expect([30 - LESS, 30.1 + LESS].map((at) => hole(at))).toEqual([true, true])
    expect([30 - MORE, 30.1 + MORE].map((at) => hole(at))).toEqual([false, false])
  })

  it('leaves the mesh that the swing sets at its nominal distance', () => {
    expect(standing(right({ slots: [{ from: 30.1, to: 30.1 }] }))?.meshes.map((m) => m.centreDistance)).toEqual([
      40, 30.1,
    ])
  })

  it('aside of the pivot', () => {
    const at = (along: number) => stands(right({ swing: [-90, 90], slots: [{ offset: 18, from: along, to: along }] }))
    expect([24, 24 - MORE, 24.1].map(at)).toEqual([true, false, true])
  })

  it('further out, from a stud that a slot adjusts', () => {
    // 40-20-20-40 straight on: 30 mm along the slot, 50 mm from the pivot, 30 more to the input.
    const at = (mm: number): Case => ({
      train: [40, 20, 20, 40],
      centreDistance: mm + 30,
      banjo: {
        swing: [-5, 5],
        slots: [
          { from: 25, to: 35 },
          { from: mm, to: mm },
        ],
      },
    })
    expect([50, 50.1, 50 - MORE, 50.1 + MORE].map((mm) => stands(at(mm)))).toEqual([true, true, false, false])
  })

  it('with the pivot at the input', () => {
    const at = (mm: number) => stands(right({ pivot: 'input', swing: [-90, 90], slots: [{ from: mm, to: mm }] }))
    expect([40, 40.1, 40 - MORE, 40.1 + MORE].map(at)).toEqual([true, true, false, false])
  })
})

describe('slots beside the pivot', () => {
  it('pass it on the left or the right', () => {
    // 18 mm aside and 24 along make 30 mm, at A = 90 - B from the slot's direction; the stud at (18, -24) or (18, 24).
    const A = 90 - B
    const left = standing(right({ swing: [-90, 90], slots: [{ offset: 18, from: 0, to: 40 }] }))
    expect(left).toMatchObject({ swing: -90, shafts: [{}, { x: 18, y: -24, along: 24 }, {}] })
    const up = standing(right({ swing: [0, 90], slots: [{ offset: 18, from: 0, to: 40 }] }))
    expect(up?.swing).toBeCloseTo(B - A, 8)
    const other = standing(right({ swing: [0, 90], slots: [{ offset: -18, from: 0, to: 40 }] }))
    expect(other).toMatchObject({ swing: 90, shafts: [{}, { x: 18, y: 24, along: 24 }, {}] })
  })

  it('and run past the foot of another shaft to both sides of it', () => {
    // From a stud 30 mm out, the slot square to slot 1 at 45 mm crosses the circle of 25 mm, 20 mm to either side.
    const both = (from: number, to: number, swing: [number, number]) =>
      stands({
        train: [40, 20, 30, 30],
        centreDistance: 60,
        shaftClearance: 0.5,
        banjo: {
          swing,
          slots: [
            { from: 28, to: 32 },
            { angle: -90, offset: 45, from, to },
          ],
        },
      })
    expect([both(15, 25, [-90, 90]), both(0, 15, [-90, 90]), both(21, 60, [-90, 90])]).toEqual([true, false, false])
  })
})

describe('input and output meshing directly', () => {
  const direct = (centreDistance: number, rest: Partial<Banjo> = {}): Case => ({
    train: [40, 60],
    centreDistance,
    banjo: { swing: [0, 90], slots: [{ from: 20, to: 60 }], ...rest },
  })

  it('holds from the nominal distance to a tenth of a module more, whatever the banjo does', () => {
    expect([50, 50.05, 50.1].map((mm) => stands(direct(mm)))).toEqual([true, true, true])
    expect([50 - LESS, 50.1 + LESS].map((mm) => stands(direct(mm)))).toEqual([true, true])
    expect([50 - MORE, 50.1 + MORE].map((mm) => stands(direct(mm)))).toEqual([false, false])
    expect(standing(direct(50, { swing: [7, 7] }))).toMatchObject({ swing: null, clearance: null })
  })

  it('still keeps out of what stands there', () => {
    // The tip of 60 at the output is 31 mm out.
    const at = (x: number) => lay(direct(50, { keepOut: [{ x, y: 0, radius: 4 }] }))?.clearance?.mm
    expect([at(-36), at(-35), at(-35 + MORE)]).toEqual([1, 0, undefined])
  })
})

describe('a banjo that cannot swing', () => {
  // At swing s the stud is sqrt(30^2 + 50^2 - 3000 cos s) from the input: 40 mm at B, 40.1 at the angle whose cosine is
  // (3400 - 40.1^2) / 3000.
  const wide = (Math.acos((3400 - 40.1 ** 2) / 3000) * 180) / Math.PI
  const still = (at: number) => stands(right({ swing: [at, at] }))

  it('lets its last mesh stand a tenth of a module wide', () => {
    expect([B, (B + wide) / 2, wide].map(still)).toEqual([true, true, true])
    expect([B - MORE, wide + MORE].map(still)).toEqual([false, false])
  })

  it('keeps to where it stands', () => {
    expect(standing(right({ swing: [53.2, 53.2] }))?.swing).toBe(53.2)
    expect(standing(right({ swing: [-53.2, -53.2] }))?.shafts[1].y).toBeLessThan(0)
  })

  it('with a hole besides', () => {
    const fixed = (swing: number, at: number) => stands(right({ swing: [swing, swing], slots: [{ from: at, to: at }] }))
    expect([fixed(B, 30), fixed(53.2, 30), fixed(B, 30 - MORE), fixed(50, 30)]).toEqual([true, true, false, false])
  })
})

describe('a circle that crosses a slot twice', () => {
  // From the output: 60 mm along slot 1 to the first stud, 40 mm from there to the second in slot 2, at 40 degrees, 30 mm to
  // the input. The circle of 40 mm crosses slot 2 at 60 cos 40 less and more sqrt(40^2 - (60 sin 40)^2): 35.36 and 56.57.
  const turn = (40 * Math.PI) / 180
  const half = Math.sqrt(40 ** 2 - (60 * Math.sin(turn)) ** 2)
  const [near, far] = [60 * Math.cos(turn) - half, 60 * Math.cos(turn) + half]
  const pair = (driver: number, driven: number) => ({ driver: { teeth: driver }, driven: { teeth: driven } })
  const stages = [pair(31, 29), pair(30, 50), pair(62, 58)]
  const along = (from: number, to: number) => {
    const slots = [
      { from: 55, to: 65 },
      { angle: 40, from, to },
    ]
    const banjo: Banjo = { swing: [-90, -60], slots }
    const lathe: Lathe = { leadscrew: { pitch: '1' }, planes: 3, shaftClearance: 1, centreDistance: 50, banjo }
    const laid = layOut(lathe, { stages })
    const wanted = { pitch: `${31 * 30 * 62}/${29 * 50 * 58}`, hand: 'left' as const, tolerance: { ppm: 0 } }
    const { trains } = findTrains({ lathe, gears: box(31, 29, 30, 50, 62, 58) }, wanted)
    expect(trains.some((train) => train.shafts.length === 4)).toBe(laid.ok)
    return laid.ok ? laid.layout.shafts.map((s) => s.along) : null
  }

  it('is tried at both', () => {
    expect(along(20, 45)).toEqual([null, expect.closeTo(near, 8), 60, null])
    expect(along(45, 60)).toEqual([null, expect.closeTo(far, 8), 60, null])
    expect(along(near + MORE, far - MORE)).toBeNull()
    expect(along(20, 60)).toEqual([null, expect.any(Number), 60, null])
  })
})
