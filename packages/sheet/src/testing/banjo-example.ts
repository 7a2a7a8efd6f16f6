import type { Lathe, Train } from '@trainwright/trains'
import { trainOf } from './train-of.js'

/**
 * 40:60, 30:75 on a banjo of two slots, solved by hand: the stud stands 50 mm from the input shaft (at 90, 0) and
 * 52.5 mm from the output shaft (the origin), so x = (90² + 52.5² - 50²) / 180 and y is what is left.
 */
const x = (90 ** 2 + 52.5 ** 2 - 50 ** 2) / 180
const y = -Math.sqrt(52.5 ** 2 - x ** 2)
const shaft = (at: [number, number], slot: number | null = null, along: number | null = null) => ({
  x: at[0],
  y: at[1],
  slot,
  along,
})

const lathe: Lathe = {
  leadscrew: { pitch: '3 mm' },
  centreDistance: 90,
  banjo: {
    swing: [-90, 90],
    slots: [
      { from: 35, to: 110 },
      { angle: 40, offset: 5, from: 40, to: 90 },
    ],
    keepOut: [{ x: 30, y: 60, radius: 12 }],
  },
}

const train: Train = trainOf(
  [
    [40, 60],
    [30, 75],
  ],
  {
    layout: {
      swing: (Math.atan2(y, x) * 180) / Math.PI,
      shafts: [shaft([90, 0]), shaft([x, y], 0, 52.5), shaft([0, 0])],
      meshes: [
        { between: [0, 1], centreDistance: 50 },
        { between: [1, 2], centreDistance: 52.5 },
      ],
      clearance: { mm: 3.214, between: 'the 60 on stud 1 and the output shaft' },
    },
  },
)

export const banjoExample = { lathe, train }
