import { type Banjo, measureBanjo } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type BanjoDrawing, drawBanjo } from './banjo-drawing.js'
import { describeBanjo, dimensionMeanings, workedOut } from './words.js'

const banjos = fc
  .record({
    pivot: fc.constantFrom('output' as const, 'input' as const),
    start: fc.integer({ min: -40, max: 40 }),
    wide: fc.integer({ min: 1, max: 60 }),
    slots: fc.array(
      fc.record({
        angle: fc.integer({ min: -60, max: 60 }),
        offset: fc.integer({ min: -12, max: 12 }),
        from: fc.integer({ min: 15, max: 50 }),
        length: fc.integer({ min: 10, max: 80 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    keepOut: fc.array(
      fc.record({
        x: fc.integer({ min: -90, max: 90 }),
        y: fc.integer({ min: -90, max: 90 }),
        radius: fc.integer({ min: 1, max: 20 }),
      }),
      { maxLength: 2 },
    ),
  })
  .map(
    ({ pivot, start, wide, slots, keepOut }): Banjo => ({
      pivot,
      swing: [start, start + wide],
      slots: slots.map(({ length, ...slot }, i) => ({ ...slot, angle: i && slot.angle, to: slot.from + length })),
      keepOut,
    }),
  )
const centres = fc.integer({ min: 60, max: 160 })

/** Lengths of the lines by field. */
const lengths = ({ dimensions }: BanjoDrawing): Record<string, number> =>
  Object.fromEntries(
    dimensions.flatMap((d) =>
      d.kind === 'length' ? [[d.field, Math.hypot(d.to.x - d.from.x, d.to.y - d.from.y)]] : [],
    ),
  )
/** The far stud of a slot lies to the left of the way from the pivot to `towards`. */
const left = (pivot: { x: number; y: number }, towards: { x: number; y: number }, p: { x: number; y: number }) =>
  (towards.x - pivot.x) * (p.y - pivot.y) - (towards.y - pivot.y) * (p.x - pivot.x) >= 0

describe('drawBanjo', () => {
  it('draws lines that, taken off with calipers, are the measures of this very banjo', () => {
    fc.assert(
      fc.property(banjos, centres, (banjo, centreDistance) => {
        const drawing = drawBanjo({ banjo, centreDistance, terms: 'measured', entries: {} })
        const { rest, stops, pivot, shafts } = drawing
        const found = lengths(drawing)
        const other = shafts[banjo.pivot === 'output' ? 1 : 0]
        const sense = (towards: typeof pivot, p: typeof pivot) =>
          left(pivot, towards, p) ? ('anticlockwise' as const) : ('clockwise' as const)
        const again = measureBanjo({
          pivot: banjo.pivot!,
          centreDistance: found.centreDistance!,
          slots: banjo.slots.map((slot, i) => ({
            near: found[`slots[${i}].near`]!,
            far: found[`slots[${i}].far`]!,
            length: found[`slots[${i}].length`]!,
            passes: slot.offset! < 0 ? 'right' : 'left',
            ...(i > 0 && {
              // Two slots may end in one place: then there is no line between.
              fromFirst: found[`slots[${i}].fromFirst`] ?? 0.001,
              lies: sense(rest.slots[0]!.to, rest.slots[i]!.to),
            }),
          })),
          stops: [
            { toStud: found['stops[0].toStud']!, lies: sense(other, stops[0].slots[0]!.to) },
            { toStud: found['stops[1].toStud']!, lies: sense(other, stops[1].slots[0]!.to) },
          ],
        }).banjo
        for (const i of [0, 1] as const) expect(again.swing[i]).toBeCloseTo(banjo.swing[i], 3)
        again.slots.forEach((slot, i) => {
          expect(slot.from).toBeCloseTo(banjo.slots[i]!.from, 5)
          expect(slot.to).toBeCloseTo(banjo.slots[i]!.to, 5)
          expect(slot.offset).toBeCloseTo(banjo.slots[i]!.offset!, 5)
          if (i > 0) expect(slot.angle).toBeCloseTo(banjo.slots[i]!.angle!, 2)
        })
      }),
    )
  })

  it('draws the terms of a drawing at their size', () => {
    fc.assert(
      fc.property(banjos, centres, (banjo, centreDistance) => {
        const drawing = drawBanjo({ banjo, centreDistance, terms: 'drawn', entries: {} })
        const found = lengths(drawing)
        expect(found.centreDistance).toBe(centreDistance)
        banjo.slots.forEach((slot, i) => {
          expect(found[`slots[${i}].from`]).toBeCloseTo(slot.from, 9)
          expect(found[`slots[${i}].to`]).toBeCloseTo(slot.to, 9)
          expect(found[`slots[${i}].offset`] ?? 0).toBeCloseTo(Math.abs(slot.offset!), 9)
        })
        const turns = drawing.dimensions.flatMap((d) => (d.kind === 'angle' ? [[d.field, d.to - d.from]] : []))
        expect(Object.fromEntries(turns)).toEqual({
          'swing[0]': expect.closeTo(banjo.swing[0]),
          'swing[1]': expect.closeTo(banjo.swing[1]),
          ...Object.fromEntries(
            banjo.slots.slice(1).map(({ angle }, i) => [`slots[${i + 1}].angle`, expect.closeTo(angle!)]),
          ),
        })
        banjo.keepOut!.forEach(({ x, y, radius }, i) => {
          expect(found[`keepOut[${i}].x`] ?? 0).toBeCloseTo(Math.abs(x), 9)
          expect(found[`keepOut[${i}].y`] ?? 0).toBeCloseTo(Math.abs(y), 9)
          expect(found[`keepOut[${i}].radius`]).toBeCloseTo(radius, 9)
        })
      }),
    )
  })

  it('rests half way between the stops, which stand as they were put in', () => {
    const banjo: Banjo = { swing: [10, 40], slots: [{ from: 30, to: 80 }] }
    const { rest, stops } = drawBanjo({ banjo, centreDistance: 100, stops: [40, 10], terms: 'measured', entries: {} })
    expect([rest.swing, ...stops.map(({ swing }) => swing)]).toEqual([25, 40, 10])
  })

  it('says in words every line that it draws, and what stands there', () => {
    fc.assert(
      fc.property(banjos, centres, fc.constantFrom('measured' as const, 'drawn' as const), (banjo, at, terms) => {
        const drawing = drawBanjo({ banjo, centreDistance: at, terms, entries: { centreDistance: '4 3/8 in' } })
        const [machine, ...lines] = describeBanjo(drawing)
        expect(machine).toContain(`about the ${banjo.pivot} shaft`)
        expect(lines[0]).toBe(`centres: ${dimensionMeanings.centreDistance}, 4 3/8 in.`)
        expect(lines).toHaveLength(drawing.dimensions.length)
        lines.forEach((line, i) => {
          expect(line.startsWith(`${drawing.dimensions[i]!.label}: `)).toBe(true)
          expect(line).not.toContain('undefined')
        })
      }),
    )
  })

  it('says what was worked out, the way round it is seen', () => {
    const slots = [
      { from: 30, to: 80.125 },
      { angle: -35, offset: 4, from: 30, to: 60 },
    ]
    const drawing = drawBanjo({
      banjo: { swing: [-5, 40], slots },
      centreDistance: 100,
      terms: 'measured',
      entries: {},
    })
    expect(workedOut(drawing)).toEqual([
      'Slot 1: 30.00 mm to 80.13 mm along, pointing at the pivot.',
      'Slot 2: 30.00 mm to 60.00 mm along, passing 4.00 mm beside the pivot, −35.0° anticlockwise from slot 1.',
      'Swing: −5.0° to 40.0° anticlockwise of the line between the shafts.',
    ])
    expect(workedOut(drawing, { mirror: true })[2]).toContain('40.0° clockwise')
  })
})
