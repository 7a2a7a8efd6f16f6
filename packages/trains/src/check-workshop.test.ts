import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { banjoQuestions, questions } from '../../../bench/plain/arbitrary.js'
import { box, problemsOf, shop } from '../../../bench/plain/in-brief.js'
import { checkForMaking } from './check-workshop.js'
import type { Banjo, Lathe, Workshop } from './contract.js'
import { checkWorkshop, findTrains, makeChart, prepare, proposeGears } from './index.js'

const sound: Workshop = shop(box(20, 30, 40))
const refused = (x: unknown): string[] => {
  const checked = checkWorkshop(x)
  if (checked.ok) return []
  for (const { message } of checked.problems) expect(message).toMatch(/^[“A-Z].{10,}\.$/s)
  return checked.problems.map(({ path, code }) => `${path} ${code}`)
}
const gears = (...stock: object[]) => ({ ...sound, gears: stock })
const lathe = (parts: object) => ({ ...sound, lathe: { ...sound.lathe, ...parts } })
const banjo = (parts: object, more: object = {}) =>
  lathe({ centreDistance: 60, banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }], ...parts }, ...more })

describe('what is refused, where, and as what', () => {
  it.each<[what: string, given: unknown, problems: string[]]>([
    ['nothing', undefined, [' object']],
    ['null', null, [' object']],
    ['text', '20 30 40', [' object']],
    ['a list', [sound], [' object']],
    ['an empty object', {}, ['lathe object', 'gears list']],
    ['no gears', gears(), ['gears too-few']],
    ['gears as text', { ...sound, gears: '20 30' }, ['gears list']],
    ['gears like a list', { ...sound, gears: { 0: { teeth: 20 }, length: 1 } }, ['gears list']],
    ['a gear as a number', { ...sound, gears: [20] }, ['gears[0] object']],
    [
      'a hole in the list',
      { ...sound, gears: Object.assign(Array(3), { 0: { teeth: 20 }, 2: { teeth: 30 } }) },
      ['gears[1] object'],
    ],
    ['five teeth', gears({ teeth: 5 }), ['gears[0].teeth whole']],
    ['2001 teeth', gears({ teeth: 2001 }), ['gears[0].teeth whole']],
    ['half a tooth', gears({ teeth: 20.5 }), ['gears[0].teeth whole']],
    ['NaN teeth', gears({ teeth: Number.NaN }), ['gears[0].teeth whole']],
    ['teeth without end', gears({ teeth: Number.POSITIVE_INFINITY }), ['gears[0].teeth whole']],
    ['teeth as text', gears({ teeth: '20' }), ['gears[0].teeth whole']],
    ['teeth as a big integer', gears({ teeth: 20n }), ['gears[0].teeth whole']],
    ['no teeth', gears({ count: 2 }), ['gears[0].teeth whole']],
    ['count 0', gears({ teeth: 20, count: 0 }), ['gears[0].count whole']],
    ['count -1', gears({ teeth: 20, count: -1 }), ['gears[0].count whole']],
    ['count null', gears({ teeth: 20, count: null }), ['gears[0].count whole']],
    ['count 501', gears({ teeth: 20, count: 501 }), ['gears[0].count whole']],
    ['501 gears', gears({ teeth: 20, count: 250 }, { teeth: 30, count: 251 }), ['gears too-many-gears']],
    ['501 entries', { ...sound, gears: Array(501).fill({ teeth: 20 }) }, ['gears too-long']],
    ['module 0', gears({ teeth: 20, module: 0 }), ['gears[0].module positive']],
    ['module -1', gears({ teeth: 20, module: -1 }), ['gears[0].module positive']],
    ['module NaN', gears({ teeth: 20, module: Number.NaN }), ['gears[0].module number']],
    ['module 101', gears({ teeth: 20, module: 101 }), ['gears[0].module positive']],
    ['dp 0', gears({ teeth: 20, dp: 0 }), ['gears[0].dp positive']],
    ['module and dp', gears({ teeth: 20, module: 1, dp: 20 }), ['gears[0] module-and-dp']],
    ['an angle of 60', gears({ teeth: 20, pressureAngle: 60 }), ['gears[0].pressureAngle range']],
    ['no shaft', gears({ teeth: 20, shafts: [] }), ['gears[0].shafts too-few']],
    ['an unknown shaft', gears({ teeth: 20, shafts: ['stud', 'spindle'] }), ['gears[0].shafts[1] one-of']],
    ['no leadscrew', { ...sound, lathe: {} }, ['lathe.leadscrew object']],
    ['a pitch unreadable', lathe({ leadscrew: { pitch: 'soon' } }), ['lathe.leadscrew.pitch not-a-number']],
    ['a pitch of 0', lathe({ leadscrew: { pitch: '0 mm' } }), ['lathe.leadscrew.pitch zero']],
    ['a pitch below 0', lathe({ leadscrew: { pitch: '-1' } }), ['lathe.leadscrew.pitch negative']],
    ['a pitch that is missing', lathe({ leadscrew: { hand: 'left' } }), ['lathe.leadscrew.pitch missing']],
    ['a hand unknown', lathe({ leadscrew: { pitch: '1', hand: 'both' } }), ['lathe.leadscrew.hand one-of']],
    ['no drive', lathe({ drives: [] }), ['lathe.drives too-few']],
    ['a ratio of 0', lathe({ drives: [{ ratio: 0 }] }), ['lathe.drives[0].ratio zero']],
    ['a ratio with a unit', lathe({ gearbox: [{ ratio: '2 mm' }] }), ['lathe.gearbox[0].ratio unit']],
    ['a ratio below 0', lathe({ gearbox: [{ ratio: -2 }] }), ['lathe.gearbox[0].ratio negative']],
    ['a belt unknown', lathe({ drives: [{ ratio: 1, belt: 'leather' }] }), ['lathe.drives[0].belt one-of']],
    ['reverses as a number', lathe({ drives: [{ ratio: 1, reverses: 1 }] }), ['lathe.drives[0].reverses yes-no']],
    [
      '17 settings by 17 drives',
      lathe({ drives: Array.from({ length: 17 }, () => ({ ratio: 1 })) }),
      ['lathe.drives too-long'],
    ],
    [
      '18 settings by 3 x 6',
      lathe({ drives: Array(3).fill({ ratio: 1 }), gearbox: Array(6).fill({ ratio: 1 }) }),
      ['lathe.drives too-many-settings'],
    ],
    ['-1 studs', lathe({ studs: -1 }), ['lathe.studs whole']],
    ['9 studs', lathe({ studs: 9 }), ['lathe.studs whole']],
    ['no plane', lathe({ planes: 0 }), ['lathe.planes whole']],
    ['clearance below 0', lathe({ shaftClearance: -1 }), ['lathe.shaftClearance range']],
    ['clearance without end', lathe({ shaftClearance: Number.POSITIVE_INFINITY }), ['lathe.shaftClearance number']],
    ['room of 0', lathe({ room: { input: 0 } }), ['lathe.room.input positive']],
    ['a centre distance of 0', lathe({ centreDistance: 0 }), ['lathe.centreDistance positive']],
    ['a centre distance below 0', lathe({ centreDistance: -60 }), ['lathe.centreDistance positive']],
    [
      'a fixed gear not owned',
      lathe({ fixedGears: { input: { teeth: 50 } } }),
      ['lathe.fixedGears.input no-such-gear'],
    ],
    [
      'a fixed gear of another module',
      lathe({ fixedGears: { output: { teeth: 20, module: 2 } } }),
      ['lathe.fixedGears.output no-such-gear'],
    ],
    [
      'one gear fixed twice',
      lathe({ fixedGears: { input: { teeth: 20 }, output: { teeth: 20 } } }),
      ['lathe.fixedGears.output fixed-twice'],
    ],
    ['a dial of no lines', lathe({ dial: { travel: '4 in', lines: 0 } }), ['lathe.dial.lines whole']],
    ['a dial of no travel', lathe({ dial: { travel: 'far', lines: 8 } }), ['lathe.dial.travel not-a-number']],
    ['speeds of 0', lathe({ speeds: [100, 0] }), ['lathe.speeds[1] positive']],
    ['half nuts by word', lathe({ halfNuts: 'yes' }), ['lathe.halfNuts yes-no']],
    ['wires below 0', { ...sound, wires: [0.5, -1] }, ['wires[1] positive']],
    ['a head of no worm', { ...sound, head: { worm: 0, plates: [] } }, ['head.worm whole']],
    ['a plate of half holes', { ...sound, head: { worm: 40, plates: [[20.5]] } }, ['head.plates[0][0] whole']],
    ['a long name', { ...sound, name: 'x'.repeat(201) }, ['name too-long']],
    ['a name of no text', { ...sound, name: 5 }, ['name text']],
  ])('%s', (_, given, problems) => expect(refused(given)).toEqual(problems))

  it.each<[what: string, parts: object, problem: string]>([
    ['17 drives', { drives: Array(17).fill({ ratio: 1 }) }, 'drives too-long'],
    ['17 settings', { drives: [{ ratio: 1 }], gearbox: Array(17).fill({ ratio: 1 }) }, 'gearbox too-long'],
    [
      '18 settings together',
      { drives: Array(2).fill({ ratio: 1 }), gearbox: Array(9).fill({ ratio: 1 }) },
      'drives too-many-settings',
    ],
    ['no drive', { drives: [] }, 'drives too-few'],
    ['a belt that is none', { drives: [{ ratio: 1, belt: 'flat' }] }, 'drives[0].belt one-of'],
    ['a drive that may reverse', { gearbox: [{ ratio: 1, reverses: 'no' }] }, 'gearbox[0].reverses yes-no'],
    ['a drive of a number for a name', { drives: [{ ratio: 1, name: 1 }] }, 'drives[0].name text'],
    ['no plane', { planes: 0 }, 'planes whole'],
    ['a clearance below 0', { shaftClearance: -1 }, 'shaftClearance range'],
    ['no room', { room: { input: 0 } }, 'room.input positive'],
    ['no room at the other end', { room: { output: 0 } }, 'room.output positive'],
    ['no distance', { centreDistance: 0 }, 'centreDistance positive'],
    ['a nose by word', { screwedNose: 'yes' }, 'screwedNose yes-no'],
    ['101 speeds', { speeds: Array(101).fill(1) }, 'speeds too-long'],
  ])('%s', (_, parts, problem) => expect(refused(lathe(parts))).toEqual([`lathe.${problem}`]))

  it('and what is at the edge is taken', () => {
    const drive = { ratio: 1, name: 'low', reverses: false, belt: 'toothed' }
    for (const parts of [
      { drives: Array(16).fill(drive) },
      { gearbox: Array(16).fill({ ...drive, belt: 'plain' }) },
      { drives: Array(2).fill(drive), gearbox: Array(8).fill(drive) },
      { studs: 0, planes: 1, shaftClearance: 0, speeds: [], screwedNose: true, halfNuts: false },
      { room: { input: 10_000 }, centreDistance: 10_000, speeds: Array(100).fill(100_000) },
      { dial: { travel: '4 in', lines: 1 } },
    ]) {
      const given = lathe(parts)
      expect(checkWorkshop(given)).toEqual({ ok: true, workshop: given })
    }
    for (const parts of [{ wires: [] }, { head: { worm: 1, plates: [] } }, { head: { worm: 40, plates: [[]] } }])
      expect(checkWorkshop({ ...sound, ...parts })).toEqual({ ok: true, workshop: { ...sound, ...parts } })
  })

  it('a fixed gear that could be several, until module and angle tell which', () => {
    const stock = [{ teeth: 20, module: 1.5 }, { teeth: 20, module: 2 }, ...box(30)]
    const fixed = (input: object) => refused({ ...lathe({ fixedGears: { input } }), gears: stock })
    expect(fixed({ teeth: 20 })).toEqual(['lathe.fixedGears.input which-gear'])
    expect(fixed({ teeth: 20, module: 2 })).toEqual([])
    const angles = [{ teeth: 20 }, { teeth: 20, pressureAngle: 14.5 }, ...box(30)]
    for (const some of [angles, [...angles].reverse()]) {
      const of = (input: object) => refused({ ...lathe({ fixedGears: { input } }), gears: some })
      expect(of({ teeth: 20 })).toEqual(['lathe.fixedGears.input which-gear'])
      expect(of({ teeth: 20, pressureAngle: 14.5 })).toEqual([])
    }
  })

  it('a fixed gear that its shafts keep elsewhere', () => {
    const stock = [{ teeth: 20, shafts: ['stud'] }, ...box(30)]
    const given = { ...lathe({ fixedGears: { input: { teeth: 20 } } }), gears: stock }
    expect(refused(given)).toEqual(['lathe.fixedGears.input fixed-elsewhere'])
  })

  it('a gear that is fixed twice though one of the two can sit on one shaft only', () => {
    const ends = (...stock: object[]) =>
      refused({ ...lathe({ fixedGears: { input: { teeth: 30 }, output: { teeth: 30 } } }), gears: stock })
    expect(ends({ teeth: 30, shafts: ['input'] }, { teeth: 30, shafts: ['output'] })).toEqual([])
    expect(ends({ teeth: 30, shafts: ['input'] }, { teeth: 30, shafts: ['stud'] })).toEqual([
      'lathe.fixedGears.output fixed-elsewhere',
    ])
    expect(ends({ teeth: 30 }, { teeth: 30, shafts: ['stud'] })).toEqual(['lathe.fixedGears.output fixed-twice'])
  })
})

describe('banjos that are refused', () => {
  it.each<[what: string, parts: Partial<Record<keyof Banjo, unknown>>, problems: string[]]>([
    ['no swing', { swing: undefined }, ['swing list']],
    ['a swing of one angle', { swing: [0] }, ['swing too-few']],
    ['a swing of three', { swing: [0, 1, 2] }, ['swing too-long']],
    ['a swing the wrong way round', { swing: [30, 10] }, ['swing swing-order']],
    ['a swing of more than a turn', { swing: [-200, 200] }, ['swing swing-order']],
    ['a swing of NaN', { swing: [Number.NaN, 10] }, ['swing[0] number']],
    ['no slots', { slots: [] }, ['slots too-few']],
    ['13 slots', { slots: Array(13).fill({ from: 10, to: 50 }) }, ['slots too-long']],
    ['a slot that ends before it starts', { slots: [{ from: 40, to: 20 }] }, ['slots[0] slot-order']],
    ['a slot from below 0', { slots: [{ from: -1, to: 20 }] }, ['slots[0].from range']],
    ['a slot to below 0', { slots: [{ from: 20, to: -20 }] }, ['slots[0].to range']],
    ['a slot without end', { slots: [{ from: 20, to: Number.POSITIVE_INFINITY }] }, ['slots[0].to number']],
    ['an unknown pivot', { pivot: 'spindle' }, ['pivot one-of']],
    ['a casting of radius below 0', { keepOut: [{ x: 0, y: 0, radius: -1 }] }, ['keepOut[0].radius range']],
    ['a casting nowhere', { keepOut: [{ radius: 1 }] }, ['keepOut[0].x number', 'keepOut[0].y number']],
  ])('%s', (_, parts, problems) =>
    expect(refused(banjo(parts))).toEqual(problems.map((problem) => `lathe.banjo.${problem}`)),
  )

  it('without a centre distance', () => {
    expect(refused(banjo({}, { centreDistance: undefined }))).toEqual(['lathe.centreDistance needs-centre-distance'])
  })

  it('on which no stud can reach the other shaft', () => {
    // The widest mesh of 20, 30 and 40 spans 35 mm, and no gear alone more than 40 and the play.
    expect(refused(banjo({ slots: [{ from: 20, to: 40 }] }, { centreDistance: 80 }))).toEqual([])
    expect(refused(banjo({ slots: [{ from: 20, to: 40 }] }, { centreDistance: 81 }))).toEqual([
      'lathe.banjo.slots out-of-reach',
    ])
    expect(refused(banjo({ slots: [{ from: 45, to: 50 }] }))).toEqual(['lathe.banjo.slots out-of-reach'])
    // Beside the pivot by 30 mm and 30 along is 42.4 mm away.
    expect(refused(banjo({ slots: [{ offset: 30, from: 30, to: 50 }] }))).toEqual(['lathe.banjo.slots out-of-reach'])
  })

  it('on which no stud can reach, by the widest mesh there can be', () => {
    const reach = (slots: object[], centreDistance: number, stock: object[] = box(20, 40), more: object = {}) =>
      refused({ ...banjo({ slots }, { centreDistance, ...more }), gears: stock })
    const out = ['lathe.banjo.slots out-of-reach']
    // A mesh of 40 and 40 spans 40 mm and a tenth of a module: from a slot that ends 40 mm out to 80.1 mm.
    const short = [{ from: 20, to: 40 }]
    expect([80.1, 80.11].map((mm) => reach(short, mm))).toEqual([[], out])
    expect([80.2, 80.21].map((mm) => reach(short, mm, [{ teeth: 20, module: 2 }]))).toEqual([[], out])
    expect([78.2, 78.3].map((mm) => reach(short, mm, [{ teeth: 30, dp: 20 }]))).toEqual([[], out])
    // The furthest end of all slots counts, and the nearest; one aside by its distance from the pivot.
    const long = { from: 45, to: 60 }
    expect(reach([...short, long], 95)).toEqual([])
    expect(reach([long, { offset: 30, from: 20, to: 40 }], 60)).toEqual([])
    expect(reach([long], 60)).toEqual(out)
    // Two gears that meet directly want no stud, nor does a lathe without any.
    expect([40, 40.1, 40.2].map((mm) => reach([long], mm))).toEqual([[], [], out])
    expect(reach([long], 60, box(20, 40), { studs: 0 })).toEqual([])
    expect(reach([long], 60, box(20, 40), { studs: 1 })).toEqual(out)
  })

  it('with the measures that say so', () => {
    const told = (given: object) => {
      const checked = checkWorkshop(given)
      return checked.ok ? '' : checked.problems[0].message
    }
    const far = told(banjo({}, { centreDistance: 81 }))
    expect(far).toMatch(/81\.0 mm apart.* 40\.0 mm from the pivot.* 40\.1 mm/)
    expect(told(banjo({ slots: [{ from: 45, to: 50 }] }))).toMatch(/start 45\.0 mm from the pivot.* 40\.1 mm/)
  })

  it('but not where gears that reach may be made', () => {
    const given = banjo({ slots: [{ from: 20, to: 40 }] }, { centreDistance: 90 })
    expect([49, 50].map((teeth) => checkForMaking(given, { teeth }).ok)).toEqual([false, true])
  })

  it('are at the bounds still taken', () => {
    const holes = Array.from({ length: 12 }, (_, i) => ({ angle: 30 * i - 180, from: 20 + i, to: 20 + i }))
    expect(refused(banjo({ slots: holes, swing: [-180, 180] }, { studs: 8, planes: 8 }))).toEqual([])
    expect(refused(banjo({ swing: [0, 360] }))).toEqual([])
    expect(refused(banjo({ swing: [45, 45] }))).toEqual([])
    expect(refused(lathe({ drives: Array(4).fill({ ratio: 1 }), gearbox: Array(4).fill({ ratio: 1 }) }))).toEqual([])
    expect(refused(gears({ teeth: 6, count: 250 }, { teeth: 2000, count: 250 }))).toEqual([])
  })
})

describe('all problems at once', () => {
  it('of every part, each with its path', () => {
    const given = {
      name: 7,
      lathe: {
        leadscrew: { pitch: '1,250', hand: 'up' },
        drives: [{ ratio: 1 }, { ratio: '0' }],
        studs: 2.5,
        banjo: {
          swing: [10, 0],
          slots: [
            { from: 3, to: 2 },
            { from: 'a', to: 4 },
          ],
        },
      },
      gears: [{ teeth: 20 }, { teeth: 1, count: 0, module: -1 }],
      wires: [0],
    }
    expect(refused(given)).toEqual([
      'name text',
      'lathe.leadscrew.pitch ambiguous-comma',
      'lathe.leadscrew.hand one-of',
      'lathe.drives[1].ratio zero',
      'lathe.studs whole',
      'lathe.banjo.swing swing-order',
      'lathe.banjo.slots[0] slot-order',
      'lathe.banjo.slots[1].from number',
      'lathe.centreDistance needs-centre-distance',
      'gears[1].teeth whole',
      'gears[1].count whole',
      'gears[1].module positive',
      'wires[0] positive',
    ])
  })

  it('of what parts must be together, whatever else is wrong', () => {
    const drives = Array(18).fill({ ratio: 1 })
    const beside = { swing: [0, 90], slots: [{ from: 20, to: 90 }] }
    const fixedGears = { input: { teeth: 33 }, output: { teeth: 5 } }
    const lathe = { leadscrew: { pitch: 'x' }, studs: 99, drives: drives.slice(2), gearbox: drives.slice(0, 2) }
    expect(refused({ lathe: { ...lathe, banjo: beside, fixedGears }, gears: [{ teeth: 20, count: 300 }] })).toEqual([
      'lathe.leadscrew.pitch not-a-number',
      'lathe.studs whole',
      'lathe.fixedGears.output.teeth whole',
      'lathe.drives too-many-settings',
      'lathe.centreDistance needs-centre-distance',
      'lathe.fixedGears.input no-such-gear',
    ])
    const leadscrew = { pitch: 'x' }
    const two = [
      { teeth: 20, count: 300 },
      { teeth: 21, count: 300 },
    ]
    expect(
      refused({ lathe: { leadscrew, fixedGears: { input: { teeth: 33 } } }, gears: [...two, { teeth: 5 }] }),
    ).toEqual([
      'lathe.leadscrew.pitch not-a-number',
      'gears[2].teeth whole',
      'gears too-many-gears',
      'lathe.fixedGears.input no-such-gear',
    ])
    expect(refused({ lathe: { leadscrew }, gears: [{ teeth: 20, module: 1, dp: 20, count: 0 }] })).toEqual([
      'lathe.leadscrew.pitch not-a-number',
      'gears[0].count whole',
      'gears[0] module-and-dp',
    ])
    const reach = { centreDistance: 500, banjo: { ...beside, slots: [{ from: 20, to: 40 }] } }
    expect(refused({ lathe: { leadscrew, ...reach }, gears: [{ teeth: 20 }] })).toEqual([
      'lathe.leadscrew.pitch not-a-number',
      'lathe.banjo.slots out-of-reach',
    ])
  })

  it('but nothing that a refused part may yet decide', () => {
    // The fixed gear may be the one whose module is wrong; a banjo may reach with it; a wrong distance is one all the same.
    const lathe = {
      leadscrew: { pitch: '1 mm' },
      fixedGears: { input: { teeth: 33 } },
      centreDistance: 500,
      banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }] },
    }
    expect(refused({ lathe, gears: [{ teeth: 20 }, { teeth: 33, module: 0 }] })).toEqual(['gears[1].module positive'])
    expect(refused({ lathe: { ...lathe, centreDistance: -1 }, gears: [{ teeth: 33 }] })).toEqual([
      'lathe.centreDistance positive',
    ])
    expect(refused({ lathe, gears: 'a box' })).toEqual(['gears list'])
    expect(refused({ lathe: { ...lathe, fixedGears: {} }, gears: [] })).toEqual(['gears too-few'])
  })

  it('of workshop, thread and options together', () => {
    const bad = { ...sound, gears: [{ teeth: 2 }] } as Workshop
    expect(problemsOf(() => findTrains(bad, { pitch: '' }, { limit: 2000 }))).toEqual([
      'gears[0].teeth whole',
      'wanted.pitch missing',
      'options.limit whole',
    ])
    expect(problemsOf(() => makeChart(bad, [{ pitch: '1' }, { pitch: 'x' }]))).toEqual([
      'gears[0].teeth whole',
      'wanted[1].pitch not-a-number',
    ])
    expect(problemsOf(() => proposeGears(bad, [{ pitch: '1', starts: 0 }], { teeth: [50, 40] }))).toEqual([
      'gears[0].teeth whole',
      'wanted[0].starts whole',
      'options.teeth teeth-order',
    ])
    expect(problemsOf(() => prepare(bad))).toEqual(['gears[0].teeth whole'])
  })
})

describe('data of unknown origin', () => {
  it('has no -0, which JSON would not keep', () => {
    const checked = checkWorkshop(lathe({ studs: -0, shaftClearance: -0 }))
    const read = checked.ok && checked.workshop.lathe
    expect(read).toMatchObject({ studs: 0, shaftClearance: 0 })
  })

  it('is never followed along prototypes', () => {
    const inherited = Object.create(sound)
    expect(refused(inherited)).toEqual(['lathe object', 'gears list'])
    const poisoned = JSON.parse(
      '{"__proto__":{"lathe":{"leadscrew":{"pitch":"1"}},"gears":[{"teeth":20}]},"constructor":{"prototype":{"x":1}}}',
    )
    expect(refused(poisoned)).toEqual(['lathe object', 'gears list'])
    const text = JSON.stringify(sound).replace('{"teeth":20}', '{"__proto__":{"count":9},"constructor":1,"teeth":20}')
    const checked = checkWorkshop(JSON.parse(text))
    expect(checked).toEqual({ ok: true, workshop: sound })
    expect(({} as { count?: number }).count).toBeUndefined()
  })

  it('may hold cycles', () => {
    const cyclic: Record<string, unknown> = { ...structuredClone(sound) }
    cyclic.self = cyclic
    expect(checkWorkshop(cyclic)).toEqual({ ok: true, workshop: sound })
    cyclic.lathe = cyclic
    cyclic.gears = [cyclic, cyclic.gears]
    expect(refused(cyclic)).toEqual(['lathe.leadscrew object', 'gears[0].teeth whole', 'gears[1] object'])
  })

  it('may be huge', () => {
    expect(refused({ ...sound, gears: Array(10_000_000) })).toEqual(['gears too-long'])
    expect(refused({ ...sound, name: 'x'.repeat(10_000_000) })).toEqual(['name too-long'])
    expect(refused(lathe({ leadscrew: { pitch: '1'.repeat(1_000_000) } }))).toEqual(['lathe.leadscrew.pitch too-long'])
  })

  it('may fail when it is read', () => {
    const throwing = (key: string): object =>
      Object.defineProperty({ ...sound }, key, {
        enumerable: true,
        get: () => {
          throw new Error('no')
        },
      })
    // What cannot be read is not there.
    expect(refused(throwing('lathe'))).toEqual(['lathe object'])
    expect(refused(throwing('gears'))).toEqual(['gears list'])
    expect(refused(throwing('name'))).toEqual([])
    const gone = Proxy.revocable({}, {})
    gone.revoke()
    expect(refused(gone.proxy)).toEqual(['lathe object', 'gears list'])
    expect(refused({ ...sound, gears: gone.proxy })).toEqual(['gears list'])
    const endless = [{ teeth: 20 }]
    Object.defineProperty(endless, Symbol.iterator, {
      value: function* () {
        for (;;) yield { teeth: 20 }
      },
    })
    expect(refused({ ...sound, gears: endless })).toEqual([])
  })

  it('never makes checkWorkshop throw', () => {
    const keys = fc.constantFrom('name', 'lathe', 'gears', 'leadscrew', 'banjo', 'teeth', '__proto__', 'constructor')
    const anything = fc.anything({
      key: fc.oneof(keys, fc.string()),
      withBigInt: true,
      withNullPrototype: true,
      withDate: true,
      withMap: true,
      withSparseArray: true,
    })
    const sprinkled = fc
      .tuple(fc.oneof(questions, banjoQuestions), fc.nat(), anything)
      .map(([{ workshop }, at, junk]) => replaceOne(workshop, at, junk))
    fc.assert(
      fc.property(fc.oneof(anything, sprinkled), (given) => {
        const checked = checkWorkshop(given)
        if (!checked.ok) expect(checked.problems.length).toBeGreaterThan(0)
        else expect(checkWorkshop(JSON.parse(JSON.stringify(checked.workshop)))).toEqual(checked)
      }),
      { numRuns: Number(process.env.RUNS ?? 2000) },
    )
  })
})

/** A copy in which one value somewhere, the at-th in order, is replaced. */
function replaceOne(x: unknown, at: number, junk: unknown): unknown {
  let count = 0
  const leaves = (y: unknown): number =>
    typeof y === 'object' && y !== null
      ? 1 +
        Object.values(y)
          .map(leaves)
          .reduce((a, b) => a + b, 0)
      : 1
  const target = at % leaves(x)
  const copy = (y: unknown): unknown => {
    if (count++ === target) return junk
    if (Array.isArray(y)) return y.map(copy)
    if (typeof y === 'object' && y !== null) return Object.fromEntries(Object.entries(y).map(([k, v]) => [k, copy(v)]))
    return y
  }
  return copy(x)
}

describe('what is returned', () => {
  it('holds what is known here, and nothing else', () => {
    const full: Required<Omit<Workshop, 'lathe'>> & { lathe: Required<Lathe> } = {
      name: 'bench',
      lathe: {
        leadscrew: { pitch: '8 tpi', hand: 'left' },
        drives: [{ name: 'low', ratio: '1/2', reverses: true, belt: 'plain' }],
        gearbox: [{ name: 'A', ratio: 2, reverses: false, belt: 'toothed' }],
        studs: 3,
        planes: 2,
        shaftClearance: 8,
        room: { input: 40, output: 80 },
        centreDistance: 70,
        fixedGears: { input: { teeth: 20, module: 1, pressureAngle: 20 }, output: { teeth: 40 } },
        banjo: {
          pivot: 'input',
          swing: [-20, 40],
          slots: [{ angle: 0, offset: 2, from: 20, to: 60 }],
          keepOut: [{ x: 1, y: 2, radius: 3 }],
        },
        halfNuts: true,
        dial: { travel: '4 in', lines: 16 },
        screwedNose: false,
        speeds: [60, 120.5],
      },
      gears: [
        { teeth: 20, count: 2, module: 1, pressureAngle: 20, shafts: ['input'] },
        { teeth: 40 },
        { teeth: 30, dp: 20 },
      ],
      wires: [0.455],
      head: { worm: 40, plates: [[15, 16], []] },
    }
    expect(checkWorkshop(full)).toEqual({ ok: true, workshop: full })
    const strange = JSON.parse(JSON.stringify(full), (_, value) =>
      typeof value === 'object' && !Array.isArray(value) ? { ...value, colour: 'grey', toString: 1 } : value,
    )
    expect(checkWorkshop(strange)).toEqual({ ok: true, workshop: full })
  })

  it('is a copy', () => {
    const given = structuredClone(sound)
    const checked = checkWorkshop(given)
    given.gears[0].teeth = 99
    given.lathe.leadscrew.pitch = '9'
    expect(checked).toEqual({ ok: true, workshop: sound })
  })
})
