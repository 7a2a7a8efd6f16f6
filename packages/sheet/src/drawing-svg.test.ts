import { describe, expect, it } from 'vitest'
import { drawTrain } from './drawing.js'
import { drawingToSvg, type SvgOptions } from './drawing-svg.js'
import { figure } from './svg.js'
import { banjoExample } from './testing/banjo-example.js'
import { gear, trainOf } from './testing/train-of.js'
import { expectWellFormed } from './testing/well-formed.js'

const lathe = { leadscrew: { pitch: '3 mm' } }
const compound = trainOf([
  [40, 60],
  [30, 75],
])

const drawings = {
  simple: () => drawTrain(lathe, trainOf([[20, 45, 80]])),
  compound: () => drawTrain(lathe, compound),
  'three-stages': () =>
    drawTrain(
      lathe,
      trainOf([
        [20, 60],
        [25, 65],
        [30, 120],
      ]),
    ),
  'two-modules': () =>
    drawTrain(
      lathe,
      trainOf([
        [gear(40, 1.5), gear(60, 1.5)],
        [gear(30, 1.25), gear(50, 1.25)],
      ]),
    ),
  banjo: () => drawTrain(banjoExample.lathe, banjoExample.train),
}

describe('drawingToSvg', () => {
  const views: [string, keyof typeof drawings, SvgOptions][] = [
    ['simple', 'simple', {}],
    ['compound', 'compound', {}],
    ['compound-lying', 'compound', { rotate: 0 }],
    ['compound-mirrored', 'compound', { rotate: 120, mirror: true }],
    ['three-stages', 'three-stages', {}],
    ['two-modules', 'two-modules', {}],
    ['banjo', 'banjo', {}],
  ]
  it.each(views)('draws %s as looked over', async (file, name, options) => {
    const svg = drawingToSvg(drawings[name](), { id: file, ...options })
    expectWellFormed(svg)
    await expect(svg.replaceAll('><', '>\n<')).toMatchFileSnapshot(`testing/golden/${file}.svg`)
  })

  it.each(Object.entries(drawings))('labels every gear of %s with its teeth and its plane', (_, draw) => {
    const drawing = draw()
    const said = [...drawingToSvg(drawing).matchAll(/<tspan[^>]*>([^<]*)<\/tspan>/g)].map((m) => m[1])
    const planes = drawing.gears.map((g) => `plane ${g.plane}`)
    expect(said.filter((text) => text?.startsWith('plane')).sort()).toEqual(planes.sort())
    const counts = drawing.gears.map((g) => String(g.teeth))
    expect(said.filter((text) => /^\d+$/.test(text!)).sort()).toEqual(counts.sort())
    for (const { centreDistance } of drawing.meshes) expect(said).toContain(centreDistance.toFixed(2))
  })

  it('has one arrow a gear, and turns them all about when mirrored', () => {
    const arrows = (options: SvgOptions) =>
      [...drawingToSvg(drawings.compound(), options).matchAll(/class="turning (\w+)"/g)].map((m) => m[1])
    const [a, b] = ['clockwise', 'anticlockwise']
    // Drawn plane by plane: A's 40 and B's 60 lie in plane 1, B's 30 and C's 75 in plane 2.
    expect(arrows({})).toEqual([a, b, b, a])
    expect(arrows({ mirror: true })).toEqual([b, a, a, b])
    expect(arrows({ rotate: 200 })).toEqual(arrows({}))
  })

  it('says in words what it shows, the way it shows it', () => {
    const text = (options: SvgOptions) => /<desc[^>]*>([^<]*)/.exec(drawingToSvg(drawings.banjo(), options))![1]
    expect(text({})).toContain('A, input shaft: 40 teeth in plane 1, drives B; turns clockwise.')
    expect(text({ mirror: true })).toContain('A, input shaft: 40 teeth in plane 1, drives B; turns anticlockwise.')
    expect(text({ mirror: true })).toContain('Mirrored')
    expect(text({})).toContain('Least clearance 3.21 mm: the 60 on stud 1 and the output shaft.')
  })

  it('turns geometry and never text', () => {
    const svg = drawingToSvg(drawings.compound(), { rotate: 37 })
    expect(svg.match(/transform="/g)).toBeNull()
    expect(svg.match(/patternTransform="/g)).not.toBeNull()
  })

  it('escapes what came from elsewhere', () => {
    const drawing = structuredClone(drawings.banjo())
    drawing.clearance = { mm: 1, between: '</desc><script>alert("1 & 2")</script>\u0000\ud800' }
    const svg = drawingToSvg(drawing)
    expectWellFormed(svg)
    expect(svg).not.toContain('<script>')
    expect(svg).toContain('&lt;script&gt;alert(&quot;1 &amp; 2&quot;)&lt;/script&gt;.')
  })

  it('rounds a half the same way whichever digit the engine ends its sine with', () => {
    const half = 40.625
    for (const near of [half - 7e-15, half, half + 7e-15]) expect(figure(near)).toBe('40.63')
    expect(half - 7e-15).toBeLessThan(half)
    expect([figure(-0.001), figure(0.3), figure(-1.006)]).toEqual(['0', '0.3', '-1.01'])
  })

  it('says what its distances are in, and keeps to it', () => {
    const drawing = drawings.banjo()
    expect(drawingToSvg(drawing)).toContain('>Distances in mm<')
    const words = drawingToSvg(drawing, { units: 'inch' }).replace(/<[^>]*>/g, '\n')
    expect(words).toContain('Distances in inches')
    expect(words).toMatch(/\n2\.067\n/)
    expect(words).toMatch(/\n[\d.]+ in\n/)
    expect(words).not.toContain('mm')
  })

  it('holds neither NaN nor infinity nor more than hundredths', () => {
    for (const drawing of Object.values(drawings)) {
      const svg = drawingToSvg(drawing(), { rotate: 33 })
      expect(svg).not.toMatch(/NaN|Infinity|undefined|null|-0[ "]/)
      expect(svg.replace(/viewBox="[^"]*"/, '')).not.toMatch(/\d\.\d{3,}/)
    }
  })
})
