import type { Page, Shop } from './kept.js'
import { documentOf, type Opened, readFile } from './workshop-file.js'

/** Characters of the longest link: longer ones do not come through mail and messages whole. */
const LONGEST = 16_000
/** Characters that a link may hold once it is unpacked. */
const FULLEST = 100_000

const START = '#question='

export const isLink = (hash: string): boolean => hash.startsWith(START)

/** The question in hand, packed to stand after the address of the page; null when it is too much for a link. */
export async function linkOf(shop: Shop, { threads, thread, ...page }: Page): Promise<string | null> {
  const text = JSON.stringify(documentOf(shop, { ...page, threads: [threads[thread]!], thread: 0 }))
  if (text.length > FULLEST) return null
  const packed = await pumped(new TextEncoder().encode(text), new CompressionStream('deflate-raw'), FULLEST)
  const letters = btoa(String.fromCharCode(...packed))
  const link = START + letters.replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '')
  return link.length > LONGEST ? null : link
}

/** Reads what stands after the address. Never rejects, and never unpacks more than a link may hold. */
export async function readLink(hash: string): Promise<Opened> {
  if (hash.length > LONGEST) return { refusal: { code: 'too-big' } }
  try {
    const letters = atob(hash.slice(START.length).replace(/-/g, '+').replace(/_/g, '/'))
    const packed = Uint8Array.from(letters, (letter) => letter.charCodeAt(0))
    const bytes = await pumped(packed, new DecompressionStream('deflate-raw'), FULLEST)
    return readFile(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
  } catch {
    return { refusal: { code: 'unreadable' } }
  }
}

/** What comes out of a stream, up to a bound. */
async function pumped(
  bytes: Uint8Array<ArrayBuffer>,
  through: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array> {
  const reader = new Blob([bytes]).stream().pipeThrough<Uint8Array>(through).getReader()
  const all: number[] = []
  for (;;) {
    const { done, value } = await reader.read()
    if (done) return Uint8Array.from(all)
    all.push(...value)
    if (all.length > most) {
      await reader.cancel()
      throw new RangeError('more than a link holds')
    }
  }
}
