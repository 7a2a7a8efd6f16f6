import { parseBox } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boxLine, changeCount, moveGear, putIn, removeKind } from './box.js'
import { blankKind, type TypedKind } from './typed.js'

const box = fc.uniqueArray(
  fc.record({ teeth: fc.integer({ min: 6, max: 200 }), count: fc.integer({ min: 1, max: 9 }) }),
  { selector: (gear) => gear.teeth, maxLength: 20 },
)
const kind = (line: string, more: Partial<TypedKind> = {}): TypedKind => ({ ...blankKind(), line, ...more })
const read = (kinds: readonly TypedKind[]) => kinds.map(({ line }) => parseBox(line))

describe('the line of a box', () => {
  it('reads back to the gears it was written from', () => {
    fc.assert(
      fc.property(box, (gears) => {
        expect(parseBox(boxLine(gears)).map(({ teeth, count = 1 }) => ({ teeth, count }))).toEqual(gears)
      }),
    )
  })

  it('counts up, down and off the list', () => {
    const gears = parseBox('20x2 24 30')
    expect(boxLine(changeCount(gears, 24, 1))).toBe('20x2 24x2 30')
    expect(boxLine(changeCount(gears, 20, -1))).toBe('20 24 30')
    expect(boxLine(changeCount(gears, 30, -1))).toBe('20x2 24')
    expect(boxLine(changeCount(gears, 99, 1))).toBe('20x2 24 30')
  })
})

describe('kinds of gear', () => {
  const kinds = [kind('20x2 24'), kind('20 60', { size: '1.5' })]

  it('takes one gear from one kind to another', () => {
    expect(moveGear(kinds, read(kinds), 0, 20, 1).map((k) => k.line)).toEqual(['20 24', '20x2 60'])
    expect(moveGear(kinds, read(kinds), 0, 24, 1).map((k) => k.line)).toEqual(['20x2', '20 60 24'])
  })

  it('neither makes nor loses a gear by moving one', () => {
    const total = (all: readonly TypedKind[]) =>
      read(all)
        .flat()
        .reduce((sum, { count = 1 }) => sum + count, 0)
    fc.assert(
      fc.property(box, box, fc.nat(), (a, b, which) => {
        fc.pre(a.length > 0)
        const before = [kind(boxLine(a)), kind(boxLine(b))]
        const { teeth } = a[which % a.length]!
        expect(total(moveGear(before, read(before), 0, teeth, 1))).toBe(total(before))
      }),
    )
  })

  it('leaves an empty kind when the last is removed', () => {
    expect(removeKind(kinds, 0)).toEqual([kinds[1]])
    expect(removeKind([kinds[1]!], 0)).toEqual([blankKind()])
  })
})

describe('putIn', () => {
  const gear = { teeth: 44, module: 1, pressureAngle: 20 }

  it('puts a gear among its like', () => {
    const kinds = [kind('20 24', { size: '2' }), kind('30 40')]
    expect(putIn(kinds, read(kinds), gear).map(({ line }) => line)).toEqual(['20 24', '30 40 44'])
    expect(putIn(kinds, read(kinds), { ...gear, teeth: 40 })[1]!.line).toBe('30 40x2')
  })

  it.each<[string, Partial<TypedKind>]>([
    ['another module', { size: '1.5' }],
    ['another angle', { angle: '14.5' }],
    ['diametral pitch', { by: 'dp' }],
    ['gears for studs only', { shafts: ['stud'] }],
  ])('leaves %s alone and opens a kind of its own', (_, other) => {
    const kinds = [kind('30 40', other)]
    const after = putIn(kinds, read(kinds), gear)
    expect(after[0]).toBe(kinds[0])
    expect(after[1]).toEqual(kind('44'))
  })

  it('knows inch gears by their pitch, and touches no line that cannot be read', () => {
    const kinds = [kind('30 x', { by: 'dp', size: '20', angle: '14.5' })]
    const inch = { teeth: 44, module: 1.27, dp: 20, pressureAngle: 14.5 }
    expect(putIn(kinds, [null], inch)).toEqual([kinds[0], kind('44', { by: 'dp', size: '20', angle: '14.5' })])
    const sound = [kind('30', { by: 'dp', size: '20', angle: '14.5' })]
    expect(putIn(sound, read(sound), inch)[0]!.line).toBe('30 44')
  })
})
