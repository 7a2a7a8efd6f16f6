import { describe, expect, it } from 'vitest'
import { describeDrawing } from './describe.js'
import { drawTrain } from './drawing.js'
import { banjoExample } from './testing/banjo-example.js'
import { gear, trainOf } from './testing/train-of.js'

const lathe = { leadscrew: { pitch: '8 tpi' }, drives: [{ name: 'tumbler reverse', ratio: 1, reverses: true }] }
const compound = [
  [40, 60],
  [30, 75],
]

describe('describeDrawing', () => {
  it('tells a compound train as a person would set it up', () => {
    expect(describeDrawing(drawTrain(lathe, trainOf(compound)))).toEqual([
      'A, input shaft: 40 teeth in plane 1, drives B; turns anticlockwise.',
      'B, stud 1: 60 teeth in plane 1, driven by A, keyed to 30 teeth in plane 2, drives C; turns clockwise.',
      'C, output shaft: 75 teeth in plane 2, driven by B; turns anticlockwise.',
      'Between centres: A to B 50.00 mm, B to C 52.50 mm.',
    ])
  })

  it('calls an idler one, and names sizes where they differ', () => {
    const lines = describeDrawing(drawTrain({ leadscrew: { pitch: '3 mm' } }, trainOf([[20, 45, 80]])))
    expect(lines[1]).toBe('B, stud 1: 45 teeth in plane 1 as an idler, driven by A, drives C; turns anticlockwise.')
    const mixed = trainOf([
      [gear(40, 1.5), gear(60, 1.5)],
      [gear(30), gear(75)],
    ])
    expect(describeDrawing(drawTrain({ leadscrew: { pitch: '3 mm' } }, mixed))[0]).toContain(
      '40 teeth (module 1.5) in plane 1',
    )
  })

  it('gives the settings on a known banjo, and turns with a mirrored view', () => {
    const drawing = drawTrain(banjoExample.lathe, banjoExample.train)
    const lines = describeDrawing(drawing)
    expect(lines[1]).toContain('in slot 1 at 52.50 mm along')
    expect(lines).toContain('Banjo swung to -27.8°.')
    expect(lines).toContain('Least clearance 3.21 mm: the 60 on stud 1 and the output shaft.')
    const inches = describeDrawing(drawing, { units: 'inch' })
    expect(inches[1]).toContain('in slot 1 at 2.067 in along')
    expect(inches.join()).not.toContain('mm')
    expect(describeDrawing(drawing, { mirror: true })[0]).toContain('turns anticlockwise')
  })
})
