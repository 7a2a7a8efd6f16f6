import type { Lathe, ThreadWanted } from '@trainwright/trains'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { setUpSheet } from './set-up-sheet.js'
import { plain, readDemo, trainFor } from './testing/demo.js'
import type { ThreadWork } from './thread-work.js'

const { footScrew, workshop } = readDemo(demo)

function sheet(lathe: Partial<Lathe>, wanted: ThreadWanted, work: Partial<ThreadWork> | null = null, gears?: number[]) {
  const shop = plain(lathe, gears)
  const full = work && ({ form: 'metric', major: 20, ...work } as ThreadWork)
  return setUpSheet(shop, wanted, trainFor(shop, wanted), full)
}

describe('run-out', () => {
  it('limits the speed by groove, lead and tool', () => {
    // (3 - 1) mm of room at 1.5 mm a turn in half a second: 2 / 1.5 x 120 = 160 rev/min.
    const { runOut } = sheet({ speeds: [200, 50, 160] }, { pitch: '1.5 mm' }, { groove: 3, tool: 1 })
    expect(runOut.limit).toMatchObject({ value: 160, text: '160 rev/min' })
    expect(runOut.speeds.map(({ speed, serves }) => [speed.value, serves])).toEqual([
      [50, true],
      [160, true],
      [200, false],
    ])
    expect(runOut.text).toContain('These serve: 50 rev/min, 160 rev/min.')
    expect(runOut.speeds[1]).toMatchObject({ groove: { text: '3.00 mm' }, text: expect.stringContaining(': serves') })
    expect(runOut.speeds[2]!.text).toContain(': too fast')
  })

  it('rounds a limit down, and gives the slower hand more groove', () => {
    const { limit } = sheet({}, { pitch: '1.5 mm' }, { groove: 2.99, tool: 1 }).runOut
    expect(limit).toMatchObject({ value: expect.closeTo(159.2, 5), text: '159.2 rev/min' })
    expect(sheet({}, { pitch: '1.5 mm' }, { groove: 2.999, tool: 1 }).runOut.limit!.text).toBe('159.9 rev/min')
    expect(sheet({}, { pitch: '1.5 mm' }, { groove: 3, tool: 1, reaction: 1 }).runOut.limit!.value).toBe(80)
  })

  it('rounds a groove up, so that the groove it asks for is enough', () => {
    // 1.5 mm a turn at 33 rev/min in half a second: 0.4125 mm beside the tool's 0.5; 0.9125 mm is 0.03593 in.
    expect(sheet({ speeds: [33] }, { pitch: '1.5 mm' }, { tool: 0.5 }).runOut.speeds[0]!.groove).toEqual({
      mm: 0.9125,
      text: '0.92 mm',
      inch: '0.036 in',
    })
    const speed = fc.integer({ min: 1, max: 20_000 }).map((n) => n / 10)
    fc.assert(
      fc.property(
        speed,
        fc.constantFrom('1.5 mm', '3 mm', '2 mm'),
        fc.integer({ min: 1, max: 300 }),
        (at, pitch, n) => {
          const work = { tool: n / 100 }
          const asked = (more: object) => sheet({ speeds: [at] }, { pitch }, { ...work, ...more }).runOut.speeds[0]!
          const { groove } = asked({})
          const [mm, inch] = [Number.parseFloat(groove.text), Number.parseFloat(groove.inch)]
          expect(asked({ groove: mm }).serves).toBe(true)
          expect(asked({ groove: Number((inch * 25.4).toFixed(6)) }).serves).toBe(true)
          expect(mm - groove.mm).toBeLessThan(0.01)
          expect(inch * 25.4 - groove.mm).toBeLessThan(0.0254)
        },
      ),
      { numRuns: 50 },
    )
  })

  it('says what to do when nothing serves, or little is known', () => {
    const text = (lathe: Partial<Lathe>, work: Partial<ThreadWork> | null) =>
      sheet(lathe, { pitch: '1.5 mm' }, work).runOut.text
    expect(text({ speeds: [500] }, { groove: 2 })).toContain('No speed serves: turn the spindle by hand.')
    expect(text({}, { groove: 2 })).toContain('Take a speed below that.')
    expect(text({ speeds: [50] }, null)).toContain('No groove is given')
  })

  it('limits no pass that starts in the groove: a left-hand thread is cut towards the tailstock', () => {
    const left = { pitch: '1.5 mm', hand: 'left' } as const
    const { runOut } = sheet({ speeds: [200, 500] }, left, { groove: 2, tool: 1 })
    expect(runOut).toMatchObject({ travel: 'tailstock', groove: { mm: 2 }, limit: null, speeds: [] })
    expect(runOut.text).toContain('start every pass in it')
    expect(runOut.text).toContain('it sets no speed.')
    expect(runOut.text).not.toContain('serve')
  })

  it('takes the tool to be a pitch wide', () => {
    expect(sheet({}, { pitch: '1.5 mm' }).runOut.tool.mm).toBe(1.5)
    expect(sheet({}, { pitch: '1.5 mm' }, {}).runOut.tool.mm).toBe(1.5)
    expect(sheet({}, { pitch: '1.5 mm' }, { tool: 0.4 }).runOut.tool.mm).toBe(0.4)
  })

  it('has a train that steps up turned by hand from the leadscrew', () => {
    const { runOut, cautions } = sheet({ speeds: [50] }, { pitch: '12 mm' }, { groove: 100 }, [80, 20, 40])
    expect(runOut.text).toContain('turn it by the leadscrew, by hand')
    expect(cautions.find(({ code }) => code === 'steep-step-up')).toMatchObject({
      when: 'power',
      source: expect.stringContaining('Jones'),
    })
  })
})

describe('several starts', () => {
  it('index by spindle, slide, gear or carriage', () => {
    const { starts } = sheet({ halfNuts: true }, { pitch: '1 mm', starts: 3 }, null, [30, 40, 50, 30, 60])
    expect(starts!.count).toBe(3)
    expect(starts!.each.map(({ start, turn, slide }) => [start, turn, slide.mm])).toEqual([
      [2, '1/3', 1],
      [3, '2/3', 2],
    ])
    // The lead is that of the leadscrew: no carriage move falls on another start.
    expect(starts!.each.map(({ carriage }) => carriage)).toEqual([null, null])
  })

  it('move the carriage only with half nuts, and turn the first gear only where its teeth divide', () => {
    const twice = { pitch: '3 mm', starts: 2 }
    const by = (lathe: Partial<Lathe>) => sheet(lathe, twice, null, [80, 40, 60, 30]).starts!.each[0]!
    expect(by({})).toMatchObject({ carriage: { move: { mm: 3 }, threads: 1 } })
    expect(by({}).text).toContain('1/2 of a turn from the first: the compound slide')
    expect(by({}).text).toContain('3.000 mm (0.1181 in), 1 thread of the leadscrew')
    expect(by({ halfNuts: false }).carriage).toBeNull()
    expect([30, 40]).toContain(by({}).teeth)
    const odd = sheet({}, { pitch: '1.5 mm', starts: 2 }, null, [45, 45, 60, 20]).starts!.each[0]!
    expect(odd.teeth).toBeNull()
    expect(odd.text).not.toContain('unmeshed')
  })

  it('open closed half nuts between two starts only', () => {
    const closed = sheet({ halfNuts: true }, { pitch: '3 mm', starts: 2 }, null, [80, 40, 60, 30])
    const text = (of: typeof closed) => of.checks.find(({ code }) => code === 'half-nuts')!.text
    expect(text(closed)).toContain('closed from the first pass of a start to its last')
    expect(closed.starts!.each[0]!.text).toContain('with the spindle still, half nuts opened')
    expect(text(sheet({ halfNuts: true }, { pitch: '2 mm' }))).toContain('closed from the first pass to the last')
  })

  it('are none for one start', () => {
    expect(setUpSheet(workshop, footScrew.wanted, footScrew.train).starts).toBeNull()
  })
})
