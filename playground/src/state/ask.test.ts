import { checkWorkshop, type ThreadWanted, type Workshop } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { ask } from './ask.js'
import type { Typed } from './typed.js'
import { threadFrom, workshopFrom } from './typed-from.js'

const everything: Workshop = {
  name: 'All fields',
  lathe: {
    leadscrew: { pitch: '3 mm', hand: 'left' },
    drives: [{ name: 'tumbler', ratio: '1/2', reverses: true, belt: 'plain' }, { ratio: '1' }],
    gearbox: [{ name: 'B', ratio: '0.5', belt: 'toothed' }],
    studs: 3,
    planes: 3,
    shaftClearance: 0,
    room: { input: 30, output: 45.5 },
    centreDistance: 120.25,
    fixedGears: { input: { teeth: 40, module: 1.5 }, output: { teeth: 60 } },
    halfNuts: true,
    dial: { travel: '4 in', lines: 8 },
    speeds: [45, 90],
  },
  gears: [
    { teeth: 20, count: 2, module: 1.5, pressureAngle: 20 },
    { teeth: 40, module: 1.5, pressureAngle: 20 },
    { teeth: 60, dp: 20, pressureAngle: 14.5, shafts: ['stud', 'output'] },
  ],
  wires: [0.5],
  head: { worm: 40, plates: [[15, 16]] },
}
const withWorkshop = (workshop: Workshop): Typed => ({ ...demo(), workshop: workshopFrom(workshop) })

describe('ask', () => {
  it('asks for the very workshop that was put in', () => {
    expect(ask(withWorkshop(everything))).toMatchObject({ problems: [], question: { workshop: everything } })
  })

  it('asks questions about the demo that hold', () => {
    const { question, problems } = ask(demo())
    expect(problems).toEqual([])
    expect(checkWorkshop(question.workshop).ok).toBe(true)
    expect(question.workshop.lathe.dial).toEqual({ travel: '4 in', lines: 8 })
  })

  it.each<ThreadWanted>([
    { name: 'a', pitch: '26 tpi', starts: 2, hand: 'left', tolerance: { ppm: 100 } },
    { pitch: '0.5 module', starts: 1, hand: 'right', tolerance: { error: '0.01 mm', over: '1 in' } },
  ])('asks for the very thread that was put in', (thread) => {
    expect(ask({ ...demo(), threads: [threadFrom(thread)], thread: 0 }).question.wanted).toEqual(thread)
  })

  it('leaves out what is blank, so that defaults hold', () => {
    const typed = demo()
    const { lathe } = typed.workshop
    const blank = { ...lathe, studs: ' ', centreDistance: '', shaftClearance: '' }
    const { question } = ask({ ...typed, workshop: { ...typed.workshop, lathe: blank } })
    expect(question.workshop.lathe).not.toHaveProperty('studs')
    expect(question.workshop.lathe).not.toHaveProperty('centreDistance')
  })

  it('leaves a head out until it can be read: trains need none', () => {
    const typed = withWorkshop(everything)
    const making = { ...typed.workshop.making, plates: '15 x' }
    const { question, problems } = ask({ ...typed, workshop: { ...typed.workshop, making } })
    expect(question.workshop).not.toHaveProperty('head')
    expect(problems).toEqual([])
  })

  it('takes lengths in any unit', () => {
    const typed = demo()
    const lathe = { ...typed.workshop.lathe, centreDistance: '4 1/2 in' }
    expect(ask({ ...typed, workshop: { ...typed.workshop, lathe } }).question.workshop.lathe.centreDistance).toBe(114.3)
  })

  it('names what cannot even be asked', () => {
    const typed = demo()
    const lathe = { ...typed.workshop.lathe, centreDistance: 'far' }
    const kinds = [{ ...typed.workshop.kinds[0]!, line: '20 x' }]
    const { problems } = ask({ ...typed, workshop: { ...typed.workshop, lathe, kinds } })
    expect(problems.map((p) => p.path)).toEqual(['kinds[0].line', 'lathe.centreDistance'])
  })

  it('names the gear that a problem of a line is about', () => {
    const typed = demo()
    const kinds = [{ ...typed.workshop.kinds[0]!, line: '24, 3; 20x0  30 x 999 abc 36' }]
    expect(ask({ ...typed, workshop: { ...typed.workshop, kinds } }).problems.map(({ message }) => message)).toEqual([
      '“3”: the teeth must be a whole number, 6 to 2000.',
      '“20x0”: the number of them must be a whole number, 1 to 500.',
      '“30x999”: the number of them must be a whole number, 1 to 500.',
      '“abc” is no gear: write teeth, and x and a number for several, such as 20x2 24 30.',
    ])
  })

  it('asks for a pitch without a unit in the unit that it is read in', () => {
    const typed = demo()
    const lathe = { ...typed.workshop.lathe, leadscrew: { pitch: ' 6 ', hand: 'right' as const } }
    const threads = [{ ...typed.threads[0]!, pitch: '11.5' }]
    const { question } = ask({ ...typed, threads, workshop: { ...typed.workshop, lathe } })
    expect([question.wanted.pitch, question.workshop.lathe.leadscrew.pitch]).toEqual(['11.5 mm', '6 mm'])
  })

  it.each([
    ['60', []],
    ['61', ['wanted.starts: This must be a whole number, 1 to 60.']],
  ])('takes as many starts as a sheet can be made of: %s', (starts, problems) => {
    const typed = demo()
    const asked = ask({ ...typed, threads: [{ ...typed.threads[0]!, starts }] })
    expect(asked.problems.map(({ path, message }) => `${path}: ${message}`)).toEqual(problems)
  })

  it('says of a line that is no box only what is enough to see it', () => {
    const typed = demo()
    const kinds = [{ ...typed.workshop.kinds[0]!, line: 'y '.repeat(2000) }]
    expect(ask({ ...typed, workshop: { ...typed.workshop, kinds } }).problems).toHaveLength(5)
  })
})
