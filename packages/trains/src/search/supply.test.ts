import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { GearStock, ShaftName } from '../contract.js'
import { AT, makeBox } from './box.js'
import { makeSupply } from './supply.js'

const shafts: ShaftName[] = ['input', 'stud', 'output']
const supplyOf = (gears: GearStock[]) => {
  const box = makeBox(gears, undefined)
  return makeSupply(
    box,
    Uint8Array.from(box.kinds, (k) => Number(k.restricted)),
  )
}

/** Whether every place can have a copy of its own that may sit there, by trying. */
function dealt(places: readonly ShaftName[], copies: readonly (readonly ShaftName[])[]): boolean {
  if (places.length === 0) return true
  const [place, ...rest] = places
  return copies.some((may, i) => may.includes(place) && dealt(rest, [...copies.slice(0, i), ...copies.slice(i + 1)]))
}

describe('places for gears of one kind', () => {
  const lists = fc.uniqueArray(fc.constantFrom(...shafts), { minLength: 1, maxLength: 3 })
  const numRuns = Number(process.env.RUNS ?? 100)
  const steps = fc.array(fc.record({ shaft: fc.constantFrom(...shafts), back: fc.boolean() }), { maxLength: 12 })

  it('are given as long as the copies can be dealt out to them', () => {
    let refused = 0
    const property = fc.property(fc.array(lists, { minLength: 1, maxLength: 5 }), steps, (copies, walk) => {
      const lend = copies.length % 2
      // A kind before and one behind, so that the places of each are its own.
      const supply = supplyOf([{ teeth: 20, shafts: ['stud'] }, ...copies.map((may) => ({ teeth: 30, shafts: may }))])
      // A gear that is lent may sit anywhere.
      if (lend) supply.lend(1, 1)
      const all = lend ? [...copies, shafts] : copies
      const restricted = copies.some((may) => may.length < 3)
      const placed: ShaftName[] = []
      for (const { shaft, back } of walk) {
        if (back && placed.includes(shaft)) {
          placed.splice(placed.indexOf(shaft), 1)
          supply.giveBack(1, AT[shaft])
          continue
        }
        const may = !restricted || dealt([...placed, shaft], all)
        expect(supply.take(1, AT[shaft])).toBe(may)
        if (may) placed.push(shaft)
        else refused++
        expect(supply.take(0, AT.input)).toBe(false)
      }
      if (restricted) {
        supply.clear()
        for (const shaft of shafts) {
          expect(supply.take(1, AT[shaft])).toBe(dealt([shaft], all))
          supply.clear()
        }
      }
    })
    fc.assert(property, { numRuns })
    if (numRuns >= 100) expect(refused).toBeGreaterThan(50)
  })

  it('one after the other, by hand', () => {
    // Two 30s: one for either end, one for studs only.
    const supply = supplyOf([
      { teeth: 30, shafts: ['input', 'output'] },
      { teeth: 30, shafts: ['stud'] },
    ])
    expect(supply.take(0, AT.input)).toBe(true)
    expect(supply.take(0, AT.output)).toBe(false)
    expect(supply.take(0, AT.stud)).toBe(true)
    expect(supply.take(0, AT.stud)).toBe(false)
    supply.giveBack(0, AT.input)
    expect(supply.take(0, AT.output)).toBe(true)
    expect(supply.take(0, AT.input)).toBe(false)
    supply.clear()
    expect(supply.take(0, AT.input)).toBe(true)
    // Lent, a third sits anywhere, until it is taken back.
    supply.lend(0, 1)
    expect(supply.take(0, AT.output)).toBe(true)
    supply.giveBack(0, AT.output)
    supply.lend(0, -1)
    expect(supply.take(0, AT.output)).toBe(false)
  })

  it('are not kept of kinds that may sit everywhere', () => {
    const supply = supplyOf([{ teeth: 20, shafts: ['stud'] }, { teeth: 30 }])
    for (let i = 0; i < 3; i++) expect(supply.take(1, AT.input)).toBe(true)
    supply.giveBack(1, AT.stud)
    expect(supply.take(1, AT.output)).toBe(true)
  })
})

describe('copies', () => {
  it('are left over as long as they are not used, those lent among them', () => {
    const supply = supplyOf([{ teeth: 20, count: 3 }, { teeth: 30 }])
    expect([supply.left(0), supply.left(1)]).toEqual([3, 1])
    supply.used[0] = 2
    supply.lend(1, 2)
    expect([supply.left(0), supply.left(1)]).toEqual([1, 3])
    supply.lend(1, -2)
    expect([supply.left(0), supply.left(1)]).toEqual([1, 1])
  })

  it('are common as far as both the train and the lathe have them', () => {
    const supply = supplyOf([{ teeth: 20, count: 3 }, { teeth: 30 }, { teeth: 40 }, { teeth: 50 }])
    supply.used.set([3, 1, 0, 1])
    expect(supply.common(Int32Array.of(2, 1, 1, 0))).toBe(3)
    expect(supply.common(Int32Array.of(4, 0, 1, 1))).toBe(4)
  })
})
