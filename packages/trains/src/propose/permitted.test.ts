import { describe, expect, it } from 'vitest'
import type { GearStock } from '../contract.js'
import { makeBox } from '../search/box.js'
import { permitted, sizeToMake } from './permitted.js'

const size = (gears: GearStock[], options = {}) => sizeToMake(makeBox(gears, undefined), options)

describe('the size of gears to make', () => {
  it('is the module that most gears have, of equals the smallest', () => {
    const gears = [
      { teeth: 20, module: 1.5 },
      { teeth: 30, module: 1 },
      { teeth: 40, module: 1.5 },
    ]
    expect(size(gears)).toEqual({ module: 1.5, pressureAngle: 20 })
    expect(size([...gears, { teeth: 50, module: 1 }])).toEqual({ module: 1, pressureAngle: 20 })
    expect(size([...gears, { teeth: 20, module: 0.8, count: 3 }])).toEqual({ module: 0.8, pressureAngle: 20 })
    expect(size([])).toEqual({ module: 1, pressureAngle: 20 })
  })

  it('and of that module the angle that most have', () => {
    const gears = [
      { teeth: 20, module: 1, pressureAngle: 14.5 },
      { teeth: 30, module: 1, pressureAngle: 25, count: 2 },
      { teeth: 40, module: 2, pressureAngle: 14.5, count: 2 },
    ]
    expect(size(gears)).toEqual({ module: 1, pressureAngle: 25 })
    expect(size(gears, { module: 2 })).toEqual({ module: 2, pressureAngle: 14.5 })
    // Of a module that is not there, that of the whole box.
    expect(size(gears, { module: 3 })).toEqual({ module: 3, pressureAngle: 14.5 })
    expect(size(gears, { pressureAngle: 17 })).toEqual({ module: 1, pressureAngle: 17 })
    expect(size([...gears, { teeth: 50, module: 1, pressureAngle: 14.5 }])).toEqual({ module: 1, pressureAngle: 14.5 })
  })

  it('keeps the diametral pitch, asked for as the module that answers show too', () => {
    const gears = [
      { teeth: 20, dp: 17 },
      { teeth: 30, module: 1, count: 2 },
    ]
    const inch = { module: 25.4 / 17, dp: 17, pressureAngle: 20 }
    expect(size(gears, { module: 25.4 / 17 })).toEqual(inch)
    expect(size(gears.slice(0, 1))).toEqual(inch)
    expect(size(gears)).toEqual({ module: 1, pressureAngle: 20 })
  })
})

it('a wall is thick enough when it is just as thick as asked', () => {
  // The root of 24 teeth of module 1 stands 10.75 mm out: over a bore of 12 and a keyway of 1.5 that leaves 3.25.
  const counts = (wall: number) =>
    permitted(makeBox([{ teeth: 20 }], undefined), {
      teeth: [23, 25],
      blank: { bore: 12, keyway: 1.5, wall },
    }).map(({ teeth }) => teeth)
  expect(counts(3.25)).toEqual([24, 25])
  expect(counts(3.250001)).toEqual([25])
})
