import type { Problem } from '@trainwright/measures'
import { findTrains, type GearStock, leadOf } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { ask } from './ask.js'
import { gearsLine, mountedGears, readSetUp } from './read-set-up.js'
import { blankMounted } from './typed.js'

const of = (module: number, ...counts: number[]): GearStock[] =>
  counts.map((teeth) => ({ teeth, module, pressureAngle: 20 }))
const kinds = [of(1, 20, 24, 48, 72, 80), of(1.5, 20, 40, 60)]
const inch: GearStock[] = [{ teeth: 30, dp: 20, pressureAngle: 14.5 }]

function read(gears: string, box: (GearStock[] | null)[] = kinds) {
  const problems: Problem[] = []
  return { setUp: readSetUp({ ...blankMounted(), gears }, box, problems), problems }
}
const teeth = (gears: string) =>
  read(gears).setUp?.stages.map(({ driver, idlers = [], driven }) =>
    [driver, ...idlers, driven].map((gear) => gear.teeth),
  )

describe('readSetUp', () => {
  it.each<[string, number[][] | undefined]>([
    [
      '24:72 48:80',
      [
        [24, 72],
        [48, 80],
      ],
    ],
    [
      '20-20-48, 32/80',
      [
        [20, 20, 48],
        [32, 80],
      ],
    ],
    [
      '24 → 72, 48 → (20) → 80',
      [
        [24, 72],
        [48, 20, 80],
      ],
    ],
    [
      ' 24 : 72;48 - 80 ',
      [
        [24, 72],
        [48, 80],
      ],
    ],
    ['24->72', [[24, 72]]],
    ['', undefined],
  ])('reads %j', (line, stages) => {
    expect(teeth(line)).toEqual(stages)
    expect(read(line).problems).toEqual([])
  })

  it.each(['24', '24:', 'a:b', '24:72 48', '24:72m', '24:72x2', '48(20)→80'])('says what is wrong with %j', (line) => {
    expect(read(line).setUp).toBeNull()
    expect(read(line).problems.map(({ path }) => path)).toEqual(['mounted.gears'])
  })

  it('takes the size of the kind that has the gears, or as written', () => {
    const sizes = (line: string) => read(line).setUp!.stages.map(({ driver }) => driver.module)
    expect(sizes('24:72 40:60 20:99 20:40m1.5')).toEqual([1, 1.5, 1, 1.5])
    expect(read('30:30', [null, inch]).setUp!.stages[0]!.driven).toEqual({ teeth: 30, dp: 20, pressureAngle: 14.5 })
    expect(read('30:60dp16', [inch]).setUp!.stages[0]!.driven).toEqual({ teeth: 60, dp: 16 })
  })

  it('names to the search what it knows, and leaves out slips of the keyboard', () => {
    expect(mountedGears(read('24-20:72').setUp)).toEqual(of(1, 24, 20, 72))
    expect(mountedGears(read('2:99999', [inch]).setUp)).toEqual([])
    expect(mountedGears(read('30:40', [inch]).setUp)[0]!.module).toBeCloseTo(1.27)
    expect(mountedGears(null)).toEqual([])
  })

  it('reads back every train that the demo finds, to the lead that it cuts', () => {
    for (const thread of demo().threads.keys()) {
      const { workshop, wanted } = ask({ ...demo(), thread }).question
      for (const train of findTrains(workshop, wanted).trains) {
        const { setUp } = read(gearsLine(train), [workshop.gears])
        expect(leadOf(workshop.lathe, setUp!).lead).toEqual(train.lead)
      }
    }
  })
})

describe('the question with gears on the lathe', () => {
  const asked = (gears: string) => {
    const { workshop, ...typed } = demo()
    return ask({ ...typed, workshop: { ...workshop, mounted: { ...blankMounted(), gears } } }).question.options
  }

  it('puts fewer changes first', () => {
    expect(asked('32:80').mounted!.map((gear) => gear.teeth)).toEqual([32, 80])
    const { workshop, wanted } = ask(demo()).question
    const first = (gears: string) => findTrains(workshop, wanted, asked(gears)).trains[0]!
    expect(gearsLine(first(''))).toBe('24:72 48:80')
    expect(gearsLine(first('32:72 36:80'))).toBe('32:72 36:80')
  })

  it('is asked all the same while the gears cannot be read', () => {
    expect(asked('32:')).not.toHaveProperty('mounted')
  })
})
