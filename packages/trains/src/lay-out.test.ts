import { describe, expect, it } from 'vitest'
import { box } from '../../../bench/plain/in-brief.js'
import type { Banjo, GearRef, Lathe, Obstacle, SetUp, Stage } from './contract.js'
import { layOut } from './index.js'
import { idlerThatReaches, reachObstacle } from './lay-out.js'

const simple = (...teeth: number[]): SetUp => {
  const gears: GearRef[] = box(...teeth)
  return { stages: [{ driver: gears[0], idlers: gears.slice(1, -1), driven: gears[gears.length - 1] }] }
}
const stageOf = (driver: number, idler: number, driven: number): Stage => {
  const gear = (teeth: number) => ({ teeth, module: 1, pressureAngle: 20 })
  return { driver: gear(driver), idlers: [gear(idler)], driven: gear(driven) }
}
const lathe = (banjo: Partial<Banjo> = {}, parts: Partial<Lathe> = {}): Lathe => ({
  leadscrew: { pitch: '1 mm' },
  centreDistance: 50,
  banjo: { swing: [0, 90], slots: [{ from: 20, to: 40 }], ...banjo },
  ...parts,
})
const why = (machine: Lathe, setUp: SetUp): Obstacle => {
  const laid = layOut(machine, setUp)
  if (laid.ok) throw new Error('it stands')
  expect(laid.obstacle.message).toMatch(/^[A-Z].{20,}\.$/s)
  return laid.obstacle
}

// 50-30-30 over 50 mm: meshes of 40 and 30 mm, a right angle at the stud. From the output it stands 30 mm out, at
// (30^2 + 50^2 - 40^2) / 100 = 18 mm along the line of the shafts and 24 mm above: atan(4/3) = 53.130102354 degrees.
const right = simple(50, 30, 30)

describe('a set-up that stands', () => {
  it('is laid out', () => {
    expect(layOut(lathe(), right)).toEqual({
      ok: true,
      layout: {
        swing: 53.130102354,
        shafts: [
          { x: 50, y: 0, slot: null, along: null },
          { x: 18, y: 24, slot: 0, along: 30 },
          { x: 0, y: 0, slot: null, along: null },
        ],
        meshes: [
          { between: [0, 1], centreDistance: 40 },
          { between: [1, 2], centreDistance: 30 },
        ],
        // Between the tips of 50 and 30: 50 - 26 - 16 - 0.5. From those tips to the shafts there are 17.5 and 27.5 mm.
        clearance: { mm: 7.5, between: expect.stringMatching(/30.*50|50.*30/) },
      },
    })
  })

  it('whatever the box holds and however many studs are said to be there', () => {
    expect(layOut(lathe({}, { studs: 0 }), right).ok).toBe(true)
  })

  it('takes gears of a diametral pitch and of other angles', () => {
    // 20 DP is module 1.27: all of it 1.27 times as large.
    const by = 1.27
    const gear = (teeth: number) => ({ teeth, dp: 20, module: by, pressureAngle: 14.5 })
    const setUp = { stages: [{ driver: gear(50), idlers: [gear(30)], driven: gear(30) }] }
    const laid = layOut(lathe({}, { centreDistance: 50 * by }), setUp)
    expect(laid).toMatchObject({ ok: true, layout: { shafts: [{}, { x: 18 * by, y: 24 * by, along: 30 * by }, {}] } })
  })

  it('takes gears told by module for those of the same diametral pitch', () => {
    const told = [{ dp: 20 }, { module: 1.27 }, { dp: 20, module: 1.27 }]
    for (const idler of told)
      for (const driven of told) {
        const setUp = {
          stages: [
            { driver: { teeth: 50, dp: 20 }, idlers: [{ teeth: 30, ...idler }], driven: { teeth: 30, ...driven } },
          ],
        }
        const laid = layOut(lathe({}, { centreDistance: 63.5 }), setUp)
        expect(laid).toMatchObject({ ok: true, layout: { shafts: [{}, { x: 18 * 1.27, y: 24 * 1.27 }, {}] } })
      }
  })

  it('tells gears of equal teeth apart by module and angle', () => {
    // 40:20 in module 1 to a stud 30 mm from the input, 20:20 in module 2 from there, 40 mm: the mirror of the right angle.
    const small = { teeth: 40, pressureAngle: 14.5 }
    const coarse = { teeth: 20, module: 2, pressureAngle: 14.5 }
    const stages = [
      { driver: small, driven: { teeth: 20, pressureAngle: 14.5 } },
      { driver: coarse, driven: { ...coarse, pressureAngle: 14.5 } },
    ]
    const laid = layOut(lathe({ slots: [{ from: 20, to: 45 }] }, { shaftClearance: 1, planes: 3 }), { stages })
    expect(laid).toMatchObject({ ok: true, layout: { shafts: [{}, { x: 32, y: 24, along: 40 }, {}] } })
  })
})

it('a reach that is short in several slots names the worst', () => {
  const slot = (mm: number, slot: number) => ({ what: 'slot', mm, stud: 1 + slot, slot, end: 'far' }) as const
  const faults = [slot(1, 0), { what: 'mesh', mm: 9, stud: 4, slot: null, too: 'far' } as const, slot(4, 2), slot(2, 1)]
  expect(reachObstacle({ mm: 16, faults })).toMatchObject({ code: 'reach', shortMm: 16, slot: 2 })
  expect(reachObstacle({ mm: 9, faults: [faults[1]] })).toMatchObject({ slot: null })
})

describe('an idler that would do', () => {
  // Slot 1 from 31 to 40 mm: the stud of 50-z-30 stands 15 + z/2 mm out, which z = 32 is the first to bring.
  const short = lathe({ slots: [{ from: 31, to: 40 }] })

  it('is the smallest in place of one of the train', () => {
    expect(why(short, right).message).toContain('An idler of 32 teeth')
    expect(idlerThatReaches(short, [stageOf(50, 30, 30)])).toBe(32)
    // Of 15 teeth, and of 127.
    expect(
      idlerThatReaches(lathe({ slots: [{ from: 5, to: 40 }] }, { centreDistance: 40, shaftClearance: 0 }), [
        stageOf(50, 60, 20),
      ]),
    ).toBe(15)
    const large = { swing: [-180, 180] as [number, number], slots: [{ from: 78.5, to: 90 }] }
    expect(idlerThatReaches(lathe(large), [stageOf(50, 30, 30)])).toBe(127)
    expect(idlerThatReaches(lathe({ ...large, slots: [{ from: 78.6, to: 90 }] }), [stageOf(50, 30, 30)])).toBeNull()
  })

  it('takes the place of one of several', () => {
    // Straight on, 20-20-20-20 spans 60 mm and an idler of 30 in place of one spans 70; 25 in place of both would too.
    const straight = (centreDistance: number) =>
      lathe({ swing: [-10, 10], slots: [{ from: 5, to: 85 }] }, { centreDistance, shaftClearance: 1 })
    const stage = stageOf(20, 20, 20)
    const long = { ...stage, idlers: [...stage.idlers, ...stage.idlers] }
    expect(idlerThatReaches(straight(69.5), [long])).toBe(30)
    // Two such stages of one idler each span 80.
    expect(idlerThatReaches(straight(89.5), [stage, stage])).toBe(30)
  })

  it('is none where the train has no idler', () => {
    expect(why(lathe({}, { centreDistance: 51 }), simple(40, 60)).message).not.toContain('idler')
  })
})

describe('what does not reach', () => {
  it.each<[what: string, banjo: Partial<Banjo>, shortMm: number, slot: number | null, says: string]>([
    ['past the near end', { slots: [{ from: 31, to: 40 }] }, 1, 0, 'stand 1 mm beyond the near end of slot 1'],
    ['past the far end', { slots: [{ from: 20, to: 28.5 }] }, 1.5, 0, 'stand 1.5 mm beyond the far end of slot 1'],
    // A hole serves from nominal to a tenth of a module more.
    ['a hole too far out', { slots: [{ from: 30.3, to: 30.3 }] }, 0.2, 0, 'stud 1 in slot 1 stays 0.2 mm too far'],
    ['a hole too near', { slots: [{ from: 29.5, to: 29.5 }] }, 0.5, 0, 'stud 1 in slot 1 stays 0.5 mm too near'],
    // 30 mm beside the pivot a stud is just at its mesh; at 31 it stays 1 mm away wherever it stands.
    [
      'a slot too far aside',
      { slots: [{ offset: 31, from: 0, to: 40 }], swing: [-90, 90] },
      1,
      0,
      'stays 1 mm too far',
    ],
  ])('%s', (_, banjo, shortMm, slot, says) => {
    const obstacle = why(lathe(banjo), right)
    expect(obstacle).toMatchObject({ code: 'reach', slot })
    expect(obstacle).toHaveProperty('shortMm', expect.closeTo(shortMm, 8))
    expect(obstacle.message).toContain(says)
  })

  it('past the stop of the swing', () => {
    const missing = (Math.atan2(4, 3) * 180) / Math.PI
    // As an arc at the stud, 30 mm out.
    const below = why(lathe({ swing: [0, 50] }), right)
    expect(below).toHaveProperty('shortMm', expect.closeTo(((missing - 50) * Math.PI * 30) / 180, 8))
    expect(below.message).toContain('swing to 53.13 degrees, past its stop at 50')
    const above = why(lathe({ swing: [60, 90] }), right)
    expect(above).toHaveProperty('shortMm', expect.closeTo(((60 - missing) * Math.PI * 30) / 180, 8))
  })

  it('with shafts too far apart or too near', () => {
    const told = (banjo: Partial<Banjo>, centreDistance: number, setUp: SetUp) => {
      const obstacle = why(lathe(banjo, { centreDistance }), setUp)
      return [obstacle.code === 'reach' && obstacle.shortMm, /last mesh.*/.exec(obstacle.message)?.[0]]
    }
    // 30 + 40 mm are 30 short of 100 mm.
    expect(told({}, 100, right)).toEqual([30, 'last mesh stays 30 mm too far apart.'])
    // From 30 mm out to the far side of 8 there are 38, where the mesh wants 40.
    expect(told({ swing: [0, 180] }, 8, right)).toEqual([2, 'last mesh stays 2 mm too near.'])
    // 20-20-60: the stud is 40 mm out, and over 8 mm never nearer to the input than 32, where the mesh wants 20.
    expect(told({ slots: [{ from: 40, to: 60 }] }, 8, simple(20, 20, 60))[0]).toBe(12)
    expect(told({ slots: [{ from: 40, to: 60 }] }, 8, simple(20, 20, 60))[1]).toMatch('12 mm too far apart')
  })

  it('with no stud to adjust it', () => {
    // 40:60 meets at 50 mm, and up to 50.1.
    expect(layOut(lathe({}, { centreDistance: 50.1 }), simple(40, 60))).toMatchObject({
      ok: true,
      layout: { swing: null },
    })
    const far = why(lathe({}, { centreDistance: 51 }), simple(40, 60))
    expect(far).toHaveProperty('shortMm', expect.closeTo(0.9, 8))
    const near = why(lathe({}, { centreDistance: 49 }), simple(40, 60))
    expect(near).toHaveProperty('shortMm', expect.closeTo(1, 8))
    expect(near.message).toContain('too near')
  })

  it('on a banjo that cannot swing', () => {
    // At 60 degrees the stud is sqrt(30^2 + 50^2 - 2 x 30 x 50 cos 60) = sqrt(1900) = 43.589 mm from the input: 3.489 past 40.1.
    const obstacle = why(lathe({ swing: [60, 60] }), right)
    expect(obstacle).toHaveProperty('shortMm', expect.closeTo(Math.sqrt(1900) - 40.1, 8))
    expect(obstacle.message).toContain('the last mesh stays 3.49 mm too far apart')
  })
})

describe('what fouls', () => {
  it('a shaft', () => {
    // The tip of 50 is 26 mm out; with 25 mm round the output shaft 51 are wanted of 50.
    const obstacle = why(lathe({}, { shaftClearance: 25 }), right)
    expect(obstacle).toMatchObject({ code: 'clearance', gear: { teeth: 50 }, shortMm: 1 })
    expect(obstacle.message).toContain('1 mm')
    expect(obstacle.message).toMatch(/50.*output shaft/)
  })

  it('a tip in its plane', () => {
    // Tips of 50 and 46: 26 + 24 + 0.5 of 50 mm.
    const obstacle = why(lathe({}, { shaftClearance: 1 }), simple(50, 30, 46))
    expect(obstacle).toMatchObject({ code: 'clearance', shortMm: 0.5 })
    expect(obstacle.message).toMatch(/50.*46.*plane 1|46.*50.*plane 1/)
  })

  it('a casting', () => {
    // The stud at (18, 24), its tip 16 out; a bolt of radius 5 at (18, 44).
    const obstacle = why(
      lathe({
        keepOut: [
          { x: 90, y: 90, radius: 1 },
          { x: 18, y: 44, radius: 5 },
        ],
      }),
      right,
    )
    expect(obstacle).toMatchObject({ code: 'clearance', gear: { teeth: 30 }, shortMm: 1 })
    expect(obstacle.message).toContain('keep-out 2')
  })

  it('the room round a fixed shaft', () => {
    expect(why(lathe({}, { room: { input: 25 } }), right)).toMatchObject({
      code: 'clearance',
      gear: { teeth: 50 },
      shortMm: 1,
    })
    expect(why(lathe({}, { room: { output: 15.75 } }), right)).toMatchObject({ gear: { teeth: 30 }, shortMm: 0.25 })
    expect(layOut(lathe({}, { room: { input: 26, output: 16 } }), right).ok).toBe(true)
  })

  it('the gear beside it, where there is one plane', () => {
    const stages = [
      { driver: { teeth: 30 }, driven: { teeth: 30 } },
      { driver: { teeth: 20 }, driven: { teeth: 40 } },
    ]
    expect(why(lathe({}, { planes: 1 }), { stages })).toMatchObject({ code: 'shafts' })
    expect(layOut(lathe({}, { planes: 1 }), right).ok).toBe(true)
  })
})
