import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { directionOfTravel, runOutGroove, threadingSpeeds } from './run-out.js'

describe('the run-out groove', () => {
  it('is as wide as the tool and what the carriage travels before it is withdrawn', () => {
    // 1.5 mm lead at 120 rev/min is 3 mm a second.
    expect(runOutGroove({ lead: '1.5 mm', speed: 120, tool: 1, reaction: 1 })).toEqual({ travel: 3, width: 4 })
    expect(runOutGroove({ lead: '1.5 mm', speed: 120, tool: 1 })).toEqual({ travel: 1.5, width: 2.5 })
  })

  it('allows the speed at which that travel fits', () => {
    const q = { lead: '1.5 mm', tool: 1, reaction: 1, groove: 4 }
    expect(threadingSpeeds({ ...q, speeds: [200, 60, 120, 400, 90] })).toEqual({ limit: 120, serving: [120, 90, 60] })
    expect(threadingSpeeds(q)).toEqual({ limit: 120, serving: [] })
    expect(threadingSpeeds({ ...q, lead: { n: '3', d: '1' } }).limit).toBe(60)
  })

  it('is undone by its own speed', () => {
    const n = fc.integer({ min: 1, max: 200 })
    fc.assert(
      fc.property(n, n, n, (lead, speed, tool) => {
        const q = { lead: `${lead / 20} mm`, tool: tool / 50 }
        const { width } = runOutGroove({ ...q, speed })
        if (width - q.tool < 0.001) return
        expect(threadingSpeeds({ ...q, groove: width }).limit).toBeCloseTo(speed, 3)
      }),
    )
  })

  it.each([
    () => threadingSpeeds({ lead: '1', tool: 2, groove: 2 }),
    () => threadingSpeeds({ lead: '1', tool: 1, groove: 2, speeds: [60, 0] }),
    () => threadingSpeeds({ lead: '1', tool: 1, groove: 2, speeds: 60 as never }),
    () => runOutGroove({ lead: '1', tool: -1, speed: 60 }),
    () => runOutGroove({ lead: '1', tool: 1, speed: 0 }),
    () => runOutGroove({ lead: '1', tool: 1, speed: 60, reaction: 0 }),
    () => runOutGroove({ lead: '', tool: 1, speed: 60 }),
  ])('refuses what means nothing', (ask) => {
    expect(ask).toThrow(InputError)
  })
})

describe('the direction of travel', () => {
  it.each([
    ['right', undefined, 'headstock'],
    ['right', 'forward', 'headstock'],
    ['left', 'forward', 'tailstock'],
    ['left', undefined, 'tailstock'],
    ['right', 'reverse', 'tailstock'],
    ['left', 'reverse', 'headstock'],
  ] as const)('of a %s-hand thread with the spindle %s is towards the %s', (hand, spindle, towards) => {
    expect(directionOfTravel(spindle ? { hand, spindle } : { hand })).toBe(towards)
  })
  it('wants a hand', () => {
    expect(() => directionOfTravel({} as never)).toThrow(/one of right, left/)
    expect(() => directionOfTravel({ hand: 'right', spindle: 'back' as never })).toThrow(/one of forward, reverse/)
  })
})
