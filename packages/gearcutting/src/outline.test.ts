import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type OutlineQuestion, outline, spurGear, type Vertex } from './index.js'

const radians = (degrees: number): number => (degrees * Math.PI) / 180

/** Points along the arc from one vertex to the next, by its centre, the vertex itself first. */
function along(from: Vertex, to: Vertex, pieces: number): { x: number; y: number; heading: number }[] {
  const [cx, cy] = [to.x - from.x, to.y - from.y]
  const included = 4 * Math.atan(from.bulge)
  const start = Math.atan2(cy, cx) - included / 2
  if (Math.abs(included) < 1e-9) return [{ x: from.x, y: from.y, heading: start }]
  const radius = Math.hypot(cx, cy) / (2 * Math.sin(included / 2))
  return Array.from({ length: pieces }, (_, i) => {
    const heading = start + (included * i) / pieces
    return {
      x: from.x + radius * (Math.sin(heading) - Math.sin(start)),
      y: from.y - radius * (Math.cos(heading) - Math.cos(start)),
      heading,
    }
  })
}

const teeth = (q: OutlineQuestion): Vertex[] => outline(q).loops[0].vertices
const next = (loop: Vertex[], i: number): Vertex => loop[(i + 1) % loop.length]

/**
 * How far a point stands outside the rack tooth that cuts the space, negative inside it: straight flanks, flat tip, round
 * corners. x sideways from the middle of the rack tooth, y outwards from the reference line. Plain geometry of the rack.
 */
function outsideRack(
  x: number,
  y: number,
  rack: { angle: number; half: number; depth: number; round: number },
): number {
  const { angle, half, depth, round } = rack
  const corner = { y: -(depth - round), x: 0 }
  corner.x = half - (depth - round) * Math.tan(angle) - round / Math.cos(angle)
  const [wx, wy] = [Math.abs(x) - corner.x, y - corner.y]
  const alongFlank = wx * Math.sin(angle) + wy * Math.cos(angle)
  if (alongFlank <= 0 && wx >= 0) return Math.hypot(wx, wy) - round
  return Math.max(wx * Math.cos(angle) - wy * Math.sin(angle), -wy) - round
}

describe('rolled against a rack, which generates it', () => {
  test.each<OutlineQuestion>([
    { teeth: 8, module: 1 },
    { teeth: 12, module: 1 },
    { teeth: 12, module: 1, shift: 0.5 },
    { teeth: 17, module: 1 },
    { teeth: 24, module: 1, pressureAngle: 14.5 },
    { teeth: 25, module: 1, shift: -0.3 },
    { teeth: 40, module: 1, thinning: 0.1 },
    { teeth: 60, module: 1, pressureAngle: 25 },
    { teeth: 127, module: 1 },
    { teeth: 30, dp: 25.4, pressureAngle: 14.5 },
    { teeth: 20, module: 1, pressureAngle: 30, depth: 2.3 },
    { teeth: 20, module: 1, depth: 2 },
  ])('%j: no place of the rack enters the metal, and some place touches each point of flank and root', (q) => {
    const tolerance = 1e-4
    const loop = teeth({ ...q, tolerance })
    const { pressureAngle = 20, shift = 0, thinning = 0, depth = q.dp ? 2.157 : 2.25 } = q
    const angle = radians(pressureAngle)
    const pitch = q.teeth / 2
    const half = Math.PI / 4 + thinning / 2
    const fullRound = (half - (depth - 1) * Math.tan(angle)) * Math.tan(Math.PI / 4 + angle / 2)
    const round = Math.min((depth - 2) / (1 - Math.sin(angle)), fullRound)
    const rack = { angle, half, depth: depth - 1, round }
    // The space that follows the first tooth, turned so that its middle points up.
    const turned = Math.PI / 2 - Math.PI / q.teeth
    const points = loop.slice(0, loop.length / q.teeth).flatMap((vertex, i) => along(vertex, next(loop, i), 5))
    const [cos, sin] = [Math.cos(turned), Math.sin(turned)]
    let touched = 0
    for (const { x, y } of points) {
      // The half tooth above the axis borders that space; the tip is not cut by the rack.
      if (y < 0 || Math.hypot(x, y) > pitch + 1 + shift - 1e-6) continue
      const [px, py] = [x * cos - y * sin, x * sin + y * cos]
      const off = (rolled: number): number => {
        const [c, s] = [Math.cos(rolled / pitch), Math.sin(rolled / pitch)]
        return outsideRack(px * c + py * s - rolled, py * c - px * s - pitch - shift, rack)
      }
      let [least, best] = [Number.POSITIVE_INFINITY, 0]
      for (let rolled = -8; rolled <= 8; rolled += 0.02) {
        const found = off(rolled)
        if (found < least) [least, best] = [found, rolled]
      }
      for (let step = 0.01; step > 1e-6; step /= 2)
        for (const rolled of [best - step, best + step]) {
          const found = off(rolled)
          if (found < least) [least, best] = [found, rolled]
        }
      expect(Math.abs(least)).toBeLessThan(tolerance)
      touched++
    }
    expect(touched).toBeGreaterThan(20)
  })
})

/** How far the flank and the root of the first tooth stray from what the rack leaves, in mm: greatest of ten points on each arc. */
function strayOf(q: OutlineQuestion & { module: number }): number {
  const { teeth: count, module, pressureAngle = 20, shift = 0, thinning = 0, depth = 2.25 } = q
  const angle = radians(pressureAngle)
  const pitch = (module * count) / 2
  const base = pitch * Math.cos(angle)
  const inv = (a: number): number => Math.tan(a) - a
  const halfAtBase = (Math.PI / 2 + 2 * shift * Math.tan(angle) - thinning / module) / count + inv(angle)
  // The rack's tip round: its radius, and where its centre stands before the rack is rolled.
  const [half, below] = [(Math.PI * module) / 4 + thinning / 2, (depth - 1) * module]
  const full = (half - below * Math.tan(angle)) * Math.tan(Math.PI / 4 + angle / 2)
  const round = Math.min(((depth - 2) * module) / (1 - Math.sin(angle)), full)
  const [cx, cy] = [
    half - (below - round) * Math.tan(angle) - round / Math.cos(angle),
    pitch + shift * module - below + round,
  ]
  const turned = Math.PI / 2 - Math.PI / count
  const loop = teeth(q)
  const points = loop.slice(0, loop.length / count).flatMap((vertex, i) => along(vertex, next(loop, i), 10))
  // Half a tooth, and not its tip.
  const cut = points.filter(({ x, y }) => y > 0 && Math.hypot(x, y) < pitch + (1 + shift) * module - 1e-7)
  const strays = cut.map(({ x, y }) => {
    const [radius, at] = [Math.hypot(x, y), Math.atan2(y, x)]
    // All involutes of a base circle run side by side, so this is the distance along the common normal.
    const fromFlank =
      radius < base ? Number.POSITIVE_INFINITY : base * Math.abs(at - halfAtBase + inv(Math.acos(base / radius)))
    const [px, py] = [radius * Math.cos(at + turned), radius * Math.sin(at + turned)]
    const fromRound = (rolled: number): number => {
      const [c, s] = [Math.cos(rolled / pitch), Math.sin(rolled / pitch)]
      const aside = Math.abs(px * c + py * s - rolled)
      return Math.hypot(Math.max(0, aside - Math.max(0, cx)), py * c - px * s - cy) - round
    }
    // The round leaves its last mark where the flank takes over, rolled no further than this.
    const furthest = (1 + (depth - shift) / Math.tan(angle)) * module
    let [least, best] = [Number.POSITIVE_INFINITY, 0]
    for (let rolled = -furthest; rolled <= furthest; rolled += module / 20) {
      const found = fromRound(rolled)
      if (found < least) [least, best] = [found, rolled]
    }
    for (let step = module / 40; step > 1e-7 * module; step /= 2)
      for (const rolled of [best - step, best + step]) {
        const found = fromRound(rolled)
        if (found < least) [least, best] = [found, rolled]
      }
    return Math.min(fromFlank, Math.abs(least))
  })
  expect(strays.length).toBeGreaterThan(10)
  return Math.max(...strays)
}

const refusals = (q: OutlineQuestion): string[] => {
  try {
    outline(q)
    return []
  } catch (error) {
    return (error as InputError).problems.map(({ code }) => code)
  }
}

describe('the tolerance', () => {
  const module = fc.constantFrom(0.1, 0.5, 1, 1.25, 2, 3, 10)
  const tolerance = fc.integer({ min: 10, max: 50 }).map((n) => Number((10 ** (-n / 10)).toPrecision(3)))

  test('holds everywhere on flank and root, for plain gears', () => {
    const plain = fc.record({
      teeth: fc.integer({ min: 6, max: 150 }),
      module,
      pressureAngle: fc.constantFrom(14.5, 20, 25),
      tolerance,
    })
    fc.assert(
      fc.property(plain, (q) => {
        expect(strayOf(q)).toBeLessThanOrEqual(q.tolerance)
      }),
      {
        examples: [
          [{ teeth: 100, module: 3, pressureAngle: 20, tolerance: 0.001 }],
          [{ teeth: 66, module: 1.25, pressureAngle: 20, tolerance: 1e-4 }],
          [{ teeth: 120, module: 0.5, pressureAngle: 20, tolerance: 1e-4 }],
        ],
      },
    )
  })

  test('holds for any gear that has an outline, and has no say in whether undercutting cuts it off', () => {
    const wild = fc
      .record({
        teeth: fc.integer({ min: 6, max: 40 }),
        module,
        pressureAngle: fc.integer({ min: 20, max: 60 }).map((n) => n / 2),
        shift: fc.integer({ min: -100, max: 60 }).map((n) => n / 100),
        depth: fc.integer({ min: 200, max: 250 }).map((n) => n / 100),
        thinned: fc.constantFrom(0, 0.02, 0.3),
        tolerance,
      })
      .map(({ thinned, ...q }) => ({ ...q, thinning: thinned * q.module }))
    fc.assert(
      fc.property(wild, (q) => {
        const refused = refusals(q)
        expect(refusals({ ...q, tolerance: 1e-5 })).toEqual(refused)
        if (refused.length === 0) expect(strayOf(q)).toBeLessThanOrEqual(q.tolerance)
      }),
      {
        examples: [
          [{ teeth: 6, module: 10, pressureAngle: 14, shift: -0.66, depth: 2.157, thinning: 0, tolerance: 0.1 }],
          [{ teeth: 6, module: 0.5, pressureAngle: 27, shift: -0.79, depth: 2.25, thinning: 0, tolerance: 0.005 }],
        ],
      },
    )
  })

  test('takes so many arcs to a tooth, and no more', () => {
    const perTooth = (q: OutlineQuestion): number => teeth(q).length / q.teeth
    expect(perTooth({ teeth: 40, module: 1 })).toBeLessThanOrEqual(22)
    expect(perTooth({ teeth: 40, module: 1, tolerance: 1e-5 })).toBeLessThanOrEqual(60)
    // Near the worst there is: a long undercut, and a tolerance of a ten-millionth of the module.
    expect(perTooth({ teeth: 17, module: 100, pressureAngle: 10, tolerance: 1e-5 })).toBeLessThanOrEqual(400)
  })
})

const shapes = fc.record({
  teeth: fc.integer({ min: 7, max: 90 }),
  module: fc.constantFrom(0.5, 1, 1.25, 3),
  pressureAngle: fc.constantFrom(14.5, 20, 22.5),
  shift: fc.constantFrom(0, 0.1, 0.3),
})

describe('laws', () => {
  test('the loop is closed, anticlockwise, between root and tip, and smooth but for tips and undercuts', () => {
    fc.assert(
      fc.property(shapes, (q) => {
        const gear = spurGear(q)
        const loop = teeth(q)
        const radii = loop.map(({ x, y }) => Math.hypot(x, y))
        expect(2 * Math.max(...radii)).toBeCloseTo(gear.tipDiameter, 7)
        expect(2 * Math.min(...radii)).toBeCloseTo(gear.rootDiameter, 7)
        let [turned, corners, area] = [0, 0, 0]
        for (let i = 0; i < loop.length; i++) {
          const [a, b, c] = [loop[i], next(loop, i), next(loop, i + 1)]
          area += (a.x * b.y - a.y * b.x) / 2
          const chords = Math.atan2(c.y - b.y, c.x - b.x) - Math.atan2(b.y - a.y, b.x - a.x)
          const kink = chords - 2 * Math.atan(a.bulge) - 2 * Math.atan(b.bulge)
          const folded = Math.atan2(Math.sin(kink), Math.cos(kink))
          turned += folded + 4 * Math.atan(b.bulge)
          if (Math.abs(folded) > 1e-3) corners++
        }
        expect(turned).toBeCloseTo(2 * Math.PI, 6)
        expect(area).toBeGreaterThan((Math.PI * gear.rootDiameter ** 2) / 4)
        expect(area).toBeLessThan((Math.PI * gear.tipDiameter ** 2) / 4)
        const perTooth = corners / q.teeth
        // Two at the tip; two more where fillet and flank cross, which close to the limit are too blunt to count.
        if (!gear.undercut) expect([2, 4]).toContain(perTooth)
        else expect(perTooth).toBe(4)
      }),
    )
  })

  test('a gear of twice the module is twice as large, point by point', () => {
    const [one, two] = [teeth({ teeth: 23, module: 1 }), teeth({ teeth: 23, module: 2, tolerance: 0.002 })]
    expect(two).toHaveLength(one.length)
    for (const [i, { x, y, bulge }] of one.entries()) {
      expect(two[i].x).toBeCloseTo(2 * x, 8)
      expect(two[i].y).toBeCloseTo(2 * y, 8)
      expect(two[i].bulge).toBeCloseTo(bulge, 8)
    }
  })

  test('a coarser tolerance needs no more arcs; every tooth is the first one turned', () => {
    const q = { teeth: 30, module: 2 }
    const [fine, coarse] = [teeth({ ...q, tolerance: 1e-4 }), teeth({ ...q, tolerance: 0.01 })]
    expect(coarse.length).toBeLessThan(fine.length)
    const per = fine.length / 30
    for (const [i, { x, y }] of fine.entries()) {
      const { x: a, y: b } = fine[i % per]
      const turn = (2 * Math.PI * Math.floor(i / per)) / 30
      expect(
        Math.hypot(x - a * Math.cos(turn) + b * Math.sin(turn), y - a * Math.sin(turn) - b * Math.cos(turn)),
      ).toBeLessThan(1e-8)
    }
  })

  test('thinning leaves play: two gears at the nominal distance keep apart by it', () => {
    // On the pitch circle each tooth is thinner by 0.05.
    const width = (thinning: number): number => {
      const loop = teeth({ teeth: 20, module: 2, thinning, tolerance: 1e-5 }).slice(0, 200)
      const flank = loop
        .flatMap((vertex, i) => along(vertex, next(loop, i), 40))
        .filter(({ x, y }) => x > 0 && y > 0 && Math.atan2(y, x) < Math.PI / 20)
        .sort((a, b) => Math.abs(Math.hypot(a.x, a.y) - 20) - Math.abs(Math.hypot(b.x, b.y) - 20))[0]
      return 2 * 20 * Math.atan2(flank.y, flank.x)
    }
    expect(width(0)).toBeCloseTo(Math.PI, 2)
    expect(width(0) - width(0.05)).toBeCloseTo(0.05, 2)
  })
})

test('holes: a plain bore is a circle, one with a keyway a loop, the pin hole where it is put', () => {
  const q = { teeth: 40, module: 1, bore: 12 }
  expect(outline(q).circles).toEqual([{ name: 'bore', x: 0, y: 0, diameter: 12 }])
  const keyed = outline({ ...q, keyway: { width: 4, depth: 1.8 }, pin: { diameter: 3, distance: 12, angle: 90 } })
  expect(keyed.circles).toEqual([{ name: 'pin', x: 0, y: 12, diameter: 3 }])
  expect(keyed.title).toBe('40 teeth, module 1, 20°')
  const { name, vertices } = keyed.loops[1]
  expect(name).toBe('bore')
  // Keyway 4 wide, its floor 6 + 1.8 from the centre; the rest on the bore's circle.
  const points = vertices.flatMap((vertex, i) => along(vertex, next(vertices, i), 20))
  expect(Math.max(...points.map(({ x }) => x))).toBeCloseTo(7.8, 8)
  const inKeyway = points.filter(({ x, y }) => Math.hypot(x, y) > 6 + 1e-6)
  expect(inKeyway.map(({ x, y }) => [x, y])).toEqual([
    [7.8, -2],
    [7.8, 2],
  ])
  const round = points.filter((point) => !inKeyway.includes(point))
  for (const { x, y } of round) expect(Math.hypot(x, y)).toBeCloseTo(6, 8)
  for (const { x, y } of round) if (x > 0) expect(Math.abs(y)).toBeGreaterThanOrEqual(2 - 1e-8)
  expect(round).toHaveLength(41)
})

describe('bad input', () => {
  const problems = (q: unknown): string[] => {
    try {
      outline(q as OutlineQuestion)
      return []
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      return error.problems.map(({ path, code }) => `${path} ${code}`)
    }
  }
  const gear = { teeth: 20, module: 1 }
  test.each<[unknown, string[]]>([
    [undefined, ['teeth missing', 'module no-size']],
    [{ teeth: 2, module: 1, tolerance: 0 }, ['teeth range', 'tolerance range']],
    [{ ...gear, bore: 18 }, ['bore bore-too-big']],
    [{ ...gear, bore: 16, keyway: { width: 16, depth: 0.5 } }, ['keyway.width keyway-too-wide']],
    [{ ...gear, bore: 0 }, ['bore range']],
    [
      { ...gear, bore: 8, keyway: { width: 0, depth: 0 }, pin: { diameter: 0, distance: 6 } },
      ['keyway.width range', 'keyway.depth range', 'pin.diameter range'],
    ],
    [{ ...gear, bore: 0, keyway: { width: 2, depth: 1 } }, ['bore range']],
    [{ ...gear, bore: 15, keyway: { width: 4, depth: 1.2 } }, ['keyway.depth bore-too-big']],
    [{ ...gear, keyway: { width: 2, depth: 1 } }, ['bore missing']],
    [{ ...gear, bore: 8, keyway: null }, ['keyway.width missing', 'keyway.depth missing']],
    [{ ...gear, bore: 8, pin: { diameter: 2, distance: 5 } }, ['pin.distance pin-place']],
    [{ ...gear, bore: 8, pin: { diameter: 6, distance: 6 } }, ['pin.distance pin-place']],
    [{ ...gear, bore: 8, pin: null }, ['pin.diameter missing', 'pin.distance missing']],
    [
      { ...gear, bore: 8, keyway: { width: 2, depth: 1.5 }, pin: { diameter: 1, distance: 5.5, angle: 10 } },
      ['pin.angle pin-keyway'],
    ],
    [{ ...gear, bore: 8, keyway: { width: 2, depth: 1.5 }, pin: { diameter: 1, distance: 5.5, angle: 30 } }, []],
    [{ teeth: 6, module: 1, shift: -0.9 }, ['teeth severed']],
    [{ teeth: 6, module: 1, shift: -0.9, bore: -1 }, ['teeth severed', 'bore range']],
    // The root does not rest on the pressure angle, and does on the module.
    [{ ...gear, pressureAngle: 0, bore: 18 }, ['pressureAngle range', 'bore bore-too-big']],
    [{ ...gear, module: 0, bore: 18, pin: { diameter: 2, distance: 5 } }, ['module range']],
  ])('%j', (q, expected) => expect(problems(q)).toEqual(expected))

  test('every gear of 6 teeth and more, unshifted, has an outline, and no figure in it is odd', () => {
    let odd = 0
    for (const pressureAngle of [14.5, 20, 25])
      for (let count = 6; count < 60; count++)
        for (const size of [{ module: 1 }, { dp: 24 }])
          odd += teeth({ teeth: count, pressureAngle, ...size }).filter(
            ({ x, y, bulge }) => !Number.isFinite(x + y) || !(Math.abs(bulge) <= 1),
          ).length
    expect(odd).toBe(0)
  })
})
