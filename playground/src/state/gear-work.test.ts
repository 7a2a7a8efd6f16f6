import { InputError } from '@trainwright/measures'
import type { Gear, Train } from '@trainwright/trains'
import { findTrains } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { gearWork } from './gear-work.js'
import { readMaking } from './making.js'
import { blankMaking, type TypedMaking } from './typed-making.js'

const gear = (teeth: number): Gear => ({ teeth, module: 1, pressureAngle: 20 })
const making = (change: Partial<TypedMaking> = {}) => readMaking({ ...blankMaking(), ...change })
const train = (counts: number[], pitch: string): Train =>
  findTrains(
    { lathe: { leadscrew: { pitch: '8 tpi' }, studs: 2 }, gears: counts.map((teeth) => ({ teeth })) },
    { pitch },
  ).trains[0]!

describe('gearWork', () => {
  it('names each mate of the gear once, idlers among them', () => {
    const opened = [train([32, 72, 44], '11 tpi'), train([36, 88, 80, 45], '11 tpi')]
    expect(gearWork(gear(44), opened, making(), undefined).mates.map(({ teeth }) => teeth)).toEqual([72])
    expect(gearWork(gear(72), opened, making(), undefined).mates.map(({ teeth }) => teeth)).toEqual([32, 44])
    expect(gearWork(gear(50), opened, making(), undefined).mates).toEqual([])
  })

  it('keeps teeth in touch: two changewheels of 20 degrees overlap by 1.5 and more', () => {
    for (const { ratio } of gearWork(gear(44), [train([32, 72, 44], '11 tpi')], making(), undefined).mates) {
      expect(ratio).toBeGreaterThan(1.5)
      expect(ratio).toBeLessThan(2)
    }
  })

  it('divides on the head, and where there is none by degrees', () => {
    const head = { worm: 40, plates: [[33]] }
    const divided = gearWork(gear(44), [], making(), head)
    expect(divided.sheet.indexing).toMatchObject({ kind: 'plain', moves: [{ turns: 0, holes: 30, circle: 33 }] })
    expect(divided.scale).toEqual([])
    const turned = gearWork(gear(44), [], making(), undefined)
    expect(turned.sheet.indexing).toBeNull()
    // 360 / 44 = 8 degrees 10.9 minutes.
    expect(turned.scale[1]).toEqual({ degrees: 8, minutes: 11, seconds: 0 })
    expect(turned.scale).toHaveLength(44)
  })

  it('draws bore and keyway, or says why it cannot', () => {
    const bored = gearWork(gear(44), [], making({ bore: '12', keywayWidth: '4', keywayDepth: '1.8' }), undefined)
    expect(bored.outline!.loops.map(({ name }) => name)).toEqual(['teeth', 'bore'])
    expect(bored.sheet.bore!.enough).toBe(true)
    const wide = gearWork(gear(20), [], making({ bore: '18' }), undefined)
    expect(wide.outline).toBeNull()
    expect(wide.refused).toContain('inside the root')
    expect(wide.sheet.bore!.enough).toBe(false)
  })

  it('makes a sheet of whatever can be read, however odd the rest', () => {
    const odd = { bore: '12', keywayWidth: '13', keywayDepth: '1', cutters: 'm1: 54-35\nm0: 12-13\n20 dp 99°: 12-13' }
    const { sheet, outline } = gearWork(gear(44), [], making(odd), undefined)
    expect([sheet.bore, sheet.cutter.owned]).toEqual([null, null])
    expect(outline!.loops.map(({ name }) => name)).toEqual(['teeth'])
  })

  it.each([
    ['a pressure angle', { ...gear(44), pressureAngle: 8 }, []],
    ['a mate', gear(44), [train([44, 1100, 40], '220 tpi')]],
  ])('refuses %s that gearcutting does not know, naming it', (_, odd, opened) => {
    expect(() => gearWork(odd, opened, making(), undefined)).toThrow(InputError)
  })

  it('says which cutter to get when none is owned for the size', () => {
    const { sheet } = gearWork(gear(44), [], making({ cutters: 'module 0.5: 35-54' }), undefined)
    expect(sheet.cutter).toMatchObject({ range: '35 to 54', owned: null })
    expect(sheet.cutter.text).toContain('get the module 1 cutter stamped 35 to 54')
    expect(gearWork(gear(44), [], making({ cutters: 'm1: 35-54' }), undefined).sheet.cutter.owned).toBe(0)
  })

  it('takes a gear that goes by its diametral pitch as such: its depth is another', () => {
    const inch: Gear = { teeth: 44, module: 1.27, dp: 20, pressureAngle: 14.5 }
    const { sheet, outline } = gearWork(inch, [], making(), undefined)
    expect(sheet.gear.size).toBe('20 DP, 14.5°')
    // 2.157 / 20 in (Brown & Sharpe practice), and 46 / 20 in across the tips.
    expect(sheet.depth.mm).toBeCloseTo((2.157 * 25.4) / 20, 6)
    expect(outline!.tipDiameter).toBeCloseTo((46 * 25.4) / 20, 6)
  })
})
