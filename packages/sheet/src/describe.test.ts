import { describe, expect, it } from 'vitest'
import { describeTrain } from './describe.js'
import { banjoExample } from './testing/banjo-example.js'
import { trainOf } from './testing/train-of.js'

describe('describeTrain', () => {
  it('tells a compound train as a person would set it up', () => {
    const train = trainOf(
      [
        [40, 60],
        [30, 75],
      ],
      {
        hand: 'left',
        lead: { n: '127', d: '130' },
        error: { n: '1', d: '8000' },
        cautions: [{ code: 'plain-belt', message: 'a plain belt slips.' }],
      },
    )
    const lathe = { leadscrew: { pitch: '8 tpi' }, drives: [{ name: 'tumbler reverse', ratio: 1, reverses: true }] }
    expect(describeTrain(lathe, train)).toEqual([
      'Set tumbler reverse.',
      'A, input shaft: 40 teeth in plane 1, drives B; turns anticlockwise.',
      'B, stud 1: 60 teeth in plane 1, driven by A, keyed to 30 teeth in plane 2, drives C; turns clockwise.',
      'C, output shaft: 75 teeth in plane 2, driven by B; turns anticlockwise.',
      'Between centres: A to B 50.00 mm, B to C 52.50 mm.',
      'Cuts a left-hand thread, lead ≈ 0.976923 mm (26 tpi), +125 ppm: 3.13 µm long over 25 mm.',
      'Mind: a plain belt slips.',
    ])
  })

  it('calls an idler one', () => {
    const lines = describeTrain({ leadscrew: { pitch: '3 mm' } }, trainOf([[20, 45, 80]]))
    expect(lines[1]).toBe('B, stud 1: 45 teeth in plane 1 as an idler, driven by A, drives C; turns anticlockwise.')
  })

  it('gives the settings on a known banjo', () => {
    const lines = describeTrain(banjoExample.lathe, banjoExample.train)
    expect(lines[1]).toContain('in slot 1 at 52.50 mm along')
    expect(lines).toContain('Banjo swung to -27.8°.')
    expect(lines).toContain('Least clearance 3.21 mm: the 60 on stud 1 and the output shaft.')
  })
})
