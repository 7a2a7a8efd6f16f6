import type { Lathe, ThreadWanted } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import type { Check, CheckCode } from './contract.js'
import { setUpSheet } from './set-up-sheet.js'
import { plain, readDemo, trainFor } from './testing/demo.js'
import type { ThreadWork } from './thread-work.js'

const { footScrew, workshop } = readDemo(demo)

const find = <C extends CheckCode>(checks: Check[], code: C): Extract<Check, { code: C }> => {
  const found = checks.find((check) => check.code === code)
  if (!found) throw new Error(`no ${code} among ${checks.map((c) => c.code)}`)
  return found as Extract<Check, { code: C }>
}

function checksFor(lathe: Partial<Lathe>, wanted: ThreadWanted, gears?: number[]): Check[] {
  const shop = plain(lathe, gears)
  return setUpSheet(shop, wanted, trainFor(shop, wanted)).checks
}

describe('half nuts', () => {
  const dial = { travel: '24 mm', lines: 8 }
  const nuts = (lathe: Partial<Lathe>, pitch: string, gears?: number[]) =>
    find(checksFor(lathe, { pitch, tolerance: { ppm: 2000 } }, gears), 'half-nuts')

  it.each<[string, Partial<Lathe>, string, unknown, number[]]>([
    ['anywhere for a lead that the leadscrew holds whole', { halfNuts: true, dial }, '1.5 mm', 'any', []],
    [
      'at every second line: 6 mm is whole leads of 2 mm and whole threads of 3 mm',
      { halfNuts: true, dial },
      '2 mm',
      { every: 2 },
      [1, 3, 5, 7],
    ],
    ['at one line', { halfNuts: true, dial: { travel: '12 mm', lines: 1 } }, '2 mm', { every: 1 }, [1]],
    ['nowhere without a dial', { halfNuts: true }, '2 mm', 'closed', []],
    ['not at all without half nuts', { halfNuts: false, dial }, '1.5 mm', 'none', []],
  ])('open %s', (_, lathe, pitch, open, lines) => {
    expect(nuts(lathe, pitch)).toMatchObject({ open, lines })
  })

  it('heed the lead that is really cut, not the one wanted', () => {
    const near = nuts({ halfNuts: true, dial }, '1.5 mm', [41, 81, 30, 60])
    expect(near.open).toBe('any')
    const off = find(
      checksFor({ halfNuts: true, dial }, { pitch: '1.5 mm', tolerance: { ppm: 30_000 } }, [40, 79, 60]),
      'half-nuts',
    )
    expect(off.open).toBe('closed')
    expect(off.text).toContain('the lead really cut comes round to no line of the dial')
  })

  it('are spoken of by what is known', () => {
    expect(nuts({ dial }, '2 mm').text).toMatch(/^Where there are half nuts: .* lines 1, 3, 5, 7 of the dial only/)
    expect(nuts({ halfNuts: true, dial: { travel: '12 mm', lines: 1 } }, '2 mm').text).toContain(
      'at line 1 of the dial only',
    )
    expect(nuts({ halfNuts: true }, '2 mm').text).toContain('no dial is known')
    expect(nuts({ halfNuts: false }, '2 mm').text).toMatch(/^No half nuts/)
  })
})

describe('going back', () => {
  const back = (lathe: Partial<Lathe>, pitch = '2 mm') => find(checksFor(lathe, { pitch }), 'return').text

  it('turns the spindle back by hand where the chuck screws on', () => {
    expect(back({ screwedNose: true })).toContain(
      'turn the spindle backwards by hand, never under power: the chuck screws on',
    )
    expect(back({})).toContain('turn the spindle backwards, by hand if the chuck screws on')
    expect(back({ screwedNose: false })).toContain('turn the spindle backwards;')
  })

  it('winds the carriage back where the half nuts may be opened', () => {
    expect(back({ screwedNose: true }, '1.5 mm')).toContain('open the half nuts and wind the carriage back')
    expect(back({ halfNuts: false }, '1.5 mm')).not.toContain('open the half nuts')
  })

  it.each(['1.5 mm', '2 mm'])('withdraws first and takes up the backlash, at %s', (pitch) => {
    expect(back({}, pitch)).toMatch(/withdraw the tool, .*takes up the backlash/)
  })
})

describe('the scratch pass', () => {
  it('spans so many leads, as wanted and as cut', () => {
    const { wanted, train, work } = footScrew
    const scratch = (more: Partial<ThreadWork>) =>
      find(setUpSheet(workshop, wanted, train, { ...work, ...more }).checks, 'scratch-pass')
    expect(scratch({})).toMatchObject({ crests: 11, spaces: 10, wanted: { mm: 10 }, cut: { mm: 10.00125 } })
    expect(scratch({}).difference.text).toBe('+1.25 µm')
    expect(scratch({ crests: 21 })).toMatchObject({ crests: 21, spaces: 20, cut: { mm: 20.0025 } })
  })
})

describe('measuring', () => {
  const { wanted, train, work } = footScrew
  const checks = (more: Partial<ThreadWork>, wires: number[] = workshop.wires!) =>
    setUpSheet({ ...workshop, wires }, wanted, train, { ...work, ...more }).checks

  it('goes over the nearest wire owned', () => {
    const { wire, best, over, limits, correction } = find(checks({}, [0.5, 0.6, 0.7]), 'wires')
    expect([wire.mm, correction]).toEqual([0.6, null])
    // M = E + 3 w - 0.866025 p at 60 degrees (NBS Handbook H28); best wire 0.577350 p.
    expect(best.mm).toBeCloseTo(0.57735, 5)
    expect(over.mm).toBeCloseTo(5.268481 + 3 * 0.6 - 0.866025, 5)
    expect(limits!.map(({ mm }) => mm)).toEqual([
      expect.closeTo(5.212481 + 1.8 - 0.866025, 5),
      expect.closeTo(5.324481 + 1.8 - 0.866025, 5),
    ])
  })

  it('says which wires to get when none serves', () => {
    const { best, least, greatest, text } = find(checks({}, [0.1, 3]), 'no-wire')
    expect(least.mm).toBeLessThan(best.mm)
    expect(greatest.mm).toBeGreaterThan(best.mm)
    expect(text).toContain(best.text)
    expect(find(checks({}, []), 'no-wire').best).toEqual(best)
  })

  it('applies the lead angle where it matters and holds, and says so where it does not', () => {
    const coarse = { pitch: '3 mm', starts: 2 }
    const shop = plain({}, [80, 40, 30, 60])
    const by = trainFor(shop, coarse)
    const wires = (major: number) =>
      find(setUpSheet({ ...shop, wires: [1.6, 1.75] }, coarse, by, { form: 'metric', major }).checks, 'wires')
    expect(wires(30).correction).toMatchObject({ applied: true })
    expect(wires(30).text).toContain("lead angle's")
    expect(wires(12).correction).toMatchObject({ applied: false })
    expect(wires(12).text).toContain('past the correction')
    const [within, beyond] = [wires(30), wires(12)]
    expect(within.over.mm - within.correction!.adds.mm - (30 - 1.948557)).toBeCloseTo(
      beyond.over.mm - (12 - 1.948557),
      5,
    )
  })

  it('goes by the groove where flanks stand upright', () => {
    const { class: _, compound: __, ...rest } = work
    const sheet = setUpSheet(workshop, wanted, train, { ...rest, form: 'square', allowance: 0.1, mate: {} })
    expect(sheet.checks.map(({ code }) => code).slice(-2)).toEqual(['no-flanks', 'effective'])
    expect(sheet.lead.fit).toMatchObject({ code: 'unjudged', onEffective: null, share: null, axial: { mm: 0.0015 } })
    expect(sheet.lead.fit!.verdict).toContain('upright')
  })

  it('names the standard behind the limits', () => {
    expect(find(checks({}), 'effective').source).toBe('ISO 965-1')
    const { class: _, ...free } = work
    const sheet = setUpSheet(workshop, wanted, train, free)
    expect(find(sheet.checks, 'effective')).toMatchObject({
      source: 'geometry',
      limits: null,
      effective: { text: '5.350 mm' },
    })
    expect(sheet.lead.fit).toMatchObject({
      code: 'unjudged',
      onEffective: { mm: expect.closeTo(0.0026, 4) },
      tolerance: null,
    })
    expect(sheet.cutting!.aim).toBe('nominal sizes')
  })

  it('has the limits of a numbered BA screw', () => {
    // 0 BA, normal: 0.025 mm under nominal, tolerance 0.10 p + 0.025 (BS 93).
    const ba = { ...work, form: 'ba' as const, class: 'normal', compound: 23 }
    const { limits, effective } = find(setUpSheet(workshop, wanted, train, ba).checks, 'effective')
    expect(limits!.map(({ mm }) => mm)).toEqual([5.25, 5.375])
    expect(effective.mm).toBe(5.3125)
  })
})

describe('the order', () => {
  it('is that of the work, numbered', () => {
    const { wanted, train, work } = footScrew
    const { checks } = setUpSheet(workshop, wanted, train, work)
    expect(checks.map(({ label, code }) => `${label} ${code}`)).toEqual([
      '1 isolated',
      '2 gears-set',
      '3 by-hand',
      '4 covered',
      '5 scratch-pass',
      '6 half-nuts',
      '7 return',
      '8 wires',
      '9 effective',
    ])
    for (const { source } of checks) expect(source).not.toBe('')
  })
})
