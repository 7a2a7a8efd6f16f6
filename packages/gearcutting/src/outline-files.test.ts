import { InputError } from '@trainwright/measures'
import { DOMParser } from '@xmldom/xmldom'
import dxfParser, { type ICircleEntity, type ILwpolylineEntity } from 'dxf-parser'
import svgpath from 'svgpath'
import { describe, expect, test } from 'vitest'
import { outlineDxf } from './dxf.js'
import { type OutlineQuestion, outline, outlinePath, outlineSvg, spurGear } from './index.js'

// Its types tell of a module, its file for Node is the class itself.
const DxfParser = dxfParser as unknown as typeof dxfParser.DxfParser

interface Point {
  x: number
  y: number
}

/** An SVG file read back: its size in mm, and its closed lines as close points, y turned up again. */
function readSvg(file: string): { width: number; box: number[]; lines: Point[][] } {
  const svg = new DOMParser().parseFromString(file, 'image/svg+xml').documentElement!
  const paths = Array.from(svg.getElementsByTagName('path'))
  const lines: Point[][] = []
  for (const path of paths)
    svgpath(path.getAttribute('d')!)
      .abs()
      .unarc()
      .iterate((segment, _, x, y) => {
        const [kind, ...to] = segment as [string, ...number[]]
        if (kind === 'M') lines.push([{ x: to[0], y: -to[1] }])
        const line = lines.at(-1)!
        if (kind === 'L') line.push({ x: to[0], y: -to[1] })
        if (kind === 'C')
          for (let i = 1; i <= 8; i++) {
            const [t, u] = [i / 8, 1 - i / 8]
            const mix = (a: number, b: number, c: number, d: number): number =>
              u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d
            line.push({ x: mix(x, to[0], to[2], to[4]), y: -mix(y, to[1], to[3], to[5]) })
          }
        if (kind === 'Z') expect(Math.hypot(line[0].x - line.at(-1)!.x, line[0].y - line.at(-1)!.y)).toBeLessThan(2e-6)
      })
  const width = svg.getAttribute('width')!
  expect(width).toMatch(/mm$/)
  expect(svg.getAttribute('height')).toBe(width)
  return { width: Number.parseFloat(width), box: svg.getAttribute('viewBox')!.split(' ').map(Number), lines }
}

/** A DXF file read back: closed polylines as close points, and circles, by layer. */
function readDxf(file: string): { lines: Record<string, Point[]>; circles: ICircleEntity[]; units: unknown } {
  const drawing = new DxfParser().parseSync(file)!
  const lines: Record<string, Point[]> = {}
  for (const entity of drawing.entities) {
    expect(drawing.tables.layer.layers).toHaveProperty(entity.layer)
    if (entity.type !== 'LWPOLYLINE') continue
    const { vertices, shape, layer } = entity as ILwpolylineEntity
    expect(shape).toBe(true)
    lines[layer] = vertices.flatMap(({ x, y, bulge = 0 }, i) => {
      // Bulge by its meaning in the file format: the sagitta over half the chord, to the right of the way.
      const to = vertices[(i + 1) % vertices.length]
      const [cx, cy] = [to.x - x, to.y - y]
      return Array.from({ length: 8 }, (_, j) => {
        const turn = 4 * Math.atan(bulge)
        if (turn === 0) return { x: x + (cx * j) / 8, y: y + (cy * j) / 8 }
        const [mx, my] = [x + cx / 2 - cy / 2 / Math.tan(turn / 2), y + cy / 2 + cx / 2 / Math.tan(turn / 2)]
        const [c, s] = [Math.cos((turn * j) / 8), Math.sin((turn * j) / 8)]
        return { x: mx + (x - mx) * c - (y - my) * s, y: my + (x - mx) * s + (y - my) * c }
      })
    })
  }
  const circles = drawing.entities.filter((entity) => entity.type === 'CIRCLE') as ICircleEntity[]
  return { lines, circles, units: drawing.header.$INSUNITS }
}

/** Flat jaws over `over` teeth, the middle of them at `middle`: the width of what stands above the roots between them. */
function jaws(points: Point[], teeth: number, over: number, middle: number, roots: number): number {
  const [ux, uy] = [-Math.sin(middle), Math.cos(middle)]
  const held = points.filter(({ x, y }) => {
    const aside = Math.atan2(x * ux + y * uy, x * uy - y * ux)
    return Math.abs(aside) < (over * Math.PI) / teeth && Math.hypot(x, y) > roots
  })
  const across = held.map(({ x, y }) => x * ux + y * uy)
  return Math.max(...across) - Math.min(...across)
}

const gears: OutlineQuestion[] = [
  { teeth: 12, module: 1, bore: 4 },
  { teeth: 20, module: 1.25, bore: 10, keyway: { width: 3, depth: 1.4 } },
  { teeth: 57, module: 1, bore: 12, pin: { diameter: 3, distance: 12 } },
  { teeth: 40, dp: 20, pressureAngle: 14.5, bore: 12.7 },
  { teeth: 63, module: 0.8, shift: 0.2, bore: 8, keyway: { width: 2, depth: 1 }, pin: { diameter: 2, distance: 9 } },
  { teeth: 127, module: 1, thinning: 0.05, bore: 14 },
]

function measure(points: Point[], q: OutlineQuestion): void {
  const gear = spurGear(q)
  const radii = points.map(({ x, y }) => Math.hypot(x, y))
  expect(2 * Math.max(...radii)).toBeCloseTo(gear.tipDiameter, 4)
  expect(2 * Math.min(...radii)).toBeCloseTo(gear.rootDiameter, 4)
  const { teeth: over, length } = gear.baseTangent
  const roots = (Math.hypot(gear.baseDiameter, length) - 0.8 * gear.module) / 2
  for (const first of [0, 1, Math.floor(q.teeth / 3), q.teeth - 1]) {
    const middle = (2 * Math.PI * (first + (over - 1) / 2)) / q.teeth
    expect(Math.abs(jaws(points, q.teeth, over, middle, roots) - length)).toBeLessThan(0.002)
  }
}

describe.each(gears)('$teeth teeth read back', (q) => {
  test('from SVG: full size, closed, and it measures right', () => {
    const drawn = outline(q)
    const { width, box, lines } = readSvg(outlineSvg(drawn))
    expect(width).toBeCloseTo(drawn.tipDiameter + 2, 5)
    expect(box).toEqual([-width / 2, -width / 2, width, width].map((n) => expect.closeTo(n, 5)))
    expect(lines).toHaveLength(drawn.loops.length + drawn.circles.length)
    measure(lines[0], q)
    const bore = lines[q.keyway ? 1 : drawn.loops.length]
    const radii = bore.map(({ x, y }) => Math.hypot(x, y))
    expect(2 * Math.min(...radii)).toBeCloseTo(q.bore!, 3)
    const floor = q.bore! / 2 + (q.keyway?.depth ?? 0)
    expect(Math.max(...bore.map(({ x }) => x))).toBeCloseTo(floor, 3)
    // Away from the keyway, which lies at +x, all of it is the bore's circle.
    for (const { x, y } of bore) if (x <= 0) expect(Math.hypot(x, y)).toBeCloseTo(q.bore! / 2, 2)
  })

  test('from DXF: millimetres, closed, a layer each, and it measures right', () => {
    const drawn = outline(q)
    const { lines, circles, units } = readDxf(outlineDxf(drawn))
    expect(units).toBe(4)
    measure(lines.TEETH, q)
    const round = circles.map(({ layer, center, radius }) => [layer, center.x, center.y, 2 * radius])
    const expected = drawn.circles.map(({ name, x, y, diameter }) => [name.toUpperCase(), x, y, diameter])
    expect(round).toEqual(expected)
    if (q.keyway) {
      expect(Math.max(...lines.BORE.map(({ x }) => x))).toBeCloseTo(q.bore! / 2 + q.keyway.depth, 6)
      expect(2 * Math.min(...lines.BORE.map(({ x, y }) => Math.hypot(x, y)))).toBeCloseTo(q.bore!, 6)
    } else expect(lines).not.toHaveProperty('BORE')
  })
})

describe('bad input', () => {
  const problems = (write: () => string): string[] => {
    try {
      return [write()]
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      return error.problems.map(({ path, code }) => `${path} ${code}`)
    }
  }
  const drawn = outline(gears[0])

  test.each([null, undefined, 7, 'outline', [], {}, { loops: [] }])('%j is no outline', (none) => {
    for (const write of [outlineSvg, outlinePath, outlineDxf])
      expect(problems(() => write(none as never))).toEqual(['outline no-outline'])
  })

  test.each<[unknown, string]>([
    [Number.NaN, 'not-a-number'],
    [Number.POSITIVE_INFINITY, 'not-a-number'],
    ['thin', 'not-a-number'],
    [null, 'missing'],
    [-1, 'range'],
    [0, 'range'],
    // Below a millionth it would be written as 0.
    [1e-7, 'range'],
  ])('a stroke of %j is %s', (stroke, code) => {
    expect(problems(() => outlineSvg(drawn, { stroke: stroke as number }))).toEqual([`stroke ${code}`])
    expect(problems(() => outlineSvg(null as never, { stroke: stroke as number }))).toEqual([
      'outline no-outline',
      `stroke ${code}`,
    ])
  })

  test('any other stroke is written as it is', () => {
    expect(outlineSvg(drawn, { stroke: 0.25 })).toContain('stroke-width="0.25"')
    expect(outlineSvg(drawn, undefined)).toContain('stroke-width="0.1"')
    expect(outlineSvg(drawn, null as never)).toBe(outlineSvg(drawn))
  })
})

test('the same outline gives the same bytes', () => {
  const drawn = outline(gears[4])
  expect(outlineDxf(drawn)).toBe(outlineDxf(JSON.parse(JSON.stringify(drawn))))
  expect(outlineSvg(drawn)).toBe(outlineSvg(structuredClone(drawn)))
})
