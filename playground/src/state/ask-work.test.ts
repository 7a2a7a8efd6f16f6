import { setUpSheet, type ThreadWork } from '@trainwright/sheet'
import { findTrains } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { ask } from './ask.js'
import { readLatheWork, readMeasured, readWires, readWork, workProblems } from './ask-work.js'
import { blankWork, type TypedWork, workFrom } from './typed-work.js'

const read = (work: Partial<TypedWork>) => {
  const problems: { path: string }[] = []
  return { work: readWork({ ...blankWork(), ...work }, problems as never), paths: problems.map(({ path }) => path) }
}
const { lathe } = demo().workshop

describe('readWork', () => {
  it.each<ThreadWork>([
    { form: 'ba', major: 3.6, cut: 'nut', class: 'normal', engagement: 6, mate: { part: true, tap: { flutes: 3 } } },
    { form: { angle: 50, crest: 0.1, root: 0 }, effective: 9, cut: 'screw', allowance: 0.05, compound: 24, groove: 2 },
    {
      form: 'metric',
      major: 6,
      cut: 'screw',
      crest: 'sharp',
      nose: { radius: 0.1 },
      passes: 9,
      springPasses: 0,
      tool: 1,
    },
    { form: 'metric', major: 6, cut: 'screw', nose: { flat: 0 }, firstCut: 0.2 },
  ])('reads back the very work that was put in', (work) => {
    expect(readWork(workFrom(work), [])).toEqual(work)
  })

  it('says nothing of a thread whose form is not given', () => {
    expect(read({ diameter: '6' })).toEqual({ work: null, paths: [] })
  })

  it.each<[string, Partial<TypedWork>, Partial<ThreadWork>]>([
    ['a diameter in inches', { form: 'whitworth', diameter: '1/4 in' }, { form: 'whitworth', major: 6.35 }],
    ['an effective diameter', { form: 'ba', by: 'effective', diameter: '3.2' }, { effective: 3.2 }],
    ['a class', { form: 'metric', limits: 'class', class: ' 6g ', allowance: '1' }, { class: '6g' }],
    ['an allowance', { form: 'metric', limits: 'allowance', class: '6g', allowance: '2 thou' }, { allowance: 0.0508 }],
    ['an angle of 0', { form: 'metric', compound: '0' }, { compound: 0 }],
    ['a point', { form: 'metric', nose: { shape: 'flat', size: '0' } }, { nose: { flat: 0 } }],
    ['a round nose', { form: 'metric', nose: { shape: 'radius', size: '0.1' } }, { nose: { radius: 0.1 } }],
    [
      'an own form',
      { form: 'own', own: { angle: '50', crest: '0.1', root: '0' } },
      { form: { angle: 50, crest: 0.1, root: 0 } },
    ],
    [
      'passes by number',
      { form: 'metric', passes: { by: 'count', count: '9', firstCut: '0.2', spring: '' } },
      { passes: 9 },
    ],
    [
      'passes by the first cut',
      { form: 'metric', passes: { by: 'first cut', count: '9', firstCut: '0.2', spring: '0' } },
      { firstCut: 0.2, springPasses: 0 },
    ],
    [
      'the mating part',
      { form: 'metric', mate: { part: true, tap: true, flutes: '3' } },
      { mate: { part: true, tap: { flutes: 3 } } },
    ],
  ])('reads %s', (_, typed, work) => {
    expect(read(typed)).toMatchObject({ work, paths: [] })
  })

  it('gives one of class and allowance, whatever stands in the other', () => {
    const { work } = read({ form: 'metric', limits: 'none', class: '6g', allowance: '1' })
    expect(work).not.toHaveProperty('class')
    expect(work).not.toHaveProperty('allowance')
  })

  it('names the fields that cannot be read', () => {
    const { paths } = read({ form: 'metric', diameter: 'x', engagement: 'y', groove: 'z', tool: '?' })
    expect(paths).toEqual(['work.diameter', 'work.engagement', 'work.groove', 'work.tool'])
  })

  it('leaves a sheet to be made of every thread of the demo', () => {
    const typed = demo()
    for (const thread of typed.threads.keys()) {
      const { question } = ask({ ...typed, thread })
      const { workshop, wanted, options, work } = question
      const { closest } = findTrains(workshop, wanted, options)
      expect(setUpSheet(workshop, wanted, closest!, work).cutting).not.toBeNull()
    }
  })
})

describe('what of the lathe only the sheet wants', () => {
  it('is read as the workshop has it', () => {
    expect(readLatheWork(lathe, [])).toEqual({
      halfNuts: true,
      screwedNose: true,
      dial: { travel: '4 in', lines: 8 },
      speeds: [45, 80, 150, 260, 450, 800],
    })
  })

  it.each([
    ['lathe.dial.lines', { dial: { travel: '4 in', lines: '' } }],
    ['lathe.dial.lines', { dial: { travel: '4 in', lines: '1.5' } }],
    ['lathe.dial.travel', { dial: { travel: '', lines: '8' } }],
    ['lathe.speeds', { speeds: '45 fast' }],
    ['lathe.speeds', { speeds: '-45' }],
  ])('hinders no train when %s cannot be read', (path, change) => {
    const typed = demo()
    const broken = { ...typed, workshop: { ...typed.workshop, lathe: { ...lathe, ...change } } }
    expect(workProblems(broken).map((one) => one.path)).toEqual([path])
    expect(ask(broken).problems).toEqual([])
    const { workshop, wanted, options } = ask(broken).question
    expect(findTrains(workshop, wanted, options).trains.length).toBeGreaterThan(0)
  })

  it.each([
    ['0.3 0.45, 1', [0.3, 0.45, 1]],
    ['0.018 in; 0.5 mm 1/8 in', [0.4572, 0.5, 3.175]],
    ['', []],
  ])('reads wires from %s', (text, wires) => {
    expect(readWires(text, [])).toEqual(wires)
  })

  it('says once that a wire cannot be read', () => {
    const problems: never[] = []
    expect(readWires('0.3 thick thin', problems)).toEqual([0.3])
    expect(problems).toHaveLength(1)
  })
})

describe('readMeasured', () => {
  const measured = (change: Partial<TypedWork['measured']>) => ({
    ...blankWork(),
    measured: { ...blankWork().measured, ...change },
  })

  it('has nothing to recognise while nothing is measured', () => {
    expect(readMeasured(blankWork(), [])).toBeNull()
  })

  it('reads each figure with its doubt; a blank doubt is none', () => {
    const typed = measured({
      major: { value: '0.25 in', doubt: '1 thou' },
      pitch: { value: '26 tpi', doubt: '' },
      angle: { value: '55', doubt: '2' },
    })
    expect(readMeasured(typed, [])).toEqual({
      major: { value: 6.35, doubt: 0.0254 },
      pitch: { value: '26 tpi', doubt: 0 },
      angle: { value: 55, doubt: 2 },
    })
  })

  it('names what cannot be read', () => {
    const problems: { path: string }[] = []
    readMeasured(
      measured({ major: { value: 'thick', doubt: '0' }, effective: { value: '5', doubt: 'some' } }),
      problems as never,
    )
    expect(problems.map(({ path }) => path)).toEqual(['measured.major.value', 'measured.effective.doubt'])
  })
})
