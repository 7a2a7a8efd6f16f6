import fc from 'fast-check'
import { expect, it, vi } from 'vitest'
import { apart } from '../../../../bench/plain/alike.js'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { checkLayout } from '../../../../bench/plain/check-layout.js'
import { betterLayout, layOutPlain } from '../../../../bench/plain/lay-out.js'
import { studsInSlots } from '../../../../bench/plain/studs-in-slots.js'
import type { Lathe } from '../contract.js'
import { layOut } from '../index.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 3000)

it('layOut finds the best of all layouts, wherever in the slots the studs stand', () => {
  let [tried, several, failed] = [0, 0, 0]
  const property = fc.property(
    studsInSlots,
    fc.constantFrom(0, 0, 0, 3, 10),
    ({ banjo, centreDistance, stages }, shaftClearance) => {
      const lathe: Lathe = { leadscrew: { pitch: '1 mm' }, planes: 4, shaftClearance, centreDistance, banjo }

      const all = layOutPlain(lathe, shaftsOf(stages, 4)).sort(betterLayout)
      const laid = layOut(lathe, { stages })
      expect(laid.ok).toBe(all.length > 0)
      if (!laid.ok) {
        failed++
        return
      }
      expect(apart(laid.layout, all[0])).toBeLessThan(1e-5)
      expect(checkLayout(lathe, { shafts: shaftsOf(stages, 4), layout: laid.layout })).toEqual([])
      tried++
      several += Number(stages.length > 2)
    },
  )
  fc.assert(property, { numRuns })
  // A few cases say little about shares.
  if (numRuns < 100) return
  expect(tried).toBeGreaterThan(0.12 * numRuns)
  expect(several).toBeGreaterThan(0.015 * numRuns)
  expect(failed).toBeGreaterThan(0.1 * numRuns)
})
