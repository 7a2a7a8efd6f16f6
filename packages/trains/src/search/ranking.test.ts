import { describe, expect, it } from 'vitest'
import type { Arrangement } from './arrangement.js'
import { makeBox } from './box.js'
import { type FixedRatio, makeQuestion } from './question.js'
import { compareErrors, type Off, type Order, Ranking, sizeOf } from './ranking.js'
import type { Settler } from './settler.js'
import type { Side } from './table.js'

const ratioOf = (pitch: string) => makeQuestion({ leadscrew: { pitch: '1 mm' } }, { pitch }).ratios[0]
let known: FixedRatio | undefined
/** One and the same each time. */
const one = () => {
  known ??= ratioOf('1')
  return known
}
const off = (drivers: number, driven: number, ratio = one()): Off => ({
  ratio,
  drivers,
  driven,
  size: sizeOf(ratio, drivers, driven),
})

describe('errors', () => {
  const sign = (a: Off, b: Off) => {
    // Turned round, the answer is turned round.
    expect(Math.sign(compareErrors(b, a))).toBe(-Math.sign(compareErrors(a, b)) + 0)
    return Math.sign(compareErrors(a, b))
  }

  it('are compared by their size, short or long', () => {
    expect(sign(off(11, 10), off(12, 10))).toBe(-1)
    expect(sign(off(9, 10), off(12, 10))).toBe(-1)
    expect(sign(off(9, 10), off(11, 10))).toBe(0)
    expect(sign(off(22, 20), off(11, 10))).toBe(0)
    // Half a turn a turn: 1/2 is off by nothing, whichever setting makes it.
    expect(sign(off(20, 40, ratioOf('1/2')), off(30, 30))).toBe(0)
    expect(sign(off(21, 40, ratioOf('1/2')), off(19, 20))).toBe(0)
  })

  it('exactly, where doubles say nothing', () => {
    // 1 / (k - 1) is more than 1 / k by 1e-26, which a double of 1 + 1 / k does not hold.
    const k = 10_000_000_000_000
    expect(sign(off(k, k - 1), off(k + 1, k))).toBe(1)
    expect(sign(off(k - 1, k), off(k, k + 1))).toBe(1)
    expect(sign(off(k - 1, k), off(k + 1, k))).toBe(0)
    // The same where their products still fit a double.
    const f = 50_000_000
    expect(sign(off(f, f - 1), off(f + 1, f))).toBe(1)
    expect(sign(off(f + 1, f), off(2 * f + 2, 2 * f))).toBe(0)
    // Of two ratios, of which one is off by 1e-15 of itself more.
    expect(sign(off(30, 40, ratioOf('0.750000000000001')), off(30, 40, ratioOf('0.75')))).toBe(1)
    // Products past 2^53 that read alike as doubles.
    const [a, b] = [off(94_906_267, 94_906_266), off(94_906_266, 94_906_265)]
    expect(sign(a, b)).toBe(-1)
  })
})

describe('a ranking', () => {
  const kindsOf = () => makeBox([{ teeth: 20, count: 9 }, { teeth: 30 }], undefined).kinds

  interface Set {
    drivers: number
    driven: number
    gears: number
    /** What parts it from its like; null when nothing is better than the incumbent. */
    idlerTeeth: number | null
  }
  /** Sets as one long table, and a settler that knows for each what it is told. */
  function rank(sets: readonly Set[], limit: number, order: Order) {
    const side = (product: number[]): Side => ({
      size: 1,
      product: Float64Array.from(product),
      kinds: new Uint16Array(product.length),
    })
    const top = side(sets.map((s) => s.drivers))
    const bottom = side(sets.map((s) => s.driven))
    let asked = 0
    const settler = {
      best({ p }: { p: number }, _: unknown, gears: number, incumbent: Arrangement | null): Arrangement | null {
        asked++
        expect(gears).toBe(sets[p].gears)
        const { idlerTeeth } = sets[p]
        if (idlerTeeth === null || (incumbent && incumbent.idlerTeeth <= idlerTeeth)) return null
        return { reading: [0, 1], idlers: [0], common: 0, spare: 0, idlerTeeth, setting: 0 }
      },
    } as unknown as Settler
    const ranking = new Ranking(limit, order, settler, kindsOf())
    let most = 0
    sets.forEach(({ gears }, p) => {
      ranking.offer({ top, p, bottom, q: p }, one(), gears)
      most = Math.max(most, (ranking as unknown as { pool: unknown[] }).pool.length)
    })
    return { ranking, most, asked: () => asked }
  }

  /** Whole numbers that look thrown, the same each time. */
  function thrown(seed: number) {
    let state = seed
    return (below: number) => {
      state = (state * 48_271) % 2_147_483_647
      return state % below
    }
  }
  const expected = (sets: readonly Set[], limit: number, order: Order) =>
    sets
      .map((set, p) => ({ ...set, p, size: Math.abs(set.drivers - set.driven) / set.driven }))
      .filter((set) => set.idlerTeeth !== null)
      .sort((a, b) => {
        const [size, gears] = [a.size - b.size, a.gears - b.gears]
        return (order === 'closest' ? size || gears : gears || size) || a.idlerTeeth! - b.idlerTeeth!
      })
      .slice(0, limit)

  const orders = ['fewest gears', 'closest'] as const
  it.each([
    ['hardly two alike', 5000, 3],
    ['many alike', 40, 3],
    ['all alike', 1, 1],
  ])('keeps the best of many: %s', (_, sizes, gears) => {
    for (const order of orders) {
      for (const limit of [0, 1, 2, 5, 7]) {
        const throwOne = thrown(7 + limit)
        const sets = Array.from(
          { length: 400 },
          (_, i): Set => ({
            drivers: 5000 + throwOne(sizes),
            driven: 5000,
            gears: 3 + throwOne(gears),
            idlerTeeth: (i * 7919) % 400,
          }),
        )
        const { ranking, most } = rank(sets, limit, order)
        const best = ranking.best()
        expect(best.map((b) => [b.p, b.gears, b.drivers, b.arrangement.idlerTeeth])).toEqual(
          expected(sets, limit, order).map((s) => [s.p, s.gears, s.drivers, s.idlerTeeth]),
        )
        // However many come, few are held.
        expect(most).toBeLessThanOrEqual(4 * limit + 60)
      }
    }
  })

  it('leaves out what has no better arrangement, and takes the next instead', () => {
    const sets = [5001, 5002, 5002, 5003, 5003, 5004].map(
      (drivers, i): Set => ({
        drivers,
        driven: 5000,
        gears: 4,
        idlerTeeth: i === 1 || i === 3 ? null : 20,
      }),
    )
    for (const order of orders)
      expect(
        rank(sets, 3, order)
          .ranking.best()
          .map((b) => b.p),
      ).toEqual([0, 2, 4])
  })

  it('settles no more than it must: what comes behind the last shown is not looked at', () => {
    const sets = [5001, 5002, 5003, 5004].map((drivers): Set => ({ drivers, driven: 5000, gears: 4, idlerTeeth: 20 }))
    const { ranking, asked } = rank(sets, 2, 'closest')
    ranking.best()
    expect(asked()).toBe(2)
  })

  it('leads with the best and all that are level with the last of them', () => {
    const sets = [5003, 5001, 5002, 5002, 5002, 5004].map(
      (drivers): Set => ({
        drivers,
        driven: 5000,
        gears: 4,
        idlerTeeth: 20,
      }),
    )
    for (const order of orders) {
      expect(
        rank(sets, 2, order)
          .ranking.leading()
          .map((c) => c.p),
      ).toEqual([1, 2, 3, 4])
      expect(
        rank(sets.slice(0, 3), 2, order)
          .ranking.leading()
          .map((c) => c.p),
      ).toEqual([1, 2])
      expect(rank(sets, 9, order).ranking.leading()).toHaveLength(6)
      expect(rank(sets, 0, order).ranking.leading()).toEqual([])
    }
  })

  it('is empty until something comes', () => {
    expect(rank([], 1, 'closest').ranking.empty).toBe(true)
    expect(rank([{ drivers: 1, driven: 1, gears: 3, idlerTeeth: 20 }], 1, 'closest').ranking.empty).toBe(false)
  })

  it('turns away neither closer sets of as many gears, nor fewer gears that are further off', () => {
    // Sixty-odd to fill it, then one better in error, one in gears, one that is worse in both.
    const filling = Array.from({ length: 64 }, (): Set => ({ drivers: 5050, driven: 5000, gears: 5, idlerTeeth: 50 }))
    const late: Set[] = [
      { drivers: 5090, driven: 5000, gears: 6, idlerTeeth: 1 },
      { drivers: 5080, driven: 5000, gears: 4, idlerTeeth: 30 },
      { drivers: 5010, driven: 5000, gears: 5, idlerTeeth: 30 },
      { drivers: 5001, driven: 5000, gears: 6, idlerTeeth: 30 },
    ]
    const first = (order: Order) => rank([...filling, ...late], 1, order).ranking.best()[0].p - filling.length
    expect(first('fewest gears')).toBe(1)
    expect(first('closest')).toBe(3)
  })
})
