import { deflateRawSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { page, shop } from '../../test/arbitraries.js'
import { demo } from '../demo.js'
import { type Page, type Shop, splitTyped } from './kept.js'
import { isLink, linkOf, readLink } from './link.js'
import { fileText } from './workshop-file.js'

const ours = splitTyped(demo())
const packed = (text: string | Uint8Array): string => `#question=${deflateRawSync(text).toString('base64url')}`
const inHand = ({ threads, thread, ...rest }: Page): Page => ({ ...rest, threads: [threads[thread]!], thread: 0 })
const clean = <T extends Shop | Page>(x: T): T => JSON.parse(JSON.stringify(x).replaceAll('"__proto__":', '"proto":'))

describe('a link', () => {
  it('holds the workshop and the thread in hand, exactly as typed', async () => {
    await fc.assert(
      fc.asyncProperty(shop.map(clean), page.map(clean), async (shop, page) => {
        const link = await linkOf(shop, page)
        expect(await readLink(link!)).toEqual({ shop, page: inHand(page) })
      }),
      { numRuns: 50 },
    )
  })

  it('goes through mail: short, and of plain letters', async () => {
    const link = (await linkOf(ours.shop, ours.page))!
    expect(link).toMatch(/^#question=[\w-]+$/)
    expect(link.length).toBeLessThan(2000)
    expect(isLink(link)).toBe(true)
    expect(isLink('#answer')).toBe(false)
  })

  it('is not made of what is too much for it', async () => {
    const noise = Array.from({ length: 40_000 }, (_, i) =>
      String.fromCharCode(0x4e00 + ((i * 7919 * (i % 13)) % 20_000)),
    )
    const named = (name: string): Shop => ({ ...ours.shop, workshop: { ...ours.shop.workshop, name } })
    expect(await linkOf(named(noise.join('')), ours.page)).toBeNull()
    expect(await linkOf(named('a'.repeat(100_001)), ours.page)).toBeNull()
  })
})

describe('a hostile link is refused', () => {
  it.each<[string, string, string]>([
    ['nothing in it', '#question=', 'unreadable'],
    ['no letters of the code', '#question=%3Cscript%3E', 'unreadable'],
    ['not packed', `#question=${btoa('{"trainwright":2}')}`, 'unreadable'],
    ['cut short', packed(fileText(ours.shop, ours.page)).slice(0, 300), 'unreadable'],
    ['no text', packed(Uint8Array.of(0xff, 0xfe, 0xfd)), 'unreadable'],
    ['no question', packed('[1, 2, 3]'), 'not-ours'],
    ['a newer version', packed('{"trainwright":9,"shop":{}}'), 'newer'],
    ['damaged', packed('{"trainwright":2,"shop":{"workshop":{"name":{}}}}'), 'damaged'],
    ['too long', `#question=${'A'.repeat(20_000)}`, 'too-big'],
    ['small, and huge once unpacked', packed('['.repeat(10_000_000)), 'unreadable'],
    ['small, and deep once unpacked', packed(`${'['.repeat(40_000)}${']'.repeat(40_000)}`), 'unreadable'],
  ])('%s', async (_, link, code) => {
    expect(await readLink(link)).toMatchObject({ refusal: { code } })
  })

  it('any junk, without throwing', async () => {
    await fc.assert(
      fc.asyncProperty(fc.oneof(fc.string(), fc.base64String(), fc.json().map(packed)), async (junk) => {
        expect(await readLink(junk.startsWith('#') ? junk : `#question=${junk}`)).toHaveProperty('refusal')
      }),
    )
  })
})
