import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { Answers } from './answers.js'
import { Job } from './job.js'
import { difference } from './same.js'
import { blankKind } from './typed.js'

/** A job whose worker never answers, and how often it was asked. */
function openJob() {
  let asked = 0
  const never = () => {
    asked++
    return new Promise<never>(() => {})
  }
  const before = { ...demo(), thread: 1 }
  before.workshop.kinds.push(blankKind())
  return { before, job: new Job(before, new Answers({ findTrains: never, layOut: never })), asked: () => asked }
}

describe('the field of a path', () => {
  it.each<[string, string[]]>([
    ['wanted.pitch', ['threads', '1', 'pitch']],
    ['wanted.tolerance.ppm', ['threads', '1', 'tolerance', 'ppm']],
    ['work.own.angle', ['threads', '1', 'work', 'own', 'angle']],
    ['measured.pitch.doubt', ['threads', '1', 'work', 'measured', 'pitch', 'doubt']],
    ['name', ['workshop', 'name']],
    ['wires', ['workshop', 'wires']],
    ['lathe.dial.lines', ['workshop', 'lathe', 'dial', 'lines']],
    ['lathe.banjo.slots[0].near', ['workshop', 'lathe', 'banjo', 'slots', '0', 'near']],
    ['kinds[1].line', ['workshop', 'kinds', '1', 'line']],
    ['making.worm', ['workshop', 'making', 'worm']],
    ['wishes.list', ['wishes', 'list']],
    ['view.units', ['view', 'units']],
  ])('%s is read and typed where it stands, and nothing else is', (path, way) => {
    const { before, job } = openJob()
    job.put(path, 'typed')
    expect(job.at(path)).toBe('typed')
    expect(difference(before, job.typed.value)).toEqual(way)
    expect(Array.isArray(job.typed.value.workshop.kinds)).toBe(true)
  })

  it('asks for a train when that may be another, and not otherwise', () => {
    const { job, asked } = openJob()
    job.put('wishes.list', 'M6')
    job.put('view.units', 'inch')
    expect(asked()).toBe(1)
    job.put('wanted.pitch', '0.9 mm')
    expect(asked()).toBe(2)
  })
})
