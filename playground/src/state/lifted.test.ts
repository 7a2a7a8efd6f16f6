import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { splitTyped } from './kept.js'
import { lifted } from './lifted.js'

const { shop } = splitTyped(demo())
const { lathe } = shop.workshop

describe('lifted', () => {
  it('puts what an older page passed on where it is typed now', () => {
    const { speeds: _, dial: __, ...older } = lathe
    const also = { speeds: [45, 90], dial: { travel: '3 in', lines: 6 } }
    expect(lifted({ ...shop, workshop: { ...shop.workshop, lathe: { ...older, also } } })).toMatchObject({
      ...shop,
      workshop: { ...shop.workshop, lathe: { ...older, speeds: '45 90', dial: { travel: '3 in', lines: '6' } } },
    })
  })

  it('lifts the same where no lathe is typed', () => {
    const { lathe: _, ...typed } = shop.workshop
    expect(lifted({ workshop: { ...typed, also: { wires: [0.3, 0.5] } } })).toMatchObject({
      workshop: { wires: shop.workshop.wires, also: {} },
    })
  })

  it('leaves what is typed as it is', () => {
    const also = { speeds: [1, 2] }
    expect(lifted({ workshop: { lathe: { ...lathe, also } } })).toMatchObject({ workshop: { lathe } })
  })

  it('passes on what is not asked for yet', () => {
    const workshop = { ...shop.workshop, also: { ...shop.workshop.also, bench: 'oak' } }
    expect(lifted({ ...shop, workshop })).toMatchObject({ workshop: { also: { bench: 'oak' } } })
  })

  it('leaves alone what is passed on wrongly, and any junk', () => {
    const wrong = { workshop: { lathe: { also: { speeds: 7 } } } }
    expect(lifted(wrong)).toBe(wrong)
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
        expect(() => lifted(a)).not.toThrow()
        expect(() => lifted({ workshop: { also: a, lathe: { also: b } } })).not.toThrow()
      }),
    )
  })
})
