import Flatten from '@flatten-js/core'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { banjoQuestions } from '../../../../bench/plain/arbitrary.js'
import { checkLayout } from '../../../../bench/plain/check-layout.js'
import type { Banjo, Lathe, Layout, Slot, Train } from '../contract.js'
import { findTrains, layOut } from '../index.js'
import { WorkshopError } from '../workshop-error.js'

vi.setConfig({ testTimeout: 300_000 })
const numRuns = Number(process.env.RUNS ?? 300)

// Circles, lines and their crossings by @flatten-js/core, a library of plane geometry that knows nothing of lathes.
type Point = Flatten.Point
const { circle, point, segment } = Flatten
const radians = (degrees: number): number => (degrees * Math.PI) / 180

interface Stud {
  at: Point
  slot: number
  along: number
}

/** The line of a slot, slot 1 along x and the pivot at the origin. */
const lineOf = ({ angle = 0, offset = 0, from, to }: Slot) => {
  const [start, end] = [from, to].map((along) => point(along, offset).rotate(radians(angle), point(0, 0)))
  return segment(start, end)
}

/** Where circles, or a circle and a line, but touch, rounding decides whether they cross: nothing to compare. */
class Touching extends Error {}
const notTouching = (a: number, b: number): void => {
  if (Math.abs(a - b) < 1e-5) throw new Touching()
}

/** Where a stud can stand at this distance from the shaft before it. */
function studs(slots: readonly Slot[], before: Point, mm: number, module: number): Stud[] {
  return slots.flatMap((slot, i) => {
    const line = lineOf(slot)
    // A fixed hole serves up to a tenth of a module wide of its mesh.
    const [gap] = line.start.distanceTo(before)
    if (slot.from < slot.to) notTouching(before.distanceTo(Flatten.line(line.start, line.end))[0], mm)
    const inHole = gap > mm - 1e-9 && gap < mm + module / 10 + 1e-9 ? [line.start] : []
    const crossings = slot.from === slot.to ? inHole : circle(before, mm).intersect(line)
    return crossings.map((at) => ({ at, slot: i, along: slot.from + at.distanceTo(line.start)[0] }))
  })
}

type Mesh = [mm: number, module: number]

/** Every way to set the studs of a chain of meshes out from the pivot; the last mesh is left. */
const chains = (slots: readonly Slot[], before: Point, [first, ...rest]: Mesh[]): Stud[][] =>
  rest.length === 0
    ? [[]]
    : studs(slots, before, ...first).flatMap((stud) => chains(slots, stud.at, rest).map((others) => [stud, ...others]))

/** Every layout that circles and lines allow, clearances not looked at. */
function layouts(lathe: Lathe & { banjo: Banjo; centreDistance: number }, { shafts }: Pick<Train, 'shafts'>): Layout[] {
  const { banjo, centreDistance } = lathe
  const atInput = banjo.pivot === 'input'
  const outwards = <T>(list: T[]): T[] => (atInput ? list : [...list].reverse())
  const meshes = shafts.slice(1).map((shaft, i): Mesh => {
    const [a, b] = [shafts[i].gears[shafts[i].gears.length - 1].gear, shaft.gears[0].gear]
    return [(a.module * (a.teeth + b.teeth)) / 2, a.module]
  })
  const chain = outwards(meshes)
  const [last] = chain[chain.length - 1]
  const pivot = point(0, 0)
  const found: Layout[] = []
  for (const set of chains(banjo.slots, pivot, chain)) {
    const end = set[set.length - 1]
    // Seen from the banjo, the far shaft goes round the pivot.
    const [radius] = end.at.distanceTo(pivot)
    for (const reach of [radius + last, Math.abs(radius - last)]) notTouching(reach, centreDistance)
    for (const far of circle(pivot, centreDistance).intersect(circle(end.at, last))) {
      const turn = Math.atan2(-far.y, far.x)
      const [least, most] = banjo.swing.map(radians)
      const swing = [-2, -1, 0, 1, 2]
        .map((n) => turn + n * 2 * Math.PI)
        .find((s) => s > least - 1e-9 && s < most + 1e-9)
      if (swing === undefined) continue
      const placed = set.map(({ at, slot, along }) => {
        const seen = at.rotate(turn + (atInput ? Math.PI : 0), pivot)
        return { x: seen.x + (atInput ? centreDistance : 0), y: seen.y, slot, along }
      })
      const fixed = (x: number) => ({ x, y: 0, slot: null, along: null })
      const all = [fixed(centreDistance), ...outwards(placed), fixed(0)]
      found.push({
        swing: (swing * 180) / Math.PI,
        shafts: all,
        meshes: all.slice(1).map((at, i) => ({
          between: [i, i + 1],
          centreDistance: point(at.x, at.y).distanceTo(point(all[i].x, all[i].y))[0],
        })),
        clearance: null,
      })
    }
  }
  return found
}

describe('layouts, beside those of a general geometry library', () => {
  it('are found where circles and lines cross, and only there', () => {
    const tried = { stands: 0, fails: 0, severalStuds: 0 }
    /** A slot moved along, so that what just stood may stand no more. */
    const moved = (slot: Slot, by: number): Slot => {
      const from = Math.max(0, slot.from + by)
      return { ...slot, from, to: Math.max(from, slot.to + by) }
    }
    const property = fc.property(
      banjoQuestions,
      fc.constantFrom(0, 0, -4, 7, 15),
      ({ workshop, wanted, options }, by) => {
        let trains: Train[]
        try {
          const found = findTrains(workshop, wanted, { ...options, limit: 5 })
          trains = found.closest ? [...found.trains, found.closest] : found.trains
        } catch (error) {
          if (error instanceof WorkshopError) return
          throw error
        }
        const banjo = workshop.lathe.banjo!
        // Without swing, and without a stud, nothing crosses.
        if (banjo.swing[0] === banjo.swing[1]) return
        const lathe = {
          ...workshop.lathe,
          centreDistance: workshop.lathe.centreDistance!,
          banjo: { ...banjo, slots: banjo.slots.map((slot) => moved(slot, by)) },
        }
        for (const train of trains.filter(({ shafts }) => shafts.length > 2)) {
          let all: Layout[]
          try {
            all = layouts(lathe, train)
          } catch (error) {
            if (error instanceof Touching) continue
            throw error
          }
          const holding = all.filter((layout) =>
            checkLayout(lathe, { ...train, layout }).every((what) => what.startsWith('the clearance is')),
          )
          const laid = layOut(lathe, train)
          expect(laid.ok).toBe(holding.length > 0)
          if (!laid.ok) {
            tried.fails++
            continue
          }
          const { shafts, swing } = laid.layout
          const same = holding.filter(
            (other) =>
              Math.abs(other.swing! - swing!) < 1e-4 &&
              other.shafts.every(({ x, y }, i) => Math.hypot(x - shafts[i].x, y - shafts[i].y) < 1e-5),
          )
          expect(same.length).toBeGreaterThan(0)
          tried.stands++
          if (shafts.length > 3) tried.severalStuds++
        }
      },
    )
    fc.assert(property, { numRuns })
    // A few questions say little about shares.
    if (numRuns < 100) return
    expect(tried.stands).toBeGreaterThan(0.15 * numRuns)
    expect(tried.fails).toBeGreaterThan(0.05 * numRuns)
    expect(tried.severalStuds).toBeGreaterThan(0.02 * numRuns)
  })
})
