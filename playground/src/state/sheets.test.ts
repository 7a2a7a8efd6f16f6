import { type SetUpSheet, setUpSheet } from '@trainwright/sheet'
import { findTrains } from '@trainwright/trains'
import { describe, expect, it, vi } from 'vitest'
import { demo } from '../demo.js'
import { Answers } from './answers.js'
import { Job } from './job.js'
import { Lazy } from './lazy.js'
import { trainKey } from './picked.js'
import { Sheets } from './sheets.js'
import { Store } from './store.js'

const settled = () => new Promise((resolve) => setTimeout(resolve, 5))

async function desk(make: typeof setUpSheet = setUpSheet) {
  const worker = { findTrains: async (...q: Parameters<typeof findTrains>) => findTrains(...q) }
  const job = new Job(demo(), new Answers(worker as never))
  const picked = new Store<string | null>(null)
  const maker = new Lazy(async () => ({ setUpSheet: make }))
  const sheets = new Sheets(job, picked, maker)
  await maker.load()
  await settled()
  return { job, picked, sheets, sheet: () => sheets.value.sheet as SetUpSheet }
}

describe('Sheets', () => {
  it('makes the sheet of the train that is shown', async () => {
    const { sheets, sheet, job, picked } = await desk()
    expect(sheets.value).toMatchObject({ current: true, problems: [] })
    expect(sheet().gears.line).toBe('24 → 72, 48 → 80')
    expect(sheet().cutting!.form.name).toBe('whitworth')
    const second = job.answers.value.search!.trains[1]!
    picked.set(trainKey(second))
    await settled()
    expect(sheet().gears.line).toBe('32 → 72, 36 → 80')
  })

  it('follows the thread in hand and its work', async () => {
    const { job, sheet } = await desk()
    job.type({ thread: 1 })
    await settled()
    expect(sheet().job.wanted).toBe('1 mm')
    job.put('work.diameter', '8')
    await settled()
    expect(sheet().cutting!.major.mm).toBe(8)
    job.put('work.form', '')
    await settled()
    expect(sheet().cutting).toBeNull()
  })

  it('keeps the sheet, as an old one, while the work cannot be read', async () => {
    const { job, sheets, sheet } = await desk()
    job.put('work.diameter', 'thick')
    await settled()
    expect(sheets.value.current).toBe(false)
    expect(sheets.value.problems.map(({ path }) => path)).toEqual(['work.diameter'])
    expect(sheet().cutting!.major.mm).toBe(28)
    job.put('work.diameter', '')
    await settled()
    expect(sheets.value.problems.map(({ path }) => path)).toEqual(['thread'])
    expect(sheet().cutting!.major.mm).toBe(28)
    job.put('work.diameter', '30')
    await settled()
    expect(sheets.value).toMatchObject({ current: true, problems: [] })
    expect(sheet().cutting!.major.mm).toBe(30)
  })

  it('shows no sheet of another train: the train alone, while the work cannot be read', async () => {
    const { job, sheets, sheet } = await desk()
    job.put('work.diameter', 'thick')
    await settled()
    job.put('wanted.pitch', '20 tpi')
    await settled()
    expect(sheets.value.current).toBe(false)
    expect(sheet().job.wanted).toBe('20 tpi')
    expect(sheet().cutting).toBeNull()
  })

  it('makes nothing anew for a turn of the drawing', async () => {
    const make = vi.fn(setUpSheet)
    const { job, sheet } = await desk(make)
    const before = sheet()
    const made = make.mock.calls.length
    job.type({ view: { rotate: 30, mirror: true, units: 'inch' } })
    await settled()
    expect(sheet()).toBe(before)
    expect(make).toHaveBeenCalledTimes(made)
  })
})

describe('Lazy', () => {
  it('says that a part did not come, and sends for it again', async () => {
    const fetch = vi.fn().mockRejectedValueOnce(new Error('no network')).mockResolvedValue('part')
    const lazy = new Lazy<string>(fetch)
    const told = vi.fn()
    lazy.watch(told)
    await lazy.load()
    expect(lazy).toMatchObject({ failed: true, value: null })
    expect(told).toHaveBeenCalledOnce()
    await Promise.all([lazy.load(), lazy.load()])
    expect(lazy).toMatchObject({ failed: false, value: 'part' })
    expect(fetch).toHaveBeenCalledTimes(2)
  })
})
