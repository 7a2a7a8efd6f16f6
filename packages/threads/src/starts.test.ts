import { InputError, multiply, parsePitch, rational, subtract, toNumber } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { indexStarts } from './starts.js'

// Jones, Turning and Boring (1914), multiple-thread cutting.
describe('worked examples', () => {
  it('double thread of 1 1/4 threads to the inch: 2 in on any leadscrew of whole threads', () => {
    // Lead 0.8 in, pitch 0.4 in: 0.4 + 2 x 0.8 in.
    const [second] = indexStarts({ pitch: '0.4 in', starts: 2, leadscrew: '1 in' })
    expect(second.carriage).toMatchObject({ mm: 50.8, threads: 2 })
    expect(second.turn).toEqual({ n: '1', d: '2' })
  })
  it('quadruple thread of 1 1/2 threads to the inch: pitch and two leads are 1 1/2 in', () => {
    const [second] = indexStarts({ pitch: '6 tpi', starts: 4, leadscrew: '1/2 in' })
    expect(second.carriage).toMatchObject({ mm: 38.1, threads: 3 })
    expect(second.slide.mm).toBeCloseTo(25.4 / 6, 9)
    // The book rounds to 0.1666 and 1.499 in.
    expect(second.slide.mm / 25.4).toBeCloseTo(0.1666, 3)
  })
  it('double thread by a stud gear of 96: 48 teeth', () => {
    expect(indexStarts({ pitch: '1', starts: 2, gear: { teeth: 96 } })[0].teeth).toBe(48)
  })
  it('a gear serves when its teeth divide by the starts', () => {
    expect(indexStarts({ pitch: '1', starts: 3, gear: { teeth: 96 } }).map(({ teeth }) => teeth)).toEqual([32, 64])
    expect(indexStarts({ pitch: '1', starts: 3, gear: { teeth: 40 } }).map(({ teeth }) => teeth)).toEqual([null, null])
    expect(indexStarts({ pitch: '1', starts: 4, gear: { teeth: 50 } }).map(({ teeth }) => teeth)).toEqual([
      null,
      25,
      null,
    ])
  })
})

describe('laws', () => {
  it('moves the carriage whole leadscrew threads and ends on the start asked for', () => {
    const n = fc.integer({ min: 1, max: 24 })
    fc.assert(
      fc.property(n, n, fc.integer({ min: 2, max: 6 }), (a, b, starts) => {
        const pitch = `${a}/8 mm`
        const leadscrew = `${b}/4 mm`
        const p = parsePitch(pitch).mm
        const all = indexStarts({ pitch, starts, leadscrew })
        expect(all.map(({ start }) => start)).toEqual(Array.from({ length: starts - 1 }, (_, i) => i + 2))
        for (const { start, turn, slide, carriage } of all) {
          expect(toNumber(turn) * starts).toBeCloseTo(start - 1, 12)
          expect(slide.exact).toEqual(multiply(p, rational(start - 1)))
          if (!carriage) continue
          expect(carriage.exact).toEqual(multiply(parsePitch(leadscrew).mm, rational(carriage.threads)))
          const over = subtract(carriage.exact, slide.exact)
          expect((toNumber(over) / toNumber(p) / starts) % 1).toBeCloseTo(0, 9)
        }
      }),
    )
  })

  it('moves the carriage by 100 mm at most', () => {
    // Three starts of 1.5 mm on 8 tpi: the least move is 120 threads, 381 mm.
    expect(indexStarts({ pitch: '1.5', starts: 3, leadscrew: '8 tpi' }).map(({ carriage }) => carriage)).toEqual([
      null,
      null,
    ])
    expect(indexStarts({ pitch: '50', starts: 2, leadscrew: '25' })[0].carriage).toMatchObject({ mm: 50, threads: 2 })
    expect(indexStarts({ pitch: '100', starts: 2, leadscrew: '10' })[0].carriage).toMatchObject({ mm: 100 })
    expect(indexStarts({ pitch: '101', starts: 2, leadscrew: '1' })[0].carriage).toBeNull()
  })

  it('has no carriage move where pitch and leadscrew never meet', () => {
    // Two starts of 1/2 mm on a 1 mm screw: 1/2, 3/2, 5/2 ... never whole.
    expect(indexStarts({ pitch: '0.5', starts: 2, leadscrew: '1' })[0].carriage).toBeNull()
    expect(indexStarts({ pitch: '0.5', starts: 2 })[0]).toEqual({
      start: 2,
      turn: { n: '1', d: '2' },
      slide: { mm: 0.5, exact: { n: '1', d: '2' } },
      teeth: null,
      carriage: null,
    })
    // A lead a little off is never whole either.
    expect(indexStarts({ pitch: '1.0003', starts: 2, leadscrew: '1' })[0].carriage).toBeNull()
  })
})

describe('refusals', () => {
  it.each([
    () => indexStarts({ pitch: '1', starts: 1 }),
    () => indexStarts({ pitch: '1', starts: 2.5 }),
    () => indexStarts({ pitch: 'x', starts: 2 }),
    () => indexStarts({ pitch: '1', starts: 2, leadscrew: '0' }),
    () => indexStarts({ pitch: '1', starts: 2, gear: { teeth: 5 } }),
    () => indexStarts({ pitch: '1', starts: 2, gear: null as never }),
  ])('refuses what means nothing', (ask) => {
    expect(ask).toThrow(InputError)
  })
})
