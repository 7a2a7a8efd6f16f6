import { parsePitch, rational } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { box, problemsOf } from '../../../bench/plain/in-brief.js'
import type { Lathe, SetUp } from './contract.js'
import { layOut, leadOf } from './index.js'
import type { WorkshopError } from './workshop-error.js'

const plain: Lathe = { leadscrew: { pitch: '1 mm' } }
const banjo: Lathe = { ...plain, centreDistance: 50, banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }] } }
const simple = (...teeth: number[]): SetUp => {
  const gears = box(...teeth)
  return { stages: [{ driver: gears[0], idlers: gears.slice(1, -1), driven: gears[gears.length - 1] }] }
}

describe('leadOf', () => {
  it('multiplies leadscrew, drive, stages and gearbox', () => {
    const lathe: Lathe = {
      leadscrew: { pitch: '8 tpi' },
      drives: [{ ratio: 1 }, { ratio: '1/2' }],
      gearbox: [{ ratio: 1 }, { ratio: '2' }, { ratio: '127/120' }],
    }
    // 25.4/8 x 1/2 x 20/40 x 30/45 x 127/120
    const stages = [
      { driver: { teeth: 20 }, driven: { teeth: 40 } },
      { driver: { teeth: 30 }, driven: { teeth: 45 } },
    ]
    expect(leadOf(lathe, { drive: 1, gearbox: 2, stages })).toEqual({
      lead: rational(254n * 20n * 30n * 127n, 80n * 2n * 40n * 45n * 120n),
      hand: 'right',
      approximate: false,
    })
    expect(leadOf(lathe, { stages }).lead).toEqual(rational(254n * 20n * 30n, 80n * 40n * 45n))
  })

  it('turns the hand with each mesh, each reversing drive and the leadscrew', () => {
    const hand = (lathe: Partial<Lathe>, setUp: SetUp) => leadOf({ ...plain, ...lathe }, setUp).hand
    const reversing = [{ ratio: 1, reverses: true }]
    expect(hand({}, simple(20, 40))).toBe('left')
    expect(hand({}, simple(20, 30, 40))).toBe('right')
    expect(hand({ drives: reversing }, simple(20, 40))).toBe('right')
    expect(hand({ drives: reversing, gearbox: reversing }, simple(20, 40))).toBe('left')
    expect(hand({ leadscrew: { pitch: '1 mm', hand: 'left' } }, simple(20, 40))).toBe('right')
  })

  it('says when pi was involved', () => {
    const setUp = simple(20, 40)
    expect(leadOf({ leadscrew: { pitch: '1 module' } }, setUp).approximate).toBe(true)
    expect(leadOf({ leadscrew: { pitch: '20 dp' } }, setUp).lead).toEqual(
      rational(BigInt(parsePitch('20 dp').mm.n), 2n * BigInt(parsePitch('20 dp').mm.d)),
    )
  })
})

describe('set-ups that are refused', () => {
  const gear = { teeth: 20 }
  const stage = { driver: gear, driven: gear }
  it.each<[what: string, setUp: unknown, problems: string[]]>([
    ['nothing', undefined, ['setUp object']],
    ['no stages', {}, ['setUp.stages list']],
    ['an empty train', { stages: [] }, ['setUp.stages too-few']],
    ['five stages', { stages: Array(5).fill(stage) }, ['setUp.stages too-long']],
    ['no driven gear', { stages: [{ driver: gear }] }, ['setUp.stages[0].driven object']],
    ['a gear by number', { stages: [{ driver: 20, driven: gear }] }, ['setUp.stages[0].driver object']],
    ['five teeth', { stages: [{ driver: { teeth: 5 }, driven: gear }] }, ['setUp.stages[0].driver.teeth whole']],
    [
      'module 0',
      { stages: [{ driver: { teeth: 20, module: 0 }, driven: gear }] },
      ['setUp.stages[0].driver.module positive'],
    ],
    [
      'two modules in mesh',
      { stages: [{ driver: { teeth: 20, module: 2 }, driven: gear }] },
      ['setUp.stages[0] no-mesh'],
    ],
    [
      'an idler of another module',
      { stages: [{ ...stage, idlers: [{ teeth: 30, module: 2 }] }] },
      ['setUp.stages[0] no-mesh', 'setUp.stages[0] no-mesh'],
    ],
    ['idlers that are no list', { stages: [{ ...stage, idlers: 30 }] }, ['setUp.stages[0].idlers list']],
    ['nine idlers', { stages: [{ ...stage, idlers: Array(9).fill(gear) }] }, ['setUp.stages[0].idlers too-long']],
    [
      'ten studs in all',
      {
        stages: [
          { ...stage, idlers: Array(5).fill(gear) },
          { ...stage, idlers: Array(4).fill(gear) },
        ],
      },
      ['setUp.stages too-many-studs'],
    ],
    ['a drive that is not there', { drive: 1, stages: [stage] }, ['setUp no-setting']],
    ['a drive below 0', { drive: -1, stages: [stage] }, ['setUp.drive whole']],
    ['half a gearbox position', { gearbox: 0.5, stages: [stage] }, ['setUp.gearbox whole']],
  ])('%s', (_, setUp, problems) => {
    expect(problemsOf(() => leadOf(plain, setUp as SetUp))).toEqual(problems)
    expect(problemsOf(() => layOut(banjo, setUp as SetUp))).toEqual(problems)
  })

  it('with the setting, however wrong the gears are, and the banjo where it is needed', () => {
    const wrong = { drive: 7, stages: [{ driver: { teeth: 20, module: 2 }, driven: { teeth: 5 } }] }
    const own = ['setUp.stages[0].driven.teeth whole', 'setUp no-setting']
    expect(problemsOf(() => leadOf(plain, wrong))).toEqual(own)
    expect(problemsOf(() => layOut(plain, wrong))).toEqual(['lathe.banjo needs-banjo', ...own])
    expect(problemsOf(() => layOut({ leadscrew: { pitch: 'x' } }, simple(20, 40)))).toEqual([
      'lathe.leadscrew.pitch not-a-number',
      'lathe.banjo needs-banjo',
    ])
    expect(problemsOf(() => layOut(null as never, simple(20, 40)))).toEqual(['lathe object'])
  })

  it('with the problems of the lathe before their own', () => {
    const lathe = { leadscrew: { pitch: '' }, studs: 20 } as Lathe
    expect(problemsOf(() => leadOf(lathe, { stages: [{ driver: gear, driven: { teeth: 2 } }] }))).toEqual([
      'lathe.leadscrew.pitch missing',
      'lathe.studs whole',
      'setUp.stages[0].driven.teeth whole',
    ])
    expect(problemsOf(() => leadOf(null as never, { stages: [stage] }))).toEqual(['lathe object'])
  })

  it('with the two gears that cannot mesh named', () => {
    const told = (stages: SetUp['stages']) => {
      try {
        leadOf(plain, { stages })
      } catch (error) {
        return (error as WorkshopError).problems.map(({ path, code, message }) => [path, code, message])
      }
      return []
    }
    const angled = { teeth: 31, pressureAngle: 14.5 }
    const inch = (dp: number) => ({ teeth: dp, dp })
    expect(told([stage, { driver: gear, idlers: [{ teeth: 30, pressureAngle: 20 }], driven: angled }])).toEqual([
      ['setUp.stages[1]', 'no-mesh', expect.stringContaining('30 and 31')],
    ])
    expect(told([{ driver: inch(20), driven: inch(21) }])).toEqual([
      ['setUp.stages[0]', 'no-mesh', expect.stringContaining('20 and 21')],
    ])
    // Pairs on one stud need not mesh, and two of another angle mesh with each other.
    expect(told([stage, { driver: angled, idlers: [angled], driven: angled }])).toEqual([])
  })

  it('with the number of studs or settings there are', () => {
    const told = (setUp: SetUp) => {
      try {
        leadOf({ ...plain, drives: [{ ratio: 1 }, { ratio: 2 }], gearbox: Array(3).fill({ ratio: 1 }) }, setUp)
      } catch (error) {
        return (error as WorkshopError).problems.map(({ message }) => message).join()
      }
      return 'taken'
    }
    const two = (a: number, b: number) => ({ stages: [a, b].map((n) => ({ ...stage, idlers: Array(n).fill(gear) })) })
    expect(told(two(4, 4))).toContain('9 studs')
    expect(told(two(4, 3))).toBe('taken')
    expect(told({ stages: [stage], drive: 2 })).toContain('has 6')
    expect(told({ stages: [stage], drive: 1, gearbox: 2 })).toBe('taken')
  })

  it('with as many studs as there can be, taken', () => {
    const most = { stages: [{ ...stage, idlers: Array(8).fill(gear) }] }
    expect(leadOf(plain, most).hand).toBe('left')
    expect(layOut({ ...banjo, studs: 8 }, most).ok).toBe(false)
  })

  it('to lay out without a banjo', () => {
    expect(problemsOf(() => layOut(plain, simple(20, 40)))).toEqual(['lathe.banjo needs-banjo'])
    expect(problemsOf(() => layOut({ ...plain, centreDistance: 50 }, simple(20, 40)))).toEqual([
      'lathe.banjo needs-banjo',
    ])
  })
})

describe('the lead of several stages', () => {
  it('turns its hand with the idlers of all', () => {
    const stages = [
      { driver: { teeth: 20 }, idlers: [{ teeth: 30 }], driven: { teeth: 40 } },
      { driver: { teeth: 30 }, idlers: [], driven: { teeth: 60 } },
    ]
    expect(leadOf(plain, { stages })).toEqual({ lead: rational(1, 4), hand: 'left', approximate: false })
    expect(leadOf(plain, { stages: [stages[1], stages[1]] }).hand).toBe('right')
  })
})

describe('gears out of an answer', () => {
  it('mesh by diametral pitch as by the module shown beside it', () => {
    const driver = { teeth: 20, module: 1.27, dp: 20, pressureAngle: 20 }
    const driven = { teeth: 40, module: 1.27, pressureAngle: 20 }
    expect(leadOf(plain, { stages: [{ driver, driven, idlers: [] }] }).lead).toEqual(rational(1, 2))
    // 25.4/21 is no double: shown, it is the nearest one.
    const odd = { teeth: 20, module: 25.4 / 21, dp: 21, pressureAngle: 20 }
    expect(leadOf(plain, { stages: [{ driver: odd, driven: odd, idlers: [] }] }).lead).toEqual(rational(1))
  })
})
