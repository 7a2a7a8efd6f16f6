import { InputError, parsePitch, toNumber } from '@trainwright/measures'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { plain, share, texts, trees, values } from '../../../test-data/fuzz.js'
import { threadDimensions } from './dimensions.js'
import { findThread } from './find.js'
import type { OwnForm } from './forms.js'
import { series, seriesNames } from './series.js'
import { overWires, wireSizes } from './wires.js'

const all = seriesNames().flatMap((name) => series(name))
const known = fc.constantFrom(...all.map(({ name }) => name))
const pitches = new Map(all.map(({ name, pitch }) => [name, Number.parseFloat(pitch)]))

/** Every number in a name, fractions and whole numbers before them as one. */
function numbersIn(name: string): number[] {
  let text = ''
  for (const c of name) {
    const code = c.codePointAt(0)!
    if (code > 0xff00 && code < 0xff5f) text += String.fromCharCode(code - 0xfee0)
    else text += /[¼-¾⅐-⅟↉]/.test(c) ? ` ${c.normalize('NFKD').replace('⁄', '/')} ` : '⁄∕'.includes(c) ? '/' : c
  }
  const found: number[] = []
  const words = text.replaceAll(/[^\d/.,]+/g, (gap) => (/^[\s-]+$/.test(gap) ? ' ' : ' | ')).split(' ')
  let whole: number | null = null
  for (const word of words) {
    const [n, d] = word.split('/')
    if (d !== undefined && n && d) {
      if (whole !== null) found.pop()
      found.push((whole ?? 0) + Number(n) / Number(d))
      whole = null
    } else if (/^\d+$/.test(word)) {
      whole = Number(word)
      found.push(whole)
    } else if (word !== '') {
      whole = null
      if (/\d/.test(word)) found.push(Number(word.replace(',', '.')))
    }
  }
  return found
}

test('a name finds nothing, or the thread whose numbers stand in it', () => {
  let hits = 0
  fc.assert(
    fc.property(texts(known), (name) => {
      const thread = findThread(name)
      if (!thread) return
      hits++
      expect(findThread(thread.name)).toEqual(thread)
      expect(all).toContainEqual(thread)
      const told = [...numbersIn(thread.name), pitches.get(thread.name)!]
      const odd = numbersIn(name).filter((number) => !told.includes(number))
      expect(odd, `${JSON.stringify(name)} as ${thread.name}`).toEqual([])
      expect(numbersIn(name).length).toBeGreaterThan(0)
    }),
    share(9),
  )
  expect(hits).toBeGreaterThan(100)
})

test('what is no name finds nothing', () => {
  fc.assert(
    fc.property(values, (given) => {
      if (typeof given !== 'string') expect(findThread(given as string)).toBeNull()
    }),
    share(1),
  )
})

const form: fc.Arbitrary<OwnForm> = fc.record({
  angle: fc.constantFrom(5, 47.5, 53.1, 60, 90, 150),
  crest: fc.constantFrom(0, 0.1, 0.125, 0.3),
  root: fc.constantFrom(0, 0.1, 0.25, 0.3),
})
const question = fc.record({
  form,
  pitch: fc.constantFrom('1 mm', '0.66', '26 tpi', '1/8 in'),
  major: fc.constantFrom(3.6, 20, 12.5),
})

test("a form of the owner's own is refused, or gives the dimensions of its triangle", () => {
  let answered = 0
  fc.assert(
    fc.property(trees(question, plain), (given) => {
      const asked = given as { form: OwnForm; pitch: string; major: number }
      for (const ask of [() => wireSizes(asked), () => overWires({ ...asked, effective: asked.major, wire: 0.5 })]) {
        try {
          ask()
        } catch (error) {
          if (!(error instanceof InputError) && asked) throw error
        }
      }
      try {
        const { sharpHeight, depth, major, minor, pitch, angle } = threadDimensions(asked)
        if (typeof asked.form !== 'object') return
        answered++
        const p = toNumber(parsePitch(asked.pitch).mm)
        const height = p / 2 / Math.tan((asked.form.angle * Math.PI) / 360)
        expect([pitch, sharpHeight]).toEqual([expect.closeTo(p, 8), expect.closeTo(height, 6)])
        expect(depth).toBeCloseTo(height * (1 - asked.form.crest - asked.form.root), 6)
        expect([major - minor, angle]).toEqual([expect.closeTo(2 * depth, 6), expect.closeTo(asked.form.angle, 8)])
      } catch (error) {
        if (!(error instanceof InputError)) throw error
        expect(error.problems.length).toBeGreaterThan(0)
      }
    }),
    share(5),
  )
  expect(answered).toBeGreaterThan(50)
})
