import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkBlank, outline, spurGear } from './index.js'

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

test('corners of a keyway stand out further than its floor', () => {
  const q = { teeth: 20, module: 1, blank: { bore: 10, keyway: { width: 8, depth: 3.5 }, wall: 0.2 } }
  // Root 8.75, floor 8.5; the corners at the root of 8.5^2 + 4^2, 9.394.
  expect(checkBlank(q)).toMatchObject({ wall: -0.644147114, enough: false })
  expect(checkBlank({ ...q, blank: { ...q.blank, keyway: 3.5 } })).toMatchObject({ wall: 0.25, enough: true })
})

test('there is an outline where there is a wall, and none where there is not', () => {
  const tenths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 10)
  const hole = fc.record({ bore: tenths(40, 200), width: tenths(1, 150), depth: tenths(1, 60) })
  fc.assert(
    fc.property(fc.integer({ min: 17, max: 30 }), hole, fc.boolean(), (teeth, { bore, width, depth }, plain) => {
      fc.pre(plain || width < bore)
      const keyway = plain ? {} : { keyway: { width, depth } }
      const { enough, fewestTeeth } = checkBlank({ teeth, module: 1, blank: { bore, ...keyway } })
      const drawn = (count: number) => outline({ teeth: count, module: 1, bore, ...keyway })
      if (enough) expect(drawn(teeth).tipDiameter).toBe(teeth + 2)
      else expect(() => drawn(teeth)).toThrow('mm would be left for it inside the root')
      expect(drawn(fewestTeeth).tipDiameter).toBe(fewestTeeth + 2)
      if (fewestTeeth > 6) expect(() => drawn(fewestTeeth - 1)).toThrow('inside the root')
    }),
    { examples: [[20, { bore: 17.5, width: 1, depth: 1 }, true]] },
  )
})

test('a keyway that is too deep is told how deep it may be', () => {
  const q = { teeth: 20, module: 1, bore: 10 }
  const most = Math.sqrt(8.75 ** 2 - 4 ** 2) - 5
  expect(() => outline({ ...q, keyway: { width: 8, depth: 3.5 } })).toThrow(`only ${most.toFixed(9)} mm would be left`)
  expect(outline({ ...q, keyway: { width: 8, depth: most - 1e-6 } }).loops).toHaveLength(2)
  expect(() => outline({ ...q, keyway: { width: 8, depth: most + 1e-6 } })).toThrow('keyway.depth')
})

test('bad input', () => {
  expect(() => checkBlank({ teeth: 30, module: 1, blank: { bore: -1, wall: Number.NaN } })).toThrow(
    /blank\.bore: .*\nblank\.wall: /,
  )
  expect(() => checkBlank({ teeth: 30, module: 1 } as never)).toThrow('blank.bore: nothing was given')
  expect(() => checkBlank({ teeth: 30, module: 1, blank: { bore: 0, keyway: 'x' as never } })).toThrow(
    /blank\.bore: .*\nblank\.keyway: /,
  )
  expect(() => checkBlank({ teeth: 30, module: 1, blank: { bore: 8, keyway: { width: 8, depth: 0 } } })).toThrow(
    /blank\.keyway\.depth: .*\nblank\.keyway\.width: a keyway is narrower than its bore of 8 mm/,
  )
})
