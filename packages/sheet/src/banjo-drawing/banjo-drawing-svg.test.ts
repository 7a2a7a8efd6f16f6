import type { Banjo } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { expectWellFormed } from '../testing/well-formed.js'
import { drawBanjo } from './banjo-drawing.js'
import { type BanjoSvgOptions, banjoToSvg } from './banjo-drawing-svg.js'

const banjo: Banjo = {
  swing: [-5, 60],
  slots: [
    { from: 40, to: 100 },
    { angle: 38, offset: 6, from: 45, to: 100 },
  ],
}
const aside: Banjo = {
  pivot: 'input',
  swing: [10, 70],
  slots: [
    { offset: -15, from: 37, to: 99 },
    { angle: 30, offset: 20, from: 35, to: 93 },
  ],
  keepOut: [{ x: 30, y: 55, radius: 14 }],
}
const entries = { centreDistance: '110', 'slots[0].near': '40', 'slots[0].from': '40', 'swing[1]': '60' }
const drawings = {
  'banjo-measured': () => drawBanjo({ banjo, centreDistance: 110, terms: 'measured', entries }),
  'banjo-drawn': () => drawBanjo({ banjo, centreDistance: 110, terms: 'drawn', entries }),
  'banjo-aside': () => drawBanjo({ banjo: aside, centreDistance: 110, terms: 'measured', entries }),
}

const wordsIn = (svg: string) => [...svg.matchAll(/<text class="words"[^>]*>([^<]*)/g)].map((m) => m[1]!)

describe('banjoToSvg', () => {
  const views: [string, keyof typeof drawings, BanjoSvgOptions][] = [
    ['banjo-measured', 'banjo-measured', {}],
    ['banjo-drawn', 'banjo-drawn', {}],
    ['banjo-aside', 'banjo-aside', { rotate: 0 }],
    ['banjo-mirrored', 'banjo-aside', { rotate: 120, mirror: true }],
  ]
  it.each(views)('draws %s as looked over', async (file, name, options) => {
    const svg = banjoToSvg(drawings[name](), { id: file, ...options })
    expectWellFormed(svg)
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null|-0[ "]/)
    await expect(svg.replaceAll('><', '>\n<')).toMatchFileSnapshot(`../testing/golden/${file}.svg`)
  })

  it.each(Object.entries(drawings))('names every line of %s once, with what stands in its field', (_, draw) => {
    const drawing = draw()
    const said = drawing.dimensions.map(({ label, entry, optional }) =>
      entry === null ? (optional ? label : `${label}: ?`) : `${label}: ${entry}`,
    )
    expect(wordsIn(banjoToSvg(drawing)).sort()).toEqual(said.sort())
  })

  it.each([0, 90, 200, 315])('keeps words readable and apart when turned by %i degrees', (rotate) => {
    for (const draw of Object.values(drawings)) {
      const drawing = draw()
      const svg = banjoToSvg(drawing, { rotate })
      const words = [...svg.matchAll(/transform="translate\((\S+) (\S+)\) rotate\((\S+)\)"/g)].map((m) =>
        m.slice(1).map(Number),
      )
      expect(words).toHaveLength(drawing.dimensions.length)
      for (const [i, [x, y, turn]] of words.entries()) {
        expect(Math.abs(turn!)).toBeLessThanOrEqual(90)
        for (const [u, v] of words.slice(i + 1)) expect(Math.hypot(x! - u!, y! - v!)).toBeGreaterThan(3)
      }
    }
  })

  it('escapes and shortens what was typed', () => {
    const svg = banjoToSvg(
      drawBanjo({ banjo, centreDistance: 110, terms: 'measured', entries: { 'slots[0].far': '<script>alert(1)' } }),
    )
    expectWellFormed(svg)
    expect(svg).not.toContain('<script>')
    expect(wordsIn(svg)).toContain('far 1: &lt;script&gt;…')
  })
})
