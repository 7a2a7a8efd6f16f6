import { describe, expect, it } from 'vitest'
import { gearChanges } from './changes.js'
import { gear, trainOf } from './testing/train-of.js'

const train = trainOf([
  [40, 20, 60],
  [30, 60],
])
const teeth = (gears: readonly { teeth: number }[]) => gears.map((g) => g.teeth)

describe('gearChanges', () => {
  it('counts gears one by one: two of a kind are two', () => {
    const { stay, on, off } = gearChanges(train, [{ teeth: 60 }, { teeth: 30, module: 1 }, { teeth: 80 }])
    expect([teeth(stay), teeth(on), teeth(off)]).toEqual([[60, 30], [40, 20, 60], [80]])
  })

  it('is nothing for the train that is on, and everything for an empty lathe', () => {
    const all = train.shafts.flatMap(({ gears }) => gears.map((g) => g.gear))
    expect(gearChanges(train, all)).toMatchObject({ on: [], off: [] })
    expect(gearChanges(train, [])).toMatchObject({ stay: [], off: [], on: all })
  })

  it('tells gears of another module apart', () => {
    const coarse = trainOf([[gear(40, 1.5), gear(60, 1.5)]])
    expect(
      teeth(
        gearChanges(coarse, [
          { teeth: 40, module: 1 },
          { teeth: 60, module: 1.5 },
        ]).on,
      ),
    ).toEqual([40])
  })
})
