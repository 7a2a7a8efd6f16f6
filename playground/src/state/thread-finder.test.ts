import { isoLimits, leadErrorVerdict } from '@trainwright/threads'
import { describe, expect, it } from 'vitest'
import { takeMeasured, takePublished } from './take-thread.js'
import { isThread, leadToleranceOf, searchThreads } from './thread-finder.js'
import { blankThread } from './typed.js'
import { blankWork } from './typed-work.js'

const names = (text: string) => searchThreads(text).map(({ name }) => name)

describe('searchThreads', () => {
  it.each([
    ['M6', 'M6'],
    ['m10 x 1', 'M10x1'],
    ['4 BA', '4 BA'],
    ['ba 4', '4 BA'],
    ['1/4 BSF', '1/4 BSF'],
    ['1/4-20', '1/4-20 UNC'],
    ['5/16 whitworth', '5/16 BSW'],
  ])('finds %s first', (text, name) => {
    expect(names(text)[0]).toBe(name)
  })

  it('lists what begins like the words, whatever their order', () => {
    expect(names('BSF')).toContain('1/4 BSF')
    expect(names('BSF').every((name) => name.endsWith('BSF'))).toBe(true)
    expect(names('BA 1')).toContain('12 BA')
    expect(names('1/4')[0]).toMatch(/^1\/4/)
    expect(names('1/4').every((name) => name.includes('1/4'))).toBe(true)
  })

  it.each(['', '  ', 'nothing', '7/93', 'M6 M6'])('finds nothing for “%s”', (text) => {
    expect(names(text)).toEqual([])
  })
})

describe('taking a thread', () => {
  const [m6] = searchThreads('M6')
  const [ba4] = searchThreads('4 BA')

  it('fills pitch, form and diameter, and a name where there is none', () => {
    const taken = takePublished(blankThread(), ba4!, isThread)
    expect(taken).toMatchObject({
      name: '4 BA',
      pitch: '0.66 mm',
      work: { form: 'ba', by: 'major', diameter: '3.6 mm' },
    })
    expect(takePublished(taken, m6!, isThread).name).toBe('M6')
    expect(takePublished({ ...taken, name: 'Clamp screw' }, m6!, isThread).name).toBe('Clamp screw')
  })

  it('keeps a class within a form only', () => {
    const work = { ...blankWork(), form: 'metric' as const, limits: 'class' as const, class: '6g' }
    expect(takePublished({ ...blankThread(), work }, m6!, isThread).work.limits).toBe('class')
    expect(takePublished({ ...blankThread(), work }, ba4!, isThread).work.limits).toBe('none')
  })

  it('takes what was measured as an own form, and leaves the rest', () => {
    const work = blankWork()
    const measured = { ...work.measured, pitch: { value: '0.71 mm', doubt: '' }, angle: { value: '50', doubt: '2' } }
    const taken = takeMeasured({ ...blankThread(), pitch: '1 mm', work: { ...work, diameter: '5', measured } })
    expect(taken).toMatchObject({
      pitch: '0.71 mm',
      work: { form: 'own', own: { angle: '50' }, by: 'major', diameter: '5' },
    })
  })
})

describe('leadToleranceOf', () => {
  const mm = (text: string) => Number(text.replace(' mm', ''))
  const ppm = ({ error, over }: { error: string; over: string }) => (mm(error) / mm(over)) * 1e6

  it('lets the lead eat half of the tolerance that a class gives', () => {
    const tolerance = leadToleranceOf({ form: 'metric', major: 6, class: '6g', engagement: 12 }, '1 mm')
    const [least, greatest] = isoLimits({ diameter: 6, pitch: '1 mm', class: '6g' }).effective
    const verdict = leadErrorVerdict({
      form: 'metric',
      errorPpm: ppm(tolerance),
      engagement: 12,
      tolerance: greatest - least,
    })
    expect(verdict.share).toBeCloseTo(0.5, 6)
  })

  it.each([
    ['an effective diameter', { form: 'metric', effective: 5.35, class: '6g', engagement: 12 }, '1 mm'],
    ['a class of BA', { form: 'ba', major: 3.6, class: 'normal', engagement: 6 }, '0.66 mm'],
    ['an allowance', { form: 'whitworth', major: 6.35, allowance: 0.05, engagement: 6 }, '20 tpi'],
  ] as const)('reckons from %s', (_, work, pitch) => {
    expect(ppm(leadToleranceOf(work, pitch))).toBeGreaterThan(100)
  })

  it.each([
    ['no engagement', { form: 'metric', major: 6, class: '6g' }, '1 mm', 'engagement'],
    ['no such number', { form: 'ba', major: 3.7, class: 'normal', engagement: 6 }, '0.66 mm', 'class'],
    ['a form without classes', { form: 'whitworth', major: 6, class: '6g', engagement: 6 }, '1 mm', 'class'],
    ['no diameter', { form: 'metric', class: '6g', engagement: 6 }, '1 mm', ''],
  ] as const)('refuses %s', (_, work, pitch, path) => {
    expect(() => leadToleranceOf(work, pitch)).toThrow(
      expect.objectContaining({ problems: expect.arrayContaining([expect.objectContaining({ path })]) }),
    )
  })
})
