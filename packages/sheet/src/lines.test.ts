import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { sheetLines, sheetParts } from './lines.js'
import { setUpSheet } from './set-up-sheet.js'
import { readDemo } from './testing/demo.js'

const { jobs, workshop } = readDemo(demo)

describe('a sheet in print', () => {
  it('stays as it is', async () => {
    const pages = jobs.map(({ wanted, train, work }) =>
      sheetLines(setUpSheet(workshop, wanted, train, work)).join('\n'),
    )
    await expect(`${pages.join('\n\n')}\n`).toMatchFileSnapshot('testing/golden/set-up-sheets.txt')
  })

  it('has headings in the order of the work, and parts under their keys', () => {
    const { wanted, train, work } = jobs[1]!
    const sheet = setUpSheet(workshop, wanted, train, work)
    expect(sheetParts(sheet).map(({ key, title }) => [key, title])).toEqual([
      ['job', 'The job'],
      ['gears', 'Gears'],
      ['lead', 'What the train really cuts'],
      ['cutting', 'Blank and passes'],
      ['checks', 'Checks, in this order'],
      ['runOut', 'Run-out'],
      ['mate', 'The mating part'],
      ['cautions', 'Mind'],
    ])
    expect(sheetLines(sheet).slice(0, 4)).toEqual([
      'Set-up sheet: Foot screws, 1 mm',
      '',
      'The job',
      '  Bench lathe, the level job; Foot screws; 1 mm; right hand; 1 start',
    ])
  })
})
