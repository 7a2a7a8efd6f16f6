import { makeChart, proposeGears } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { chartSheet } from './chart-sheet.js'
import { sheetLines } from './lines.js'
import { settingName } from './places.js'
import { plain, readDemo } from './testing/demo.js'
import { printed, spoilt } from './testing/leaves.js'

const { jobs, tripodHead, workshop } = readDemo(demo)

const wanted = jobs.map((job) => job.wanted)
const rows = makeChart(workshop, wanted)

describe('a chart', () => {
  it('has a line for each thread, the closest where none will do', () => {
    const sheet = chartSheet(rows, wanted)
    expect(sheet.title).toBe('Chart of 4 threads')
    expect(sheet.adds).toBeNull()
    expect(sheet.rows.map(({ thread, line }) => [thread, line !== null])).toEqual([
      ['Eyepiece cell, 40 tpi', true],
      ['Foot screws, 1 mm', true],
      ['Tangent screw, 48 tpi, left hand', true],
      ['Tripod head, 11 tpi', false],
    ])
    expect(sheet.rows[0]!.text).toBe('24 → 72, 48 → 80; 0.635 mm (40 tpi), exact')
    expect(sheet.rows[3]!.text).toMatch(
      /^none within tolerance; closest is .*; ≈ 2\.307981 mm \(≈ 11\.0053 tpi\), −481 ppm$/,
    )
    expect(sheet.rows[3]!.error!.value).toBeCloseTo(-480.769, 3)
  })

  it('keeps the order of the rows', () => {
    const few = makeChart(workshop, wanted, { sequence: 'fewest changes' })
    expect(chartSheet(few, wanted).rows.map((row) => row.wanted)).toEqual(few.map((row) => row.wanted))
  })

  it('names the settings of the lathe, starts, and what cannot be mounted', () => {
    const shop = plain(
      { drives: [{ name: 'low', ratio: '1/2' }], gearbox: [{ ratio: 1 }, { ratio: 3 }], studs: 0, centreDistance: 500 },
      [20, 40],
    )
    const asked = [{ pitch: '1.5 mm', starts: 2 }]
    const [row] = chartSheet(makeChart(shop, asked), asked, { lathe: shop.lathe }).rows
    expect(row).toMatchObject({
      thread: '1.5 mm, 2 starts',
      line: null,
      lead: null,
      error: null,
      setting: null,
      text: 'none within tolerance; nothing can be mounted',
    })
    const { centreDistance: _, ...free } = shop.lathe
    const open = { ...shop, lathe: { ...free, studs: 1 }, gears: [{ teeth: 20, count: 3 }] }
    const third = [{ pitch: '1.5 mm' }]
    expect(chartSheet(makeChart(open, third), third, { lathe: open.lathe }).rows[0]!.setting).toBe(
      'low, setting 1 of 2, ratio 1',
    )
    expect(chartSheet(makeChart(open, third), third).rows[0]!.setting).toBeNull()
    // One way only needs no word, unless it does something.
    expect(settingName([{ ratio: '1' }], 0)).toBeNull()
    expect(settingName([{ ratio: '1/2' }], 0)).toBe('setting 1 of 1, ratio 1/2')
    expect(settingName([{ ratio: '1', reverses: true }], 0)).toBe('setting 1 of 1, ratio 1, reverses')
    expect(settingName([{ ratio: '1', reverses: true, name: 'tumbler' }], 0)).toBe('tumbler')
  })

  it('shows what a gear yet to be made would add', () => {
    const [proposal] = proposeGears(workshop, wanted, { limit: 1 }).proposals
    const sheet = chartSheet(rows, wanted, { lathe: workshop.lathe, proposal: proposal! })
    const { adds } = sheet
    expect(adds!.make.map(({ text }) => text)).toEqual(proposal!.make.map(({ teeth }) => `${teeth} (module 1)`))
    expect(adds!.rows.map((row) => row.wanted)).toEqual([3])
    expect(adds!.rows[0]!.thread).toBe(`${tripodHead.wanted.name}, 11 tpi`)
    expect(adds!.text).toBe(`Made: ${adds!.make[0]!.text}`)
    const lines = sheetLines(sheet)
    for (const { text } of printed(sheet))
      expect(
        lines.some((line) => line.includes(text)),
        text,
      ).toBe(true)
    expect(lines.some((line) => line.includes(`Tripod head, 11 tpi: ${adds!.rows[0]!.line}`))).toBe(true)
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet)
    expect(spoilt(sheet)).toEqual([])
  })
})
