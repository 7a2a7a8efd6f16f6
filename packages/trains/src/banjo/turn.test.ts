import { describe, expect, it } from 'vitest'
import { nanometre } from './layout.js'
import { Arc, turn } from './turn.js'

const radians = (degrees: number): number => (degrees * Math.PI) / 180

describe('cosine and sine', () => {
  it('are those of the language, to the last place or so', () => {
    for (let degrees = -725; degrees <= 725; degrees += 7.25) {
      const { c, s } = turn(degrees)
      expect(Math.abs(c - Math.cos(radians(degrees)))).toBeLessThan(4e-15)
      expect(Math.abs(s - Math.sin(radians(degrees)))).toBeLessThan(4e-15)
    }
  })

  it('are exact at quarter turns', () => {
    const at = (degrees: number) => [turn(degrees).c + 0, turn(degrees).s + 0]
    for (const whole of [-720, -360, 0, 360, 720])
      expect([0, 90, 180, 270].map((quarter) => at(whole + quarter))).toEqual([
        [1, 0],
        [0, 1],
        [-1, 0],
        [0, -1],
      ])
  })
})

describe('a range of directions', () => {
  const ranges: [number, number][] = [
    [0, 0],
    [10, 30],
    [-170, -20],
    [0, 90],
    [0, 180],
    [-90, 90],
    [20, 200],
    [-60, 250],
    [-180, 180],
    [100, 430],
    [0, 360],
  ]

  it.each(ranges)('from %d to %d holds what lies in it, in some turn', (least, greatest) => {
    const arc = new Arc(least, greatest)
    // Past the ends by a hair, at them, and all round in steps that meet no end otherwise.
    const edges = [least, greatest].flatMap((end) => [end - 1e-8, end, end + 1e-8, end + 180])
    const round = Array.from({ length: 72 }, (_, i) => 5 * i + 1.25)
    for (const degrees of [...edges, ...round]) {
      const inIt = [-720, -360, 0, 360, 720].map((whole) => degrees + whole).filter((d) => d >= least && d <= greatest)
      const direction = turn(degrees)
      expect([degrees, arc.holds(direction.c, direction.s)]).toEqual([degrees, inIt.length > 0])
      if (inIt.length === 0) continue
      const said = arc.degrees(direction)
      expect(inIt.some((d) => Math.abs(d - said) < 2e-9)).toBe(true)
    }
  })

  it('tells other directions in the turn nearest to its middle', () => {
    expect(new Arc(350, 370).degrees(turn(-170))).toBe(190)
    expect(new Arc(350, 370).degrees(turn(200))).toBe(200)
    expect(new Arc(-370, -350).degrees(turn(5))).toBe(-355)
    expect(new Arc(10, 20).degrees(turn(0))).toBe(0)
    // Never -0.
    expect(new Arc(-10, 10).degrees({ c: 1, s: -0 })).toBe(0)
    expect(nanometre(-0)).toBe(0)
    expect(nanometre(-1e-12)).toBe(0)
  })
})
