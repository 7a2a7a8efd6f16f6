import { rational } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import type { Lathe, Train } from '../contract.js'
import { findTrains } from '../index.js'
import { handOf, makeQuestion, settingsOf, toleranceOf } from './question.js'
import { shaftsOf } from './train.js'

const plain: Lathe = { leadscrew: { pitch: '2 mm' } }
const geared: Lathe = {
  leadscrew: { pitch: '2 mm' },
  drives: [{ ratio: 1 }, { ratio: '1/2', reverses: true, belt: 'plain' }],
  gearbox: [{ ratio: 2 }, { ratio: 1, reverses: true, belt: 'toothed' }, { ratio: '1/2', belt: 'plain' }],
}

describe('settings', () => {
  it('are every drive with every gearbox position', () => {
    const told = settingsOf(geared).map(({ drive, gearbox, ratio: { n, d }, reverses, plainBelt }) =>
      [drive, gearbox, `${n}/${d}`, reverses, plainBelt].join(' '),
    )
    expect(told).toEqual([
      '0 0 2/1 false false',
      '0 1 1/1 true false',
      '0 2 1/2 false true',
      '1 0 1/1 true true',
      '1 1 1/2 false true',
      '1 2 1/4 true true',
    ])
  })

  it('are one of ratio 1 where nothing is told', () => {
    expect(settingsOf(plain)).toEqual([{ drive: 0, gearbox: 0, ratio: rational(1), reverses: false, plainBelt: false }])
  })
})

describe('the hand', () => {
  it('turns over with each mesh, a reversing setting and a left-hand leadscrew', () => {
    const [forwards] = settingsOf(plain)
    const backwards = { ...forwards, reverses: true }
    expect([1, 2, 3, 4].map((meshes) => handOf(plain, forwards, meshes))).toEqual(['left', 'right', 'left', 'right'])
    expect([1, 2].map((meshes) => handOf(plain, backwards, meshes))).toEqual(['right', 'left'])
    const left: Lathe = { leadscrew: { pitch: '2 mm', hand: 'left' } }
    expect([1, 2].map((meshes) => handOf(left, forwards, meshes))).toEqual(['right', 'left'])
    const right: Lathe = { leadscrew: { pitch: '2 mm', hand: 'right' } }
    expect([1, 2].map((meshes) => handOf(right, forwards, meshes))).toEqual(['left', 'right'])
  })
})

describe('a question', () => {
  it('sees settings of one ratio as one, the lowest of each turning sense first', () => {
    const settings = ({ hand }: { hand?: 'left' | 'right' }, any = false) =>
      makeQuestion(geared, { pitch: '1 mm', ...(hand && { hand }) }, any).ratios.map(({ setting }) => setting)
    // By ratio 2, 1, 1/2, 1/4. An even number of meshes cuts right-hand where the setting does not reverse.
    expect(settings({})).toEqual([
      [0, -1],
      [-1, 1],
      [2, -1],
      [-1, 5],
    ])
    expect(settings({ hand: 'right' })).toEqual([
      [0, -1],
      [-1, 1],
      [2, -1],
      [-1, 5],
    ])
    expect(settings({ hand: 'left' })).toEqual([
      [-1, 0],
      [1, -1],
      [-1, 2],
      [5, -1],
    ])
    expect(settings({}, true)).toEqual([
      [0, 0],
      [1, 1],
      [2, 2],
      [5, 5],
    ])
  })

  it('tells leads for one turn of a train of ratio 1', () => {
    // 3 starts of 1.5 mm are 4.5 mm; the leadscrew of 2 mm moves 4, 2, 1 and 1/2 mm.
    const { ratios, wantedLead, approximate } = makeQuestion(geared, { pitch: '1.5 mm', starts: 3 })
    expect(wantedLead).toEqual(rational(9, 2))
    expect(approximate).toBe(false)
    expect(ratios.map(({ n, d, leadN, leadD }) => `${n}/${d} ${leadN}/${leadD}`)).toEqual([
      '8/9 4/1',
      '4/9 2/1',
      '2/9 1/1',
      '1/9 1/2',
    ])
    expect(ratios.map(({ value }) => value)).toEqual([8 / 9, 4 / 9, 2 / 9, 1 / 9])
  })

  it('is approximate where pi is in either pitch', () => {
    const pi = { leadscrew: { pitch: '1 module' } }
    expect(makeQuestion(pi, { pitch: '1 mm' }).approximate).toBe(true)
    expect(makeQuestion(plain, { pitch: '1 module' }).approximate).toBe(true)
  })

  it('takes its tolerance by millionths or by an error over a length, 500 ppm where none is told', () => {
    expect(toleranceOf({ pitch: '1' })).toEqual(rational(1, 2000))
    expect(toleranceOf({ pitch: '1', tolerance: { ppm: 12.5 } })).toEqual(rational(125, 10_000_000))
    expect(toleranceOf({ pitch: '1', tolerance: { error: '0.005 mm', over: '1 in' } })).toEqual(rational(5, 25_400))
  })
})

describe('a train as it is shown', () => {
  const trainOf = (lathe: Lathe, gears: number[], pitch: string, hand: 'left' | 'right' = 'right'): Train => {
    const box = gears.map((teeth) => ({ teeth }))
    const { trains, closest } = findTrains({ lathe, gears: box }, { pitch, hand, tolerance: { ppm: 50_000 } })
    return trains[0] ?? closest!
  }
  const cautions = (train: Train) => train.cautions.map(({ code }) => code)
  const cleared = { ...plain, shaftClearance: 3 }

  it('tells its error with its sign', () => {
    // 2 mm x 20/41 is 40/41 mm where 1 mm is wanted, and x 20/39 is 40/39.
    const short = trainOf(cleared, [20, 41, 30], '1 mm')
    expect(short).toMatchObject({ error: rational(-1, 41), lead: rational(40, 41), ratio: rational(20, 41) })
    expect(short.errorPpm).toBe(-1_000_000 / 41)
    expect(trainOf(cleared, [20, 39, 30], '1 mm')).toMatchObject({ error: rational(1, 39), errorPpm: 1_000_000 / 39 })
  })

  it('warns past three times: of the leadscrew by drive and train, of a stage by itself', () => {
    expect(cautions(trainOf(cleared, [60, 20, 30], '6 mm'))).toEqual([])
    expect(cautions(trainOf(cleared, [61, 20, 30], '6.1 mm'))).toEqual(['fast-leadscrew', 'steep-step-up'])
    const fast = { ...cleared, drives: [{ ratio: 2 }] }
    expect(cautions(trainOf(fast, [60, 40, 30], '6 mm'))).toEqual([])
    expect(cautions(trainOf(fast, [61, 40, 30], '6.1 mm'))).toEqual(['fast-leadscrew'])
    expect(cautions(trainOf({ ...cleared, drives: [{ ratio: '1/2' }] }, [61, 20, 30], '3.05 mm'))).toEqual([
      'steep-step-up',
    ])
  })

  it('does not warn of three times exactly, where doubles make more of it', () => {
    // 7/3 x 27/21 is 3; in doubles it is 3.0000000000000004.
    const thrice = { ...cleared, drives: [{ ratio: '7/3' }] }
    expect(cautions(trainOf(thrice, [27, 21, 30], '6 mm'))).toEqual([])
    expect(cautions(trainOf({ ...cleared, drives: [{ ratio: '7.0000001/3' }] }, [27, 21, 30], '6 mm'))).toEqual([
      'fast-leadscrew',
    ])
  })

  it('warns of one steep stage among others', () => {
    const fixedGears = { input: { teeth: 61 }, output: { teeth: 60 } }
    expect(cautions(trainOf({ ...cleared, fixedGears }, [61, 20, 30, 60], '3.05 mm'))).toEqual(['steep-step-up'])
  })

  it('warns of a plain belt, and of a clearance that is assumed where pairs stand', () => {
    expect(cautions(trainOf({ ...cleared, gearbox: [{ ratio: 1, belt: 'plain' }] }, [20, 40, 30], '1 mm'))).toEqual([
      'plain-belt',
    ])
    expect(cautions(trainOf({ ...cleared, drives: [{ ratio: 1, belt: 'toothed' }] }, [20, 40, 30], '1 mm'))).toEqual([])
    expect(cautions(trainOf(plain, [20, 40, 30], '1 mm'))).toEqual([])
    // 20 x 30 : 60 x 80 is 1/8 only.
    expect(cautions(trainOf(plain, [20, 30, 60, 80], '0.25 mm'))).toEqual(['clearance-assumed'])
    expect(cautions(trainOf(cleared, [20, 30, 60, 80], '0.25 mm'))).toEqual([])
    // On a banjo the input gear clears the output shaft, and the other way round; two that mesh directly have no other.
    const banjo = { swing: [-90, 90] as [number, number], slots: [{ from: 20, to: 90 }] }
    const onBanjo = { ...plain, banjo, centreDistance: 60 }
    expect(cautions(trainOf(onBanjo, [40, 30, 60], '1 mm'))).toEqual(['clearance-assumed'])
    expect(cautions(trainOf({ ...onBanjo, shaftClearance: 5 }, [40, 30, 60], '1 mm'))).toEqual([])
    const meeting = { ...onBanjo, studs: 0, centreDistance: 45, leadscrew: { pitch: '1 mm', hand: 'left' as const } }
    expect(cautions(trainOf(meeting, [30, 60], '0.5 mm'))).toEqual([])
  })

  it('puts its stages into planes in turn, idlers with their stage', () => {
    const gear = (teeth: number) => ({ teeth, module: 1, pressureAngle: 20 })
    const stages = [
      { driver: gear(20), idlers: [], driven: gear(21) },
      { driver: gear(30), idlers: [gear(31), gear(32)], driven: gear(33) },
      { driver: gear(40), idlers: [], driven: gear(41) },
    ]
    const told = (planes: number) =>
      shaftsOf(stages, planes).map((s) => `${s.shaft} ${s.gears.map((g) => `${g.gear.teeth}/${g.plane}`).join(' ')}`)
    const two = ['input 20/1', 'stud 21/1 30/2', 'stud 31/2', 'stud 32/2', 'stud 33/2 40/1', 'output 41/1']
    expect(told(2)).toEqual(two)
    expect(told(3)).toEqual([...two.slice(0, 4), 'stud 33/2 40/3', 'output 41/3'])
  })
})
