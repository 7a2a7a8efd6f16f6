import fc from 'fast-check'
import { expect, it, vi } from 'vitest'
import { apart } from '../../../../bench/plain/alike.js'
import { shaftsOf } from '../../../../bench/plain/arrangements.js'
import { checkLayout } from '../../../../bench/plain/check-layout.js'
import { betterLayout, layOutPlain } from '../../../../bench/plain/lay-out.js'
import type { Banjo, Lathe } from '../contract.js'
import { layOut } from '../index.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 3000)

const slot = fc.record({
  angle: fc.integer({ min: -90, max: 90 }),
  offset: fc.integer({ min: -20, max: 20 }),
  from: fc.integer({ min: 10, max: 60 }),
  length: fc.integer({ min: 1, max: 60 }),
})
const stud = fc.record({ slot: fc.nat(1), place: fc.integer({ min: 0, max: 16 }) })

it('layOut finds the best of all layouts, wherever in the slots the studs stand', () => {
  let [tried, several, failed] = [0, 0, 0]
  const property = fc.property(
    fc.array(slot, { minLength: 2, maxLength: 2 }),
    fc.array(stud, { minLength: 1, maxLength: 3 }),
    fc.integer({ min: -80, max: 80 }),
    fc.constantFrom(undefined, 'output' as const, 'input' as const),
    fc.integer({ min: 60, max: 120 }),
    fc.constantFrom(0, 0, 0, 3, 10),
    (measured, studs, swing, pivot, centreDistance, shaftClearance) => {
      const slots = measured.map(({ length, ...rest }) => ({ ...rest, to: rest.from + length }))
      const banjo: Banjo = { ...(pivot && { pivot }), swing: [-90, 90], slots }
      // The studs are set anywhere in the slots, and the two gears of each mesh have whatever module brings them together.
      const atInput = pivot === 'input'
      const seen = studs.map(({ slot, place }) => {
        const { angle, offset, from, to } = slots[slot]
        const along = from + ((to - from) * place) / 16
        const turn = ((angle + swing + (atInput ? 180 : 0)) * Math.PI) / 180
        const x = along * Math.cos(turn) - offset * Math.sin(turn) + (atInput ? centreDistance : 0)
        return { x, y: along * Math.sin(turn) + offset * Math.cos(turn) }
      })
      const places = [{ x: centreDistance, y: 0 }, ...seen, { x: 0, y: 0 }]
      const distances = places.slice(1).map(({ x, y }, i) => Math.hypot(x - places[i].x, y - places[i].y))
      fc.pre(distances.every((mm) => mm > 1))
      const gears = distances.map((mm) => ({ teeth: 30, module: mm / 30, pressureAngle: 20 }))
      const stages = gears.map((gear) => ({ driver: gear, idlers: [], driven: gear }))
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
      several += Number(studs.length > 1)
    },
  )
  fc.assert(property, { numRuns })
  // A few cases say little about shares.
  if (numRuns < 100) return
  expect(tried).toBeGreaterThan(0.12 * numRuns)
  expect(several).toBeGreaterThan(0.015 * numRuns)
  expect(failed).toBeGreaterThan(0.1 * numRuns)
})
