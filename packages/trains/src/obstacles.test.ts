import { describe, expect, it } from 'vitest'
import { box, shop } from '../../../bench/plain/in-brief.js'
import type { Banjo, FindOptions, Lathe, Obstacle, ThreadWanted, Workshop } from './contract.js'
import { findTrains, layOut } from './index.js'

const obstacles = (workshop: Workshop, wanted: Partial<ThreadWanted>, options?: FindOptions): Obstacle[] => {
  const found = findTrains(workshop, { pitch: '1/2', tolerance: { ppm: 0 }, ...wanted }, options)
  expect(found.trains).toEqual([])
  for (const { message } of found.obstacles) expect(message).toMatch(/^[A-Z].{20,}\.$/s)
  return found.obstacles
}
const codes = (found: Obstacle[]): string[] => found.map(({ code }) => code)

describe('tolerance', () => {
  it('tells how far the closest is off', () => {
    // Of 20, 40, 60 in pairs 20:60 is nearest to 0.31: (1/3) / 0.31 - 1 = 7/93, or 75,268.817 ppm.
    const found = obstacles(shop(box(20, 40, 60), { studs: 1 }), { pitch: '0.31', tolerance: { ppm: 1 } })
    expect(codes(found)).toEqual(['tolerance'])
    expect(found[0]).toMatchObject({ closestPpm: 7e6 / 93 })
    expect(found[0].message).toContain('75269 ppm')
  })

  it('counts what is short by as much', () => {
    // And to 0.36 it is -2/27 off: below is closest too.
    const found = obstacles(shop(box(20, 40, 60), { studs: 1 }), { pitch: '0.36', tolerance: { ppm: 1 } })
    expect(found[0]).toMatchObject({ code: 'tolerance', closestPpm: expect.closeTo(-2e6 / 27, 6) })
  })
})

describe('studs', () => {
  it('tells how many would do', () => {
    // 1/4 is 30 x 40 : 60 x 80 only, a compound train, which stands on one stud. Without studs two gears mesh at once,
    // which cuts left-hand: so there is no closest one either.
    const found = obstacles(shop(box(30, 40, 60, 80), { studs: 0 }), { pitch: '1/4' })
    expect(codes(found)).toEqual(['studs'])
    expect(found[0]).toMatchObject({ needed: 1, message: 'It needs 1 stud; the lathe has 0.' })
  })

  it('of stages that were asked for', () => {
    // Four stages stand on three studs.
    const gears = box(20, 30, 40, 50, 60, 70, 80, 90)
    const wanted = { pitch: `${20 * 30 * 40 * 50}/${60 * 70 * 80 * 90}`, hand: 'right' as const }
    const found = obstacles(shop(gears, { studs: 1, shaftClearance: 1 }), wanted, { stages: 4 })
    expect(found.find(({ code }) => code === 'studs')).toMatchObject({ needed: 3 })
  })

  it('and are not, where fewer stages were asked for than they would carry', () => {
    // Compound only, as above; but one stage, which stands on no more studs than there are.
    const found = obstacles(shop(box(30, 40, 60, 80), { studs: 0 }), { pitch: '1/4' }, { stages: 1 })
    expect(codes(found)).not.toContain('studs')
  })

  it('comes after the tolerance when no set of the box is within it', () => {
    // Without studs 20:40 and its like cut left-hand; 1/4 is compound and wants an idler to be left-handed: two studs.
    const found = obstacles(shop(box(30, 35, 40, 60, 80), { studs: 0 }), { pitch: '1/4', hand: 'left' })
    expect(codes(found)).toEqual(['tolerance', 'studs'])
    expect(found[1]).toMatchObject({ needed: 2 })
  })

  it('on a banjo, one more', () => {
    // 50-30-30 stands on one stud 30 mm from the output, as below.
    const banjo: Banjo = { swing: [0, 90], slots: [{ from: 20, to: 40 }] }
    const found = obstacles(shop([...box(50), { teeth: 30, count: 2 }], { studs: 0, centreDistance: 50, banjo }), {
      pitch: '5/3',
    })
    expect(found.find(({ code }) => code === 'studs')).toMatchObject({ needed: 1 })
  })

  it('for idlers', () => {
    // 20 drives 40 left-handed by three meshes, so over two idlers, 30 and 35, on two studs.
    const found = obstacles(shop(box(20, 40, 30, 35), { studs: 1 }), { hand: 'left' })
    expect(codes(found).slice(0, 2)).toEqual(['hand', 'studs'])
    expect(found[1]).toMatchObject({ needed: 2 })
  })
})

describe('two gears that would have to meet directly', () => {
  const bridge = { code: 'shafts', message: expect.stringContaining('no gear is left for an idler between them') }

  it('want an idler between them, and it is not the hand that stands in the way', () => {
    // 20:40 is right-handed by the reversing drive; no third gear is left to go between.
    const drives = [{ ratio: 1 }, { ratio: 1, reverses: true }]
    expect(obstacles(shop(box(20, 40), { studs: 1, drives }), {})).toEqual([bridge])
    // So it is at another lead, where nothing is within tolerance either.
    expect(obstacles(shop(box(20, 40), { studs: 1, drives }), { pitch: '0.7' })).toEqual([bridge])
    // Two that mesh, and one that meshes with neither.
    const gears = [{ teeth: 20, module: 2 }, ...box(40, 30)]
    expect(obstacles(shop(gears, { studs: 1 }), { pitch: '0.7' })).toEqual([bridge])
  })

  it('turn the wrong way on a lathe without studs, whatever the lead', () => {
    expect(obstacles(shop(box(20, 40, 60), { studs: 0 }), { pitch: '1.1' })).toEqual([
      { code: 'hand', message: expect.stringContaining('turns the wrong way') },
    ])
  })

  it('are found by none, where none mesh', () => {
    const gears = [20, 30, 40].map((teeth, i) => ({ teeth, module: 1 + i }))
    expect(obstacles(shop(gears, { studs: 0 }), { pitch: '1.1' })).toEqual([
      { code: 'shafts', message: expect.stringContaining('whatever its lead') },
    ])
  })
})

describe('hand', () => {
  it('is told when no gear is left for an idler', () => {
    // 20-30-40 cuts right-hand; for left-hand the box has no fourth gear, however many studs there are.
    const found = obstacles(shop(box(20, 40, 30)), { hand: 'left' })
    expect(found).toEqual([{ code: 'hand', message: expect.stringContaining('left-handed') }])
  })

  it('of a thread that is right-handed because nothing else was said', () => {
    const found = obstacles(shop(box(20, 40), { studs: 0 }), {})
    expect(found).toEqual([{ code: 'hand', message: expect.stringContaining('right-handed') }])
  })

  it('and not when there is another way', () => {
    const reversing = { drives: [{ ratio: 1 }, { ratio: 1, reverses: true }] }
    const found = findTrains(shop(box(20, 40, 30), reversing), { pitch: '1/2', hand: 'left' })
    expect(found.trains).toHaveLength(1)
    expect(found.obstacles).toEqual([])
  })
})

describe('clearance', () => {
  it('tells the gear and by how much it fouls the next shaft', () => {
    // 30 mm round each shaft. Spare of the arrangements of 30, 40 : 60, 80, tip radii being half of two teeth more:
    // 30:60 40:80   45 - 21 - 30 = -6 for the 40, 60 - 31 - 30 = -1 for the 60: short by 6
    // 40:60 30:80   50 - 16 - 30 = 4 for the 30, 55 - 31 - 30 = -6 for the 60: short by 6
    // 30:80 40:60   50 - 41 - 30 = -21, and 40:80 30:60  45 - 41 - 30 = -26 for the 80.
    // Of the two that lack 6 mm the first reads smaller.
    const found = obstacles(shop(box(30, 40, 60, 80), { studs: 1, shaftClearance: 30 }), { pitch: '1/4' })
    expect(codes(found)).toEqual(['clearance', 'tolerance'])
    expect(found[0]).toMatchObject({ gear: { teeth: 40, module: 1, pressureAngle: 20 }, shortMm: 6 })
    expect(found[0].message).toMatch(/gear of 40 teeth fouls the next shaft by 6 mm/)
  })

  it('tells it of the set that fouls least, whichever comes first', () => {
    // 35 mm round each shaft. 30, 40 : 60, 80 comes first and lacks 11 mm, as above and 5 more; two others lack 1:
    // 40:80 50:100  60 - 26 - 35 = -1 for the 50, 75 - 41 - 35 = -1 for the 80
    // 50:60 30:100  55 - 16 - 35 = 4 for the 30, 65 - 31 - 35 = -1 for the 60
    // of which the first reads smaller, and the 50 comes first in it.
    const gears = box(30, 40, 50, 60, 80, 100)
    const found = obstacles(shop(gears, { studs: 1, shaftClearance: 35 }), { pitch: '1/4' })
    expect(found[0]).toMatchObject({ code: 'clearance', gear: { teeth: 50 }, shortMm: 1 })
  })

  it('scales with the module', () => {
    // The same in module 2, and 60 mm round each shaft.
    const gears = box(30, 40, 60, 80).map((gear) => ({ ...gear, module: 2 }))
    const found = obstacles(shop(gears, { studs: 1, shaftClearance: 60 }), { pitch: '1/4' })
    expect(found[0]).toMatchObject({ code: 'clearance', gear: { teeth: 40, module: 2 }, shortMm: 12 })
  })

  it('tells it of the arrangement that fouls least, though it has more idlers than another', () => {
    // 20:16 60:30, the 30 fixed: driver 60 beside 20's shaft lacks 18 - 31 - 6.5 = -19.5. With the 48 between 20 and 16,
    // it keeps (48 + 16)/2 - 31 - 6.5 = -5.5 from the idler's shaft.
    const lathe: Partial<Lathe> = {
      drives: [{ ratio: '1/2' }, { ratio: 1 }, { ratio: 1, reverses: true }],
      room: { input: 16 },
      fixedGears: { output: { teeth: 30 } },
    }
    const wanted = { pitch: '3 mm', hand: 'left', tolerance: { ppm: 250_000 } } as const
    const found = obstacles(shop(box(20, 48, 60, 30, 16), lathe), wanted, { stages: 3 })
    expect(found.find(({ code }) => code === 'clearance')).toMatchObject({ gear: { teeth: 60 }, shortMm: 5.5 })
  })

  it('tells tips that meet in one plane', () => {
    // 22:60 61:24 23:26 with ends fixed, as laid out in two planes: between the tips of 60 and 23, both in plane 1,
    // (61 + 24)/2 - 62/2 - 25/2 - 0.5 = -1.5; 22:60 23:24 61:26 and 22:24 61:60 23:26 lack more to the shafts,
    // 23.5 - 31 and 23 - 31.5, and 22:24 23:60 61:26 lacks 41.5 - 13 - 31.5 - 0.5 = -3.5.
    const lathe = { shaftClearance: 0.001, fixedGears: { input: { teeth: 22 }, output: { teeth: 26 } } }
    const found = obstacles(shop(box(22, 61, 23, 60, 24, 26), lathe), {
      pitch: `${22 * 61 * 23}/${60 * 24 * 26}`,
      hand: 'left',
    })
    // Freeing the fixed ends would do as well.
    expect(codes(found).slice(0, 2)).toEqual(['shafts', 'clearance'])
    expect(found[1]).toMatchObject({ gear: { teeth: expect.toSatisfy((t) => t === 60 || t === 23) }, shortMm: 1.5 })
    expect(found[1].message).toContain('a gear in its plane by 1.5 mm')
  })
})

describe('reach, the distance between the fixed shafts known', () => {
  // 20-30-40 has meshes of 25 and 35 mm: 10 to 60 mm.
  const apart = (centreDistance: number, studs = 1) => obstacles(shop(box(20, 40, 30), { studs, centreDistance }), {})

  it('tells how far the chain is short', () => {
    expect(apart(61)[0]).toMatchObject({ code: 'reach', shortMm: 1, slot: null })
    expect(apart(61)[0].message).toContain('out by 1 mm')
  })

  it('and how far it is too long', () => {
    expect(apart(8.5)[0]).toMatchObject({ code: 'reach', shortMm: 1.5, slot: null })
  })

  it('of two gears that should meet directly', () => {
    // 20:40 needs 30 mm, left-handed.
    const lathe = { studs: 0, centreDistance: 29 }
    const found = obstacles(shop(box(20, 40), lathe), { hand: 'left' })
    expect(found[0]).toMatchObject({ code: 'reach', shortMm: 1, slot: null })
    // It holds up to 30.1 mm: of 30.15 it lacks what layOut says of the same shafts.
    const wide = { studs: 0, centreDistance: 30.15 }
    expect(obstacles(shop(box(20, 40), wide), { hand: 'left' })[0]).toMatchObject({ code: 'reach', shortMm: 0.05 })
    const banjo: Banjo = { swing: [0, 90], slots: [{ from: 20, to: 40 }] }
    const laid = layOut(
      { leadscrew: { pitch: '1 mm' }, ...wide, banjo },
      { stages: [{ driver: { teeth: 20 }, driven: { teeth: 40 } }] },
    )
    expect(laid).toMatchObject({ ok: false, obstacle: { code: 'reach', shortMm: 0.05 } })
  })
})

describe('reach on the banjo', () => {
  // 50-30-30 over a centre distance of 50: meshes of 40 and 30 mm close a right angle at the stud, which stands 30 mm from
  // the output, the pivot, at atan(4/3) = 53.1301 degrees.
  const on = (banjo: Partial<Banjo>): [Lathe, Obstacle[]] => {
    const lathe: Lathe = {
      leadscrew: { pitch: '1 mm' },
      studs: 1,
      centreDistance: 50,
      banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }], ...banjo },
    }
    return [lathe, obstacles({ lathe, gears: [{ teeth: 50 }, { teeth: 30, count: 2 }] }, { pitch: '5/3' })]
  }

  it('tells which stud would have to go how far beyond which end of which slot', () => {
    const [, far] = on({ slots: [{ from: 20, to: 29.5 }] })
    expect(far[0]).toMatchObject({ code: 'reach', shortMm: 0.5, slot: 0 })
    expect(far[0].message).toContain('stud 1 would have to stand 0.5 mm beyond the far end of slot 1')
    // Slot 2 is nearer to serving than slot 1, which would send the stud 4 mm.
    const [, near] = on({
      slots: [
        { from: 34, to: 40 },
        { angle: 10, from: 30.25, to: 40 },
      ],
    })
    expect(near[0]).toMatchObject({ code: 'reach', shortMm: 0.25, slot: 1 })
    expect(near[0].message).toContain('0.25 mm beyond the near end of slot 2')
  })

  it('tells which fixed hole a mesh misses', () => {
    // The mesh of 30 and 30 is 30 mm; the hole of slot 1 stands 30.5 mm from the pivot, past its play of 0.1 mm.
    const [, found] = on({ slots: [{ from: 30.5, to: 30.5 }] })
    expect(found[0]).toMatchObject({ code: 'reach', shortMm: expect.closeTo(0.4, 6), slot: 0 })
    expect(found[0].message).toContain('stud 1 in slot 1 stays 0.4 mm too far for its mesh')
  })

  it('tells which swing is missing', () => {
    // 53.1301 - 50 = 3.1301 degrees at 30 mm: 1.63894 mm.
    const [, found] = on({ swing: [0, 50] })
    expect(found[0]).toMatchObject({ code: 'reach', slot: null })
    expect(found[0]).toHaveProperty(
      'shortMm',
      expect.closeTo(((Math.atan2(4, 3) * 180) / Math.PI - 50) * (Math.PI / 180) * 30, 6),
    )
    expect(found[0].message).toContain('would have to swing to 53.13 degrees, past its stop at 50')
  })

  it('names an idler that would make it reach', () => {
    const [lathe, found] = on({ slots: [{ from: 20, to: 29.5 }] })
    const teeth = Number(/An idler of (\d+) teeth/.exec(found[0].message)?.[1])
    const stage = { driver: { teeth: 50 }, driven: { teeth: 30 } }
    expect(layOut(lathe, { stages: [{ ...stage, idlers: [{ teeth }] }] })).toMatchObject({ ok: true })
    expect(layOut(lathe, { stages: [{ ...stage, idlers: [{ teeth: 30 }] }] })).toMatchObject({ ok: false })
  })

  it('takes more idlers than the fewest where they reach further, and names the one that would do', () => {
    // 18 : 20 alone spans 19 mm of 60; with the 30 between them it spans 24 + 25 = 49 mm.
    const lathe: Lathe = {
      leadscrew: { pitch: '1 mm' },
      studs: 1,
      drives: [{ ratio: 1 }, { ratio: 1, reverses: true }],
      centreDistance: 60,
      banjo: { swing: [-90, 90], slots: [{ from: 10, to: 60 }] },
    }
    const [found] = obstacles({ lathe, gears: box(18, 20, 30) }, { pitch: '0.9' })
    expect(found).toMatchObject({ code: 'reach', shortMm: 11 })
    expect(found.message).toContain('An idler of 41 teeth')
    const { banjo: _, ...bare } = lathe
    expect(obstacles({ lathe: bare, gears: box(18, 20, 30) }, { pitch: '0.9' })[0]).toMatchObject({ shortMm: 11 })
  })

  it('tells a gear that fouls where it would stand', () => {
    // The stud stands at (18, 24); a bolt of radius 5 at (18, 44) is 20 away, and the tip of 30 is 16 out: 1 mm short.
    const [, found] = on({ keepOut: [{ x: 18, y: 44, radius: 5 }] })
    expect(found[0]).toMatchObject({ code: 'clearance', gear: { teeth: 30 }, shortMm: 1 })
  })
})

describe('shafts', () => {
  it('are told when gears may not sit where they would have to', () => {
    const gears: Workshop['gears'] = [
      { teeth: 20, shafts: ['output'] },
      { teeth: 40, shafts: ['input'] },
      { teeth: 30 },
    ]
    const found = obstacles(shop(gears, { studs: 1 }), {})
    expect(codes(found)).toEqual(['shafts', 'tolerance'])
    expect(found[0].message).not.toContain('a plane each')
  })

  it('and when a fixed gear or the room forbids', () => {
    const fixed = { studs: 1, fixedGears: { input: { teeth: 30 } } }
    expect(codes(obstacles(shop(box(20, 40, 30), fixed), {}))[0]).toBe('shafts')
    // The tip of 40 is 21 mm out.
    const room = { studs: 1, room: { output: 20.9 } }
    expect(codes(obstacles(shop(box(20, 40, 30), room), {}))[0]).toBe('shafts')
  })

  it('and when one plane holds no pair', () => {
    const found = obstacles(shop(box(30, 40, 60, 80), { studs: 1, planes: 1 }), { pitch: '1/4' })
    expect(codes(found)).toEqual(['shafts', 'tolerance'])
    expect(found[0].message).toContain('a plane each')
  })

  it('and when nothing meshes with anything', () => {
    const gears = [{ teeth: 20 }, { teeth: 40, module: 2 }]
    expect(codes(obstacles(shop(gears, { studs: 0 }), { hand: 'left' }))).toEqual(['shafts'])
    expect(codes(obstacles(shop(gears, { studs: 0 }), { pitch: '3' }))).toEqual(['shafts'])
    expect(codes(obstacles(shop(box(20)), {}))).toEqual(['shafts'])
  })
})

describe('two limits that only together stand in the way', () => {
  it('are both told', () => {
    // 20:40 left-handed wants two idlers of one gear left; and 40 may not sit on the output, whatever the hand.
    const gears: Workshop['gears'] = [{ teeth: 20 }, { teeth: 40, shafts: ['input', 'stud'] }, { teeth: 30 }]
    const found = obstacles(shop(gears, { studs: 2 }), { hand: 'left' })
    expect(codes(found)).toEqual(['hand', 'shafts'])
  })

  it('are each measured with the other lifted', () => {
    // 30, 40 : 60, 80 lacks 6 mm to the shafts, as above, and is right-handed without a gear for an idler.
    const gears = box(30, 40, 60, 80)
    const hand = obstacles(shop(gears, { studs: 1, shaftClearance: 30 }), { pitch: '1/4', hand: 'left' })
    expect(codes(hand).slice(0, 2)).toEqual(['hand', 'clearance'])
    expect(hand[1]).toMatchObject({ gear: { teeth: 40 }, shortMm: 6 })
    // Its two meshes reach (30 + 40 + 60 + 80) / 2 = 105 mm: of 300 mm they lack 195.
    const far = obstacles(shop(gears, { studs: 1, shaftClearance: 30, centreDistance: 300 }), { pitch: '1/4' })
    expect(far.slice(0, 2)).toMatchObject([
      { code: 'clearance', gear: { teeth: 40 }, shortMm: 6 },
      { code: 'reach', shortMm: 195 },
    ])
  })
})

it('no obstacle is told beside a train', () => {
  expect(findTrains(shop(box(20, 40, 30), { studs: 1 }), { pitch: '0.5' }).obstacles).toEqual([])
})
