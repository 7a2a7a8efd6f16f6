import { migrate, type Page, readPage, readShop, type Shop, VERSION } from './kept.js'
import { parsed } from './parsed.js'

/** Why a file or a link is not taken; worded elsewhere. */
export interface Refusal {
  code: 'too-big' | 'unreadable' | 'not-ours' | 'newer' | 'damaged'
  /** Where it is damaged. */
  places?: readonly string[]
}

export type Opened = { shop: Shop; page: Page } | { refusal: Refusal }

/** Characters of the largest file that is read; a workshop of 500 gears and 200 threads takes a tenth of it. */
export const LARGEST = 500_000
/** Objects in objects: no workshop goes half as deep. */
const DEEPEST = 20
const BOUNDS = { text: 5000, list: 200 }
/** More kinds of gear than anybody has; each is a form of its own on the page. */
const MOST_KINDS = 50
/** Characters of all lines of gears together: 500 gears are written in a third of it. */
const LONGEST_LINES = 10_000

/** A workshop and the threads wanted, exactly as typed. */
export const documentOf = (shop: Shop, page: Page) => ({ trainwright: VERSION, shop, page })

export const fileText = (shop: Shop, page: Page): string => `${JSON.stringify(documentOf(shop, page), null, 2)}\n`

/** A name for that file, of what the workshop is called. */
export function fileName({ workshop }: Shop): string {
  const name = workshop.name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? ['workshop']
  return `${name.join('-').slice(0, 60)}.trainwright.json`
}

/** Reads the text of a file of unknown origin. Never throws. */
export function readFile(text: string): Opened {
  if (text.length > LARGEST) return { refusal: { code: 'too-big' } }
  const x = parsed(text)
  return x === undefined ? { refusal: { code: 'unreadable' } } : readDocument(x)
}

function readDocument(x: unknown): Opened {
  const refused = (code: Refusal['code'], places?: string[]): Opened => ({
    refusal: { code, ...(places && { places }) },
  })
  if (isDeep(x, DEEPEST)) return refused('unreadable')
  const { trainwright, version = trainwright, typed, ...parts } = Object(x) as Record<string, unknown>
  if (!Number.isInteger(version) || (version as number) < 1) return refused('not-ours')
  if ((version as number) > VERSION) return refused('newer')
  const { shop, page } = version === 1 ? migrate({ typed }) : (parts as { shop: unknown; page: unknown })
  if (Object(shop).workshop === undefined) return refused('not-ours')
  const wrong: string[] = []
  const read = { shop: readShop(shop, wrong, BOUNDS), page: readPage(page, wrong, BOUNDS) }
  const { kinds } = read.shop.workshop
  const lines = kinds.reduce((sum, { line }) => sum + line.length, 0)
  if (kinds.length > MOST_KINDS || lines > LONGEST_LINES) wrong.push('workshop.kinds')
  return wrong.length > 0 ? refused('damaged', wrong) : read
}

const isDeep = (x: unknown, most: number): boolean =>
  typeof x === 'object' && x !== null && (most === 0 || Object.values(x).some((one) => isDeep(one, most - 1)))
