import { describe, expect, it } from 'vitest'
import demo from '../../../test-data/demo-workshop.json' with { type: 'json' }
import { setUpSheet } from './set-up-sheet.js'
import { plain, readDemo, trainFor } from './testing/demo.js'

const { footScrew, workshop } = readDemo(demo)

describe('cautions', () => {
  const { wanted, train, work } = footScrew
  const codes = (nose: boolean | undefined) => {
    const { screwedNose: _, ...lathe } = workshop.lathe
    const shop = { ...workshop, lathe: nose === undefined ? lathe : { ...lathe, screwedNose: nose } }
    return setUpSheet(shop, wanted, train, work).cautions
  }

  it('stand in the order in which they matter, each with its source', () => {
    expect(codes(true).map(({ when, code }) => `${when} ${code}`)).toEqual([
      'always manual',
      'always clothing',
      'gears isolate',
      'gears by-hand',
      'power cover',
      'cutting withdraw',
      'cutting stop-to-measure',
      'cutting screwed-chuck',
      ...codes(true)
        .filter(({ when }) => when === 'tap')
        .map(({ code }) => `tap ${code}`),
    ])
    expect(codes(true).filter(({ when }) => when === 'tap').length).toBeGreaterThan(0)
    for (const { message, source } of codes(true)) {
      expect(message).toMatch(/\.$/)
      expect(source).toMatch(/common practice, no source|US (Army|Navy)|Jones/)
    }
  })

  it('heed the nose of the spindle', () => {
    const nose = (known: boolean | undefined) => codes(known).find(({ code }) => code === 'screwed-chuck')?.message
    expect(nose(true)).toMatch(/^The chuck screws on: never reverse it under power/)
    expect(nose(undefined)).toMatch(/^If the chuck screws on: never reverse/)
    expect(nose(false)).toBeUndefined()
  })

  it('hold those of the train and of the cutting', () => {
    const shop = plain({ drives: [{ ratio: 1, belt: 'plain' }] }, [40, 40, 60])
    const { shaftClearance: _, ...lathe } = shop.lathe
    const belted = { ...shop, lathe }
    const by = trainFor(belted, { pitch: '3 mm' })
    const all = setUpSheet(belted, { pitch: '3 mm' }, by, {
      form: 'metric',
      major: 24,
      compound: 30,
      nose: { flat: 1 },
    }).cautions
    const at = (code: string) => all.find((one) => one.code === code)
    expect(at('plain-belt')).toMatchObject({ when: 'power', source: 'common practice, no source' })
    expect(at('flanks')).toMatchObject({ when: 'cutting' })
    expect(at('nut-crest')).toMatchObject({ when: 'cutting' })
  })
})
