import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkBlank, spurGear } from './index.js'

test('the wall is what is left between root and bore, or keyway', () => {
  // Module 1, 30 teeth: root 27.5. By hand: 13.75 - 8 = 5.75; less a keyway of 1.8, 3.95.
  expect(checkBlank({ teeth: 30, module: 1, blank: { bore: 16, wall: 4 } })).toEqual({
    wall: 5.75,
    enough: true,
    fewestTeeth: 27,
  })
  expect(checkBlank({ teeth: 30, module: 1, blank: { bore: 16, keyway: 1.8, wall: 4 } })).toEqual({
    wall: 3.95,
    enough: false,
    fewestTeeth: 31,
  })
})

test('the fewest teeth are enough, and one fewer is not', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(0.5, 0.8, 1, 1.25, 2),
      fc.integer({ min: 1, max: 400 }),
      fc.integer({ min: 0, max: 60 }),
      fc.constantFrom(-0.2, 0, 0.2),
      (module, bore, wall, shift) => {
        const q = { module, shift, blank: { bore: bore / 10, keyway: 1.2, wall: wall / 10 } }
        const { fewestTeeth } = checkBlank({ ...q, teeth: 60 })
        expect(checkBlank({ ...q, teeth: fewestTeeth }).enough).toBe(true)
        if (fewestTeeth > 6) expect(checkBlank({ ...q, teeth: fewestTeeth - 1 }).enough).toBe(false)
        const { rootDiameter } = spurGear({ module, shift, teeth: 60 })
        expect(checkBlank({ ...q, teeth: 60 }).wall).toBeCloseTo(rootDiameter / 2 - bore / 20 - 1.2, 8)
      },
    ),
  )
})

test('bad input', () => {
  expect(() => checkBlank({ teeth: 30, module: 1, blank: { bore: -1, wall: Number.NaN } })).toThrow(
    /blank\.bore: .*\nblank\.wall: /,
  )
  expect(() => checkBlank({ teeth: 30, module: 1 } as never)).toThrow('blank.bore: nothing was given')
})
