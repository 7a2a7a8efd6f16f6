import { outline } from '@trainwright/gearcutting'
import type { InputError } from '@trainwright/measures'
import { proposeGears } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { leaves, spoil } from '../../../test-data/spoil.js'
import { type GearToMake, gearSheet } from './gear-sheet.js'
import { sheetLines, sheetParts } from './lines.js'
import { readDemo } from './testing/demo.js'
import { printed, spoilt } from './testing/leaves.js'

const { tripodHead, workshop } = readDemo(demo)

const head = workshop.head!
const gear = { teeth: 63, module: 1 }

describe('a gear to be made', () => {
  it('has the figures of a 63 of module 1', () => {
    // Tip (z + 2) m, root (z - 2.5) m, depth 2.25 m (ISO 53).
    const sheet = gearSheet({ gear })
    expect(sheet.title).toBe('Gear to make: 63 teeth, module 1')
    expect(sheet.blank.diameter.text).toBe('65.000 mm')
    expect(sheet.rootDiameter.mm).toBe(60.5)
    expect(sheet.depth).toMatchObject({ mm: 2.25, inch: '0.0886 in' })
    expect(sheet.baseTangent.teeth).toBe(8)
    expect(sheet.baseTangent.text).toContain('Over 8 teeth between flat jaws: 23.023 mm')
    expect(sheet.undercut).toMatchObject({ undercut: false, from: 17, text: 'No undercut (from 17 teeth on).' })
    expect([sheet.bore, sheet.indexing]).toEqual([null, null])
    expect(sheet.cautions.map(({ code }) => code)).toContain('eyes')
  })

  it('takes what proposeGears gives, and heeds a diametral pitch before a module', () => {
    const [proposal] = proposeGears(workshop, [tripodHead.wanted], { limit: 1 }).proposals
    const sheet = gearSheet({ gear: proposal!.make[0]!, head })
    expect(sheet.gear.teeth).toBe(proposal!.make[0]!.teeth)
    const inch = gearSheet({ gear: { teeth: 40, dp: 20, module: 1.27, pressureAngle: 14.5 } })
    expect(inch.gear.text).toBe('40 (20 DP, 14.5°)')
    // 2.157 / DP (Brown & Sharpe practice).
    expect(inch.depth.mm).toBeCloseTo((2.157 / 20) * 25.4, 8)
    expect(inch.cutter.text).toContain('No. 3 of a dp set')
  })

  it('says when a rack would undercut it, and what shift there is', () => {
    expect(gearSheet({ gear: { teeth: 14, module: 1 } }).undercut).toMatchObject({ undercut: true, from: 17 })
    expect(gearSheet({ gear: { teeth: 14, module: 1 } }).undercut.text).toContain('fewer than 17 teeth')
    expect(gearSheet({ gear: { ...gear, shift: 0.2 } }).gear).toMatchObject({
      shift: 0.2,
      text: '63 (module 1), shift 0.2',
    })
  })
})

describe('the cutter', () => {
  const cutterFor = (q: Partial<GearToMake>) => gearSheet({ gear, ...q }).cutter

  it('is told by its range first', () => {
    expect(cutterFor({})).toEqual({
      range: '55 to 134',
      number: 7,
      owned: null,
      text: 'Cutter stamped 55 to 134 (commonly No. 7 of a module set; the range stamped on it rules).',
    })
    expect(cutterFor({ gear: { teeth: 140, module: 1 } }).range).toBe('135 to rack')
  })

  it('is looked for in the drawer', () => {
    const cutters = [
      { module: 1, from: 35, to: 54 },
      { module: 1, from: 55 },
    ]
    expect(cutterFor({ cutters })).toMatchObject({
      owned: 1,
      text: expect.stringContaining('Yours of 55 to rack cuts it.'),
    })
    expect(cutterFor({ cutters: cutters.slice(0, 1) })).toMatchObject({
      owned: null,
      text: expect.stringContaining('get the module 1 cutter stamped 55 to 134'),
    })
    expect(cutterFor({ cutters: [] }).text).toContain('No cutter of module 1')
  })

  it('does not exist below twelve teeth', () => {
    expect(cutterFor({ gear: { teeth: 10, module: 1 } })).toMatchObject({
      range: null,
      number: null,
      text: expect.stringMatching(/^No cutter of a set of eight cuts 10/),
    })
  })
})

describe('bore and keyway', () => {
  it('leave a wall, or say what would', () => {
    // Root radius 60.5 / 2 = 30.25, less the corners of the keyway at the root of (6 + 1.8)^2 + 2^2, 8.052.
    const sheet = gearSheet({ gear, bore: 12, keyway: { width: 4, depth: 1.8 }, wall: 5 })
    expect(sheet.bore).toMatchObject({
      wall: { mm: 22.197671144 },
      enough: true,
      text: '22.20 mm (0.874 in) of wall stay between root and keyway.',
    })
    const thin = gearSheet({ gear: { teeth: 24, module: 1 }, bore: 16, wall: 4 }).bore!
    expect(thin).toMatchObject({ enough: false, keyway: null, wall: { mm: 2.75 } })
    // 2 (8 + 4 + 1.25) = 26.5
    expect(thin.text).toContain('Only 2.75 mm (0.108 in) of wall stay between root and bore: take 27 teeth')
  })

  it('are enough where the outline has room for them, and there alone', () => {
    const holes = { bore: 10, keyway: { width: 8, depth: 3.5 } }
    for (let teeth = 17; teeth < 30; teeth++) {
      const blank = { gear: { teeth, module: 1 }, ...holes }
      const { enough, wall, text } = gearSheet(blank).bore!
      expect(enough).toBe(wall.mm > 0)
      if (enough) expect(outline({ ...blank.gear, ...holes }).loops).toHaveLength(2)
      else expect(() => outline({ ...blank.gear, ...holes })).toThrow('keyway.depth')
      // 2 (9.394 + 1.25) = 21.29
      expect(enough).toBe(teeth >= 22)
      if (!enough) expect(text).toContain('take 22 teeth')
    }
  })
})

describe('indexing', () => {
  const plan = (teeth: number, on = head) => gearSheet({ gear: { teeth, module: 1 }, head: on }).indexing!

  it('is plain where a circle divides', () => {
    const { kind, moves, text, table, worst } = plan(32)
    // 40 / 32 = 1 1/4
    expect([kind, worst, moves[0]!.text]).toEqual(['plain', null, '1 turn and 5 spaces of the 20 circle'])
    expect(text).toMatch(
      /^Plain, plate 1: 1 turn and 5 spaces of the 20 circle; the same: 1 turn and 4 spaces of the 16 circle/,
    )
    expect(table).toHaveLength(32)
    expect(table[3]).toEqual({ division: 3, at: ['3 + 15/20'], error: '0', out: null, label: '3', text: '3 + 15/20' })
    expect(plan(40).moves[0]!.text).toBe('1 turn')
    expect(plan(23, { worm: 40, plates: [[23]] }).text).toBe('Plain, plate 1: 1 turn and 17 spaces of the 23 circle.')
  })

  it('goes back with the plate where it is compound', () => {
    const { kind, moves, table } = plan(69)
    expect([kind, moves.map(({ text }) => text)]).toEqual([
      'compound',
      ['22 spaces of the 33 circle', 'back 2 spaces of the 23 circle'],
    ])
    expect(table[1]!.at).toEqual(['0 + 22/33', '−0 − 2/23'])
    expect(table[1]!.text).toBe('0 + 22/33, plate −0 − 2/23')
  })

  it('tells the error where it is approximate, and what would do where it is impossible', () => {
    const rough = plan(127)
    expect(rough).toMatchObject({ kind: 'approximate', plate: 3, worst: { value: 0.091113611 } })
    // Its places are 15, 31, 46 holes from the start: to step by 15 would end a turn of the crank short.
    expect(rough.text).toBe(
      'Approximate, plate 3: no equal step, each place by the table of the 49 circle; at worst 0.0911° of the work out.',
    )
    expect(rough.table[1]).toMatchObject({ error: '-55/6223', text: '0 + 15/49, out by −0.0795° of the work' })
    expect(rough.table[2]!.text).toBe('0 + 31/49, out by 0.0246° of the work')
    expect(plan(127, { worm: 1, plates: [[60]] })).toMatchObject({
      kind: 'impossible',
      table: [],
      text: expect.stringMatching(/^This head has at most 60 places/),
    })
  })
})

describe('all of it', () => {
  it('is plain data, and in print', () => {
    const whole = gearSheet({
      gear: { teeth: 69, module: 1 },
      head,
      bore: 12,
      keyway: { width: 4, depth: 1.8 },
      cutters: [],
    })
    expect(JSON.parse(JSON.stringify(whole))).toEqual(whole)
    expect(spoilt(whole)).toEqual([])
    const lines = sheetLines(whole)
    for (const { text, other } of printed(whole))
      expect(
        lines.some((line) => line.includes(other ? `${text} (${other})` : text)),
        text,
      ).toBe(true)
    expect(sheetParts(whole).map(({ title }) => title)).toEqual(['Blank and cutter', 'Indexing', 'Measure', 'Mind'])
  })

  const problems = (q: unknown): string[] => {
    try {
      gearSheet(q as GearToMake)
    } catch (error) {
      return (error as InputError).problems.map(({ path, code }) => `${path} ${code}`)
    }
    return []
  }

  it('names what is wrong by where it stands', () => {
    expect(problems(null)).toEqual(['gear.teeth missing', 'gear.module no-size'])
    expect(problems({ gear: { teeth: 2.5 } })).toEqual(['gear.teeth not-whole', 'gear.module no-size'])
    expect(problems({ gear, head: { worm: 0, plates: [] }, bore: -1, cutters: [{ from: 1 }] })).toEqual([
      'cutters[0].module no-size',
      'cutters[0].from range',
      'head.worm range',
      'head.plates no-plates',
      'bore range',
    ])
    expect(problems({ gear, bore: 12, wall: -1, keyway: { width: 13, depth: -1 } })).toEqual([
      'keyway.depth range',
      'keyway.width keyway-too-wide',
      'wall range',
    ])
    expect(problems({ gear, bore: 8, keyway: { width: 8, depth: 1 } })).toEqual(['keyway.width keyway-too-wide'])
    expect(problems({ gear, bore: 8, keyway: 1 })).toEqual(['keyway.width missing', 'keyway.depth missing'])
    expect(problems({ gear, bore: 0, keyway: null })).toEqual([
      'bore range',
      'keyway.width missing',
      'keyway.depth missing',
    ])
    // A wall of 0 is any wall, and asks for no bore.
    expect(problems({ gear, wall: 0 })).toEqual([])
    expect(problems({ gear, wall: 2 })).toEqual(['bore missing'])
    expect(problems({ gear, keyway: { width: Number.NaN, depth: 'x' }, wall: -5 })).toEqual([
      'bore missing',
      'keyway.width not-a-number',
      'keyway.depth not-a-number',
      'wall range',
    ])
    expect(problems({ gear, head: null, cutters: null })).toEqual([
      'cutters missing',
      'head.worm missing',
      'head.plates no-plates',
    ])
  })
  it('names every value that is refused on its own, whatever the others are, and none for the sake of another', () => {
    const whole = {
      gear: { teeth: 30, module: 2, pressureAngle: 20, shift: 0.1, depth: 2.2, thinning: 0.05 },
      head: { worm: 40, plates: [[15, 16], [21]] },
      cutters: [
        { module: 2, pressureAngle: 20, from: 17, to: 34 },
        { dp: 20, from: 12 },
      ],
      bore: 12,
      keyway: { width: 4, depth: 1.8 },
      wall: 2,
    }
    expect(problems(whole)).toEqual([])
    fc.assert(
      fc.property(
        fc.subarray(leaves(whole), { minLength: 1 }),
        fc.constantFrom('x', Number.NaN, -1e9, 1e9, {}),
        (places, by) => {
          const named = problems(spoil(whole, places, by)).map((problem) => problem.split(' ')[0])
          expect(named.sort()).toEqual([...places].sort())
        },
      ),
    )
  })
})
