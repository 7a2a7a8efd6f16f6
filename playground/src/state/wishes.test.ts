import { type Problem, parsePitch, toNumber } from '@trainwright/measures'
import { series, seriesNames } from '@trainwright/threads'
import { describe, expect, it } from 'vitest'
import { readWishes, sameHelix, seriesLines, withLines } from './wishes.js'

const read = (list: string, ppm = '') => {
  const problems: Problem[] = []
  return { wishes: readWishes({ list, ppm }, problems), problems }
}
const mm = (pitch: string) => toNumber(parsePitch(pitch).mm)

describe('readWishes', () => {
  it.each([
    ['0.7 mm', { pitch: '0.7 mm' }],
    ['26tpi', { pitch: '26tpi' }],
    ['1.25', { pitch: '1.25 mm' }],
    ['1 1/8 in leadscrew', { pitch: '1 1/8 in', name: 'leadscrew' }],
    ['0.9 mm 1 BA', { pitch: '0.9 mm', name: '1 BA' }],
    ['26 tpi LH clamp', { pitch: '26 tpi', name: 'clamp', hand: 'left' }],
    ['0.5 module, worm', { pitch: '0.5 module', name: 'worm' }],
    ['32 dp left-hand', { pitch: '32 dp', hand: 'left' }],
    ['10 tpi 2 starts feed', { pitch: '10 tpi', name: 'feed', starts: 2 }],
    ['20 tpi 1/4-20 UNC', { pitch: '20 tpi', name: '1/4-20 UNC' }],
    ['M6', { pitch: '1 mm', name: 'M6' }],
    ['M10x1 spindle LH', { pitch: '1 mm', name: 'M10x1 spindle', hand: 'left' }],
    // 4 BA is 0.66 mm (BS 93): no pitch of 4 mm.
    ['4 BA', { pitch: '0.66 mm', name: '4 BA' }],
    ['1/4 BSF gland', { pitch: '26 tpi', name: '1/4 BSF gland' }],
    ['4 mm BA', { pitch: '4 mm', name: 'BA' }],
  ])('reads “%s”', (line, wanted) => {
    const { wishes, problems } = read(line)
    expect(problems).toEqual([])
    expect(wishes).toEqual([wanted])
  })

  it('names the lines that it cannot read, and reads the others', () => {
    const { wishes, problems } = read(`1 mm\n\n4 BAA\nsoon\n2 mm\n${'9'.repeat(300)} mm`)
    expect(wishes.map(({ pitch }) => pitch)).toEqual(['1 mm', '2 mm'])
    expect(problems.map(({ message }) => message.slice(0, 15))).toEqual([
      'Line 3, “4 BAA”',
      'Line 4, “soon”,',
      'Line 6, “999999',
    ])
    expect(problems.every(({ path }) => path === 'wishes.list')).toBe(true)
  })

  it('gives all of them the tolerance of the list', () => {
    expect(read('1 mm\nM6', '80').wishes.map(({ tolerance }) => tolerance)).toEqual([{ ppm: 80 }, { ppm: 80 }])
    expect(read('1 mm').wishes[0]).not.toHaveProperty('tolerance')
    expect(read('1 mm', 'few')).toMatchObject({ wishes: [{ pitch: '1 mm' }], problems: [{ path: 'wishes.ppm' }] })
  })
})

describe('a published series', () => {
  it.each(seriesNames())('%s gives lines that read back to each of its pitches, once', (name) => {
    const { wishes, problems } = read(seriesLines(name).join('\n'))
    expect(problems).toEqual([])
    const pitches = wishes.map(({ pitch }) => mm(pitch))
    expect(new Set(pitches).size).toBe(pitches.length)
    expect([...pitches].sort()).toEqual([...new Set(series(name).map(({ pitch }) => mm(pitch)))].sort())
    expect(wishes.every((wish) => wish.name)).toBe(true)
  })

  it.each(seriesNames())('%s: each thread can be typed by its own name', (name) => {
    for (const thread of series(name)) {
      expect(read(thread.name).wishes, thread.name).toMatchObject([{ name: thread.name, pitch: thread.pitch }])
    }
  })

  it('is added once', () => {
    const lines = ['1 mm M6, M7', '2 mm M14, M16']
    expect(withLines('', lines)).toBe('1 mm M6, M7\n2 mm M14, M16')
    expect(withLines('mine\n2 mm M14, M16\n\n', lines)).toBe('mine\n2 mm M14, M16\n1 mm M6, M7')
  })
})

describe('sameHelix', () => {
  it('compares leads and hands, however they are written', () => {
    expect(sameHelix({ pitch: '25.4 mm' }, { pitch: '1 in', starts: 1, hand: 'right' })).toBe(true)
    expect(sameHelix({ pitch: '1 mm' }, { pitch: '1 mm', hand: 'left' })).toBe(false)
    expect(sameHelix({ pitch: '1 mm' }, { pitch: '1 mm', starts: 2 })).toBe(false)
    expect(sameHelix({ pitch: '1 mm' }, { pitch: 'soon' })).toBe(false)
  })
})
