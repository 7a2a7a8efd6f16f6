import { Checks } from './checks.js'
import type { Limits } from './iso-limits.js'
import { rounded } from './rounding.js'
import { allEntries, type Entry } from './series.js'

/**
 * Limits of size of a BA screw or nut, mm, by the formulas of BS 93 (Machinery's Handbook, 31st ed., p. 2115; BS 93:2008):
 * close 0.15 p, 0.08 p + 0.02, 0.16 p + 0.04 on major, effective and minor; normal 0.20 p, 0.10 p + 0.025, 0.20 p + 0.05
 * under an allowance of 0.025 mm, from 11 BA 0.25 p on the major and no allowance; nuts 0.12 p + 0.03 on the effective,
 * 0.375 p on the minor diameter; `nut` asks for those. The greatest major diameter of a nut is not laid down: the flanks' own is given.
 * @throws InputError for a number outside 0 to 16, a class that is not close or normal, or the close class past 10 BA.
 */
export function baLimits(q: { number: number; class?: 'close' | 'normal'; nut?: boolean }): Limits {
  const ask = new Checks(q)
  const n = ask.whole('number', 0, 16)
  const quality = ask.choice('class', n > 10 ? ['normal'] : ['normal', 'close'])
  const nut = ask.choice('nut', [false, true])
  ask.done()
  const { thread, pitch: p } = allEntries().find(({ thread }) => thread.name === `${n} BA`) as Entry
  const { major, effective, minor } = thread
  const close = quality === 'close'
  const allowance = close || n > 10 || nut ? 0 : 0.025
  const under = (size: number, tolerance: number): [number, number] => [size - allowance - tolerance, size - allowance]
  const greatest = effective + 0.12 * p + 0.03
  return rounded<Limits>(
    nut
      ? {
          major: [major, greatest + major - effective],
          effective: [effective, greatest],
          minor: [minor, minor + 0.375 * p],
        }
      : {
          major: under(major, (close ? 0.15 : n > 10 ? 0.25 : 0.2) * p),
          effective: under(effective, close ? 0.08 * p + 0.02 : 0.1 * p + 0.025),
          minor: under(minor, close ? 0.16 * p + 0.04 : 0.2 * p + 0.05),
        },
  )
}
