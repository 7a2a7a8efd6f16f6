import type { Problem } from '@trainwright/measures'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { placeProblems } from './problems.js'
import { blankKind } from './typed.js'

const typed = demo()
const two = {
  ...typed,
  workshop: {
    ...typed.workshop,
    kinds: [
      { ...blankKind(), line: '20 24 30' },
      { ...blankKind(), line: '40 50' },
    ],
  },
}
const problem = (path: string, message = path): Problem => ({ path, code: 'x', message })

describe('placeProblems', () => {
  it.each([
    ['wanted.pitch', 'wanted.pitch'],
    ['wanted.tolerance.ppm', 'wanted.tolerance.ppm'],
    ['wanted.tolerance.over', 'wanted.tolerance.over'],
    ['wanted.tolerance', 'wanted.tolerance'],
    ['lathe.leadscrew.pitch', 'lathe.leadscrew.pitch'],
    ['lathe.drives[2].ratio', 'lathe.drives[2].ratio'],
    ['lathe.drives', 'lathe.drives'],
    ['lathe.gearbox[0].belt', 'lathe.gearbox[0].ratio'],
    ['lathe.fixedGears.output.teeth', 'lathe.fixedGears.output'],
    ['lathe.room.input', 'lathe.room.input'],
    ['gears', 'kinds[0].line'],
    ['gears[1].teeth', 'kinds[0].line'],
    ['gears[3].module', 'kinds[1].size'],
    ['gears[4].pressureAngle', 'kinds[1].angle'],
    ['gears[4].shafts', 'kinds[1].shafts'],
    ['kinds[1].line', 'kinds[1].line'],
    ['lathe.banjo.slots[1]', 'lathe.banjo.slots[1].from'],
    ['lathe.banjo.slots[0].near', 'lathe.banjo.slots[0].near'],
    ['lathe.banjo.stops[1].toStud', 'lathe.banjo.stops[1].toStud'],
    ['lathe.banjo.swing', 'lathe.banjo.swing[0]'],
    ['lathe.banjo.swing[1]', 'lathe.banjo.swing[1]'],
    ['lathe.banjo.keepOut[2].radius', 'lathe.banjo.keepOut[2].radius'],
    ['lathe.banjo.collars', 'lathe.banjo.collars'],
    ['lathe.banjo.slots', 'lathe.banjo'],
    ['mounted.gears', 'mounted.gears'],
    ['mounted.drive', 'mounted.drive'],
    ['lathe.halfNuts', 'lathe.halfNuts'],
    ['', ''],
  ])('puts %s beside %s', (path, field) => {
    expect([...placeProblems([problem(path)], two).keys()]).toEqual([field])
  })

  it('says once what is wrong with every gear of a kind', () => {
    const placed = placeProblems([problem('gears[3].module', 'same'), problem('gears[4].module', 'same')], two)
    expect(placed.get('kinds[1].size')).toHaveLength(1)
  })
})
