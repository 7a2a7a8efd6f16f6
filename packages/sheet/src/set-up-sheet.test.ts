import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { setUpSheet } from './set-up-sheet.js'
import { banjoExample } from './testing/banjo-example.js'
import { type DemoJob, plain, readDemo, trainFor } from './testing/demo.js'

const { eyepiece, footScrew, tangentScrew, tripodHead, workshop } = readDemo(demo)

const sheetOf = ({ wanted, train, work }: DemoJob) => setUpSheet(workshop, wanted, train, work)

describe('the demo', () => {
  it.each([
    ['eyepiece-cell', eyepiece],
    ['foot-screw', footScrew],
    ['tangent-screw', tangentScrew],
    ['tripod-head', tripodHead],
  ])('%s stays as it is', async (file, job) => {
    const sheet = `${JSON.stringify(sheetOf(job), null, 1)}\n`
    await expect(sheet).toMatchFileSnapshot(`testing/golden/${file}.json.txt`)
  })

  it('names the job as it was typed', () => {
    const { title, job } = sheetOf(tangentScrew)
    expect(title).toBe('Set-up sheet: Tangent screw, 48 tpi')
    expect(job).toMatchObject({ name: 'Tangent screw', wanted: '48 tpi', hand: 'left', starts: 1 })
    expect(job.lead).toMatchObject({ exact: { n: '127', d: '240' }, tpi: '48 tpi' })
    expect(sheetOf(tripodHead).job.tolerance).toMatchObject({ asked: '0.005 mm over 25 mm', ppm: { value: 200 } })
  })

  it('works a 6g screw to the middle of its limits', () => {
    // M6 6g: ASME B1.13M, external thread limits, table 2: major 5.794 to 5.974, effective 5.212 to 5.324.
    const { cutting, lead } = sheetOf(footScrew)
    const limits = cutting!.limits!
    expect(limits.major!.map(({ text }) => text)).toEqual(['5.794 mm', '5.974 mm'])
    expect(limits.effective.map(({ text }) => text)).toEqual(['5.212 mm', '5.324 mm'])
    expect(cutting!.blank.mm).toBeCloseTo(5.884, 3)
    expect(cutting!.effectiveAim.mm).toBeCloseTo(5.268, 3)
    expect(cutting!.root.mm).toBeCloseTo(cutting!.blank.mm - 2 * cutting!.depth.mm, 9)
    // 125 ppm of 12 mm is 1.5 µm, 1.732 times that on the effective diameter, of 112 µm.
    expect(lead.fit!.axial).toMatchObject({ mm: 0.0015, text: '+1.5 µm' })
    expect(lead.fit!.onEffective!.mm).toBeCloseTo(0.0015 * 1.7320508, 9)
    expect(lead.fit!.share!.value).toBeCloseTo((100 * 0.0015 * 1.7320508) / 0.112, 4)
    expect(lead.code).toBe('within')
  })

  it('bores the nut, and lays its limits above nominal', () => {
    const { cutting, mate, checks } = sheetOf(tripodHead)
    // 1.5 in by 11 tpi, Whitworth: depth 0.640327 p = 1.4786 mm (BS 84), so the hole is 38.1 - 2.9572.
    expect(cutting).toMatchObject({ cut: 'nut', blank: { text: '35.143 mm' }, major: { text: '38.100 mm' } })
    expect(cutting!.limits!.effective.map(({ text }) => text)).toEqual(['36.621 mm', '36.721 mm'])
    expect(cutting!.depth.mm).toBeCloseTo(1.4786 + 0.025, 3)
    expect(cutting!.drill!.hole.mm).toBeCloseTo(38.1 - 25.4 / 11, 6)
    // The root stands 0.05 over 38.1, half the allowance: (38.15 - 35.790909) / 2.
    expect(cutting!.drill).toMatchObject({ label: 'Or drill', depth: { text: '1.180 mm' } })
    expect(mate).toMatchObject({ part: { is: 'screw', major: { mm: 38.1 }, drill: null }, tap: null })
    expect(checks.map(({ code }) => code)).toContain('try-mate')
    expect(checks.map(({ code }) => code)).not.toContain('wires')
  })

  it('says that a train is outside the tolerance', () => {
    const { lead } = sheetOf(tripodHead)
    expect(lead.code).toBe('outside')
    expect(lead.verdict).toContain('outside the tolerance of 200 ppm (0.005 mm over 25 mm)')
    expect(lead.error.ppm.value).toBeCloseTo(-480.769, 3)
    expect(lead.error.over!.error.mm).toBeCloseTo(-0.012019, 6)
    expect(sheetOf(eyepiece).lead).toMatchObject({ code: 'exact', error: { over: null, ppm: { text: 'exact' } } })
  })

  it('knows the form and the mate of a measured left-hand screw', () => {
    const { cutting, mate, runOut } = sheetOf(tangentScrew)
    expect(cutting!.effective.mm).toBe(4.42)
    expect(cutting!.major.mm).toBeCloseTo(4.42 + 0.640327 * (25.4 / 48), 5)
    expect(mate!.tap).toMatchObject({ flutes: 3, core: { label: 'Core between 3 flutes' } })
    expect(runOut.travel).toBe('tailstock')
    expect(runOut.text).toContain('towards the tailstock')
    expect(sheetOf(eyepiece).runOut).toMatchObject({ travel: 'headstock', limit: { value: expect.any(Number) } })
  })
})

describe('without thread work', () => {
  it('holds what follows from train and lead', () => {
    const { wanted, train } = footScrew
    const sheet = setUpSheet(workshop, wanted, train)
    expect(sheet).toMatchObject({ cutting: null, mate: null, starts: null, lead: { fit: null } })
    expect(sheet.checks.map(({ code }) => code)).toEqual([
      'isolated',
      'gears-set',
      'by-hand',
      'covered',
      'scratch-pass',
      'half-nuts',
      'return',
    ])
    // The tool counts as a pitch wide: at 45 rev/min and half a second it runs 0.375 mm.
    expect(sheet.runOut.speeds[0]).toMatchObject({ speed: { value: 45 }, groove: { text: '1.38 mm' }, serves: null })
    expect(sheet.runOut).toMatchObject({ groove: null, limit: null })
    expect(setUpSheet(workshop, wanted, train, null)).toEqual(sheet)
  })
})

describe('gears', () => {
  const { wanted, train } = eyepiece
  const gears = (options: Parameters<typeof setUpSheet>[4]) => setUpSheet(workshop, wanted, train, null, options).gears

  it('says what comes off and what goes on', () => {
    const mounted = [{ teeth: 24 }, { teeth: 80, module: 1 }, { teeth: 72, module: 1.5 }, { teeth: 20 }]
    const { changes } = gears({ mounted })
    expect(changes!.stay.map(({ text }) => text)).toEqual(['24', '80'])
    expect(changes!.on.map(({ text }) => text)).toEqual(['72', '48'])
    expect(changes!.off.map(({ text }) => text)).toEqual(['72 (module 1.5)', '20'])
    expect(changes!.text).toBe('Take off: 72 (module 1.5), 20. Put on: 72, 48. Stay, or only move: 24, 80.')
    expect(gears({ mounted: [] }).changes!.text).toContain('Take off: none.')
    expect(gears({}).changes).toBeNull()
  })

  it('gives the distance over two studs: between centres and half of both diameters', () => {
    const { meshes } = gears({ diameters: { input: 10, stud: 12, output: 14 } })
    expect(meshes.map(({ centreDistance, over }) => [centreDistance.mm, over!.distance.mm])).toEqual([
      [48, 59],
      [64, 77],
    ])
    expect(gears({ diameters: { stud: 12 } }).meshes.map(({ over }) => over)).toEqual([null, null])
  })

  it('places the gears: shaft, plane, sense and what turns what', () => {
    const { shafts, line, idlers, drive } = gears({})
    expect(line).toBe('24 → 72, 48 → 80')
    expect(shafts.map(({ letter, turning }) => [letter, turning])).toEqual([
      ['A', 'clockwise'],
      ['B', 'anticlockwise'],
      ['C', 'clockwise'],
    ])
    expect(shafts[1]!.gears).toEqual([
      { teeth: 72, size: null, text: '72', plane: 1, role: 'driven', turns: null, turnedBy: 'A' },
      { teeth: 48, size: null, text: '48', plane: 2, role: 'driver', turns: 'C', turnedBy: null },
    ])
    expect([idlers, drive]).toEqual([[], null])
  })

  it('names drive, gearbox and idlers', () => {
    const shop = plain({
      drives: [
        { name: 'forward', ratio: 1 },
        { name: 'tumbler', ratio: 1, reverses: true },
      ],
      gearbox: [{ ratio: '1/2' }, { ratio: 2 }],
    })
    const left = { pitch: '3 mm', hand: 'left' as const }
    const { gears } = setUpSheet(shop, left, trainFor(shop, left))
    expect(['forward', 'tumbler']).toContain(gears.drive)
    expect(gears.gearbox).toMatch(/^setting [12] of 2, ratio (1\/2|2)$/)
    expect(gears.text).toContain(`drive ${gears.drive}; gearbox ${gears.gearbox}`)
    const idle = plain({ studs: 1 })
    const straight = setUpSheet(idle, { pitch: '3 mm' }, trainFor(idle, { pitch: '3 mm' })).gears
    expect(straight.idlers).toEqual([{ letter: 'B', gear: expect.objectContaining({ teeth: expect.any(Number) }) }])
    expect(straight.text).toContain(`idlers ${straight.idlers[0]!.gear.text} on B`)
  })

  it('gives the settings on a known banjo', () => {
    const { lathe } = banjoExample
    const shop = { lathe, gears: [40, 60, 30, 75].map((teeth) => ({ teeth })) }
    const wanted = { pitch: '0.8 mm' }
    const train = trainFor(shop, wanted)
    const { gears, checks } = setUpSheet(shop, wanted, train)
    const at = train.layout!.shafts[1]!
    expect(gears.shafts[1]!.setting).toEqual({
      slot: at.slot! + 1,
      along: expect.objectContaining({
        text: `${at.along!.toFixed(2)} mm`,
        inch: `${(at.along! / 25.4).toFixed(3)} in`,
      }),
    })
    expect(gears.shafts[1]!.text).toContain(`in slot ${at.slot! + 1}, ${at.along!.toFixed(2)} mm`)
    expect(gears.swing!.value).toBe(train.layout!.swing)
    expect(gears.clearance).toMatchObject({
      gap: { mm: train.layout!.clearance!.mm },
      between: train.layout!.clearance!.between,
    })
    expect(checks[1]!.text).toContain(gears.clearance!.gap.text)
  })
})
