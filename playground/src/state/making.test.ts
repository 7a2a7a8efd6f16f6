import { indexable } from '@trainwright/gearcutting'
import { describe, expect, it } from 'vitest'
import { placedAtLimits, readMaking } from './making.js'
import { blankMaking, headOf, makingFrom, platesOf, type TypedMaking } from './typed-making.js'

const typed = (change: Partial<TypedMaking> = {}): TypedMaking => ({ ...blankMaking(), ...change })
const fields = (change: Partial<TypedMaking>) => readMaking(typed(change)).problems.map(({ path }) => path)
const head = {
  worm: 40,
  plates: [
    [15, 16, 17],
    [21, 23],
  ],
}

describe('a head', () => {
  it('is typed plate by plate, and reads back', () => {
    const making = makingFrom(head)
    expect(making.plates).toBe('15 16 17\n21 23')
    expect(headOf(making)).toEqual(head)
    expect(platesOf('15,16, 17; 21 23\n')).toEqual(head.plates)
    expect(headOf(makingFrom(undefined))).toBeUndefined()
  })

  it.each(['', '0', '2.5', 'x', '-3', '1001'])('with a worm of “%s” is none yet', (worm) => {
    expect(headOf({ ...makingFrom(head), worm })).toBeUndefined()
  })

  it('limits the counts to those that it divides, unless it need not be exact', () => {
    const making = { ...makingFrom(head), least: '30', most: '60' }
    expect(readMaking(making).options).toMatchObject({ teeth: [30, 60], makeable: indexable(head, [30, 60]) })
    expect(readMaking({ ...making, exactly: false }).options).not.toHaveProperty('makeable')
  })

  it('can be a change gear on the mandrel', () => {
    expect(readMaking(typed({ worm: '1', plates: '60' })).options.makeable).toEqual([20, 30, 60])
  })
})

describe('readMaking', () => {
  it('asks for what the search takes by itself when nothing is typed', () => {
    expect(readMaking(typed())).toEqual({
      options: { make: 1, teeth: [20, 127] },
      bore: null,
      cutters: null,
      problems: [],
    })
  })

  it('takes lengths in any unit', () => {
    const { options, bore } = readMaking(
      typed({ bore: '1/2 in', keywayWidth: '3', keywayDepth: '1.5 mm', wall: '80 thou', module: '1.25', gears: '2' }),
    )
    expect(bore).toEqual({ bore: 12.7, keyway: { width: 3, depth: 1.5 }, wall: 2.032 })
    expect(options).toEqual({
      make: 2,
      teeth: [20, 127],
      module: 1.25,
      blank: { bore: 12.7, keyway: 1.5, wall: 2.032 },
    })
  })

  it.each<[string, Partial<TypedMaking>, string[]]>([
    ['a range upside down', { least: '80', most: '20' }, ['making.most']],
    ['the same with a head', { ...makingFrom(head), least: '80', most: '20' }, ['making.most']],
    ['no number of teeth', { least: 'few' }, ['making.least']],
    ['a head without plates', { worm: '40' }, ['making.plates']],
    ['plates without a worm', { plates: '15 16' }, ['making.worm']],
    ['a plate without circles', { worm: '40', plates: '15 16\n - ' }, ['making.plates']],
    ['a circle that is no number', { worm: '40', plates: '15 x16' }, ['making.plates']],
    ['a bore that cannot be read', { bore: 'wide' }, ['making.bore']],
    ['a keyway in nothing', { keywayWidth: '3', keywayDepth: '1' }, ['making.bore']],
    ['half a keyway', { bore: '10', keywayDepth: '1' }, ['making.keywayWidth']],
    ['a keyway as wide as its bore', { bore: '10', keywayWidth: '10', keywayDepth: '1' }, ['making.keywayWidth']],
    ['a bore that is next to nothing', { bore: '0.001' }, ['making.bore']],
    ['a wall beyond all sense', { bore: '10', wall: '11000' }, ['making.wall']],
    ['cutters of no size', { cutters: 'module 0: 35-54' }, ['making.cutters']],
    ['cutters of no angle', { cutters: '20 dp 99°: 35-54' }, ['making.cutters']],
    ['cutters without a size', { cutters: '35-54' }, ['making.cutters']],
  ])('refuses %s beside its field', (_, change, paths) => {
    expect(fields(change)).toEqual(paths)
  })

  it('says it as a person in front of the field would', () => {
    const said = (change: Partial<TypedMaking>) => readMaking(typed(change)).problems[0]!.message
    expect(said({ worm: '40' })).toContain('write the circles of each plate on a line')
    expect(said({ worm: '40', plates: '15 x16' })).toContain('This is not a number')
    expect(said({ least: '80', most: '20' })).toMatch(/^The range runs from 80 down to 20/)
  })

  it('reads the cutters as they are stamped', () => {
    const cutters = 'module 1: 26-34 35–54 55 to 134\n20 DP 14.5°: 135-rack, 12-13\n'
    expect(readMaking(typed({ cutters })).cutters).toEqual([
      { module: 1, from: 26, to: 34 },
      { module: 1, from: 35, to: 54 },
      { module: 1, from: 55, to: 134 },
      { dp: 20, pressureAngle: 14.5, from: 135 },
      { dp: 20, pressureAngle: 14.5, from: 12, to: 13 },
    ])
  })
})

describe('what cannot be', () => {
  it('is left out of what is read, and the rest is kept', () => {
    const making = readMaking(
      typed({ cutters: 'm1: 35-54 134-55\nm200: 12-13', bore: '10', keywayWidth: '12', keywayDepth: '1' }),
    )
    expect(making.cutters).toEqual([{ module: 1, from: 35, to: 54 }])
    expect(making.bore).toBeNull()
    expect(making.problems.map(({ path, message }) => `${path}: ${message}`)).toEqual([
      'making.keywayWidth: A keyway is narrower than its bore of 10 mm.',
      'making.cutters: Line 1: the range runs from 134 down to 55: write the smaller count first.',
      'making.cutters: Line 2: “200” is out of range; expected a module in mm of 0.01 to 100.',
    ])
  })
})

describe('placedAtLimits', () => {
  it.each([
    ['options.teeth', 'making.most'],
    ['options.teeth[0]', 'making.least'],
    ['options.module', 'making.module'],
    ['options.blank.bore', 'making.bore'],
    ['options.blank.keyway', 'making.keywayDepth'],
    ['options.blank.wall', 'making.wall'],
    ['blank.bore', 'making.bore'],
    ['blank.keyway.width', 'making.keywayWidth'],
    ['blank.keyway.depth', 'making.keywayDepth'],
  ])('puts %s beside %s', (path, field) => {
    expect(placedAtLimits([{ path, code: 'x', message: 'm' }]).map((one) => one.path)).toEqual([field])
  })

  it('leaves out what stands elsewhere', () => {
    expect(placedAtLimits([{ path: 'wanted[0].pitch', code: 'x', message: 'm' }])).toEqual([])
  })
})
