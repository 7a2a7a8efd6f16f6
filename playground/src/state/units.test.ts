import { describe, expect, it } from 'vitest'
import { inUnit, sentenceInUnit } from './units.js'

describe('lengths in one unit', () => {
  it('prints the one that the person reads', () => {
    const length = { mm: 5.212, text: '5.212 mm', inch: '0.2052 in' }
    expect(inUnit(length, 'mm')).toBe('5.212 mm')
    expect(inUnit(length, 'inch')).toBe('0.2052 in')
  })

  it.each([
    ['Turn to 5.884 mm (0.2317 in), deep.', 'Turn to 5.884 mm, deep.', 'Turn to 0.2317 in, deep.'],
    [
      'out +1.5 µm (+0.0000591 in) or −2 µm (−0.0000787 in)',
      'out +1.5 µm or −2 µm',
      'out +0.0000591 in or −0.0000787 in',
    ],
    [
      'best would be 0.577 mm (0.0227 in)): 6.502 mm (0.2560 in)',
      'best would be 0.577 mm): 6.502 mm',
      'best would be 0.0227 in): 0.2560 in',
    ],
    [
      'out 3.13 µm long over 25 mm (125 µin long over 1 in): within',
      'out 3.13 µm long over 25 mm: within',
      'out 125 µin long over 1 in: within',
    ],
    [
      'under 0.000001 µm short over 25 mm (under 0.000001 µin short over 1 in)',
      'under 0.000001 µm short over 25 mm',
      'under 0.000001 µin short over 1 in',
    ],
    ['lead 1 mm (25.4 tpi)', 'lead 1 mm (25.4 tpi)', 'lead 1 mm (25.4 tpi)'],
  ])('cuts the other out of “%s”', (sentence, mm, inch) => {
    expect(sentenceInUnit(sentence, 'mm')).toBe(mm)
    expect(sentenceInUnit(sentence, 'inch')).toBe(inch)
  })
})
