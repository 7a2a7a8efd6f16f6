import { InputError } from '@trainwright/measures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rows } from '../../../test-data/rows.js'
import { chasingDial, scratchPass } from './half-nuts.js'

describe('the chasing dial', () => {
  // Jones, Turning and Boring (1914).
  it.each(rows('threads/dial.csv'))('$lead on a leadscrew of $leadscrew: $answer', (row) => {
    const dial = { travel: row.travel, lines: Number(row.lines) }
    const answer = chasingDial({ leadscrew: row.leadscrew, lead: row.lead, dial })
    expect(answer).toEqual(row.answer === 'any' ? 'any' : { every: Number(row.answer) })
  })

  const dial = { travel: '4 in', lines: 8 }
  it('takes any line for an even number of threads, and one for quarters', () => {
    expect(chasingDial({ leadscrew: '6 tpi', lead: '10 tpi', dial })).toEqual({ every: 1 })
    expect(chasingDial({ leadscrew: '6 tpi', lead: '4 3/4 tpi', dial })).toEqual({ every: 8 })
  })

  it('keeps the nuts closed when no line comes round right', () => {
    expect(chasingDial({ leadscrew: '6 tpi', lead: '4 5/8 tpi', dial })).toBe('closed')
    expect(chasingDial({ leadscrew: '6 tpi', lead: '1 mm', dial })).toBe('closed')
    // Every third line would do, but not after the dial has come round.
    expect(chasingDial({ leadscrew: '8 tpi', lead: '3/2 in', dial })).toBe('closed')
  })

  it('goes by the lead that the train cuts: a little off is closed', () => {
    const wanted = { leadscrew: '1 mm', dial: { travel: '20 mm', lines: 4 } }
    expect(chasingDial({ ...wanted, lead: '1.25 mm' })).toEqual({ every: 1 })
    expect(chasingDial({ ...wanted, lead: '1.250375 mm' })).toBe('closed')
    expect(chasingDial({ ...wanted, lead: { n: '5', d: '4' } })).toEqual({ every: 1 })
    expect(chasingDial({ ...wanted, lead: { n: '12503', d: '10000' } })).toBe('closed')
    expect(chasingDial({ ...wanted, lead: '1.0003 mm' })).toBe('closed')
    expect(chasingDial({ ...wanted, lead: '0.5 mm' })).toBe('any')
    expect(chasingDial({ ...wanted, lead: '0.50015 mm' })).toBe('closed')
  })

  it('knows without a dial only any place or none', () => {
    expect(chasingDial({ leadscrew: '8 tpi', lead: '40 tpi' })).toBe('any')
    expect(chasingDial({ leadscrew: '8 tpi', lead: '20 tpi' })).toBe('closed')
  })

  it('gives the lines that a slow count finds', () => {
    const small = fc.integer({ min: 1, max: 12 })
    fc.assert(
      fc.property(small, small, small, fc.constantFrom(1, 2, 3, 4, 6, 8, 12), (screw, lead, turns, lines) => {
        // All in whole hundredths of a millimetre: nothing but integers.
        const [s, l, travel] = [screw * 25, lead * 10, screw * 25 * turns]
        const answer = chasingDial({
          leadscrew: `${s / 100}`,
          lead: `${l / 100}`,
          dial: { travel: `${travel / 100} mm`, lines },
        })
        // Marks, over many turns of the dial, where the carriage has gone whole leads and whole threads.
        const serve = (line: number) => (line * travel) % (lines * l) === 0 && (line * travel) % (lines * s) === 0
        const marks = Array.from({ length: 40 * lines }, (_, i) => i)
        if (answer === 'any') expect(s % l).toBe(0)
        else if (answer === 'closed') {
          const always = Array.from({ length: lines }, (_, i) => i + 1).filter((n) => lines % n === 0)
          for (const n of always) expect(marks.filter((m) => m % n === 0).every(serve)).toBe(false)
        } else {
          for (const m of marks) if (m % answer.every === 0) expect(serve(m)).toBe(true)
          for (let m = 1; m < answer.every; m++) expect(lines % m === 0 && serve(m)).toBe(false)
        }
      }),
    )
  })

  it('refuses what cannot be read', () => {
    expect(() => chasingDial({ leadscrew: '?', lead: '1', dial })).toThrow(InputError)
    expect(() => chasingDial({ leadscrew: '1', lead: { n: '1', d: '0' } })).toThrow(InputError)
    expect(() => chasingDial({ leadscrew: '1', lead: { n: '-1', d: '2' } })).toThrow(InputError)
    expect(() => chasingDial({ leadscrew: '1', lead: { n: '1001', d: '1' } })).toThrow(/0.001 mm to 1000 mm/)
    expect(() => chasingDial({ leadscrew: '1', lead: '1', dial: { travel: '4 in', lines: 0 } })).toThrow(/dial.lines/)
    expect(() => chasingDial({ leadscrew: '1', lead: '1', dial: {} as never })).toThrow(/dial.travel/)
  })
})

describe('the scratch pass', () => {
  it('spans one lead less than it has crests', () => {
    expect(scratchPass({ wanted: '26 tpi', cut: '26 tpi', crests: 27 })).toEqual({
      spaces: 26,
      wanted: 25.4,
      cut: 25.4,
      difference: 0,
    })
  })
  it('shows what the train makes of it', () => {
    expect(scratchPass({ wanted: '0.7 mm', cut: '0.7014 mm', crests: 11 })).toEqual({
      spaces: 10,
      wanted: 7,
      cut: 7.014,
      difference: 0.014,
    })
    expect(scratchPass({ wanted: '1', cut: { n: '999', d: '1000' }, crests: 11 }).difference).toBe(-0.01)
  })
  it('needs two crests', () => {
    expect(() => scratchPass({ wanted: '1', cut: '1', crests: 1 })).toThrow(/whole number from 2/)
  })
})
