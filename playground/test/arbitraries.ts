import fc from 'fast-check'
import { type Page, pageShape, type Shop, shopShape } from '../src/state/kept.js'
import { ListOf, OneOf } from '../src/state/shape.js'

/** What a person may have typed: anything, readable or not. */
const text = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.constantFrom('', '8 tpi', '1/', '1/2 in', '1e9', '-0', '__proto__', '<b>', '"', '\u2028', 'Ä½'),
  fc.integer({ min: -20, max: 160 }).map(String),
)

/** Anything of a shape. Parts that are passed on as they come stay empty: what they hold is checked by name. */
function anyOf(shape: unknown): fc.Arbitrary<unknown> {
  if (shape instanceof OneOf) return fc.constantFrom(...shape.words)
  if (shape instanceof ListOf) return fc.array(anyOf(shape.item), { minLength: 1, maxLength: 3 })
  if (Array.isArray(shape)) return fc.array(anyOf(shape[0]), { maxLength: 3 })
  if (typeof shape === 'string') return text
  if (typeof shape === 'number') return fc.nat(359)
  if (typeof shape === 'boolean') return fc.boolean()
  return fc.record(Object.fromEntries(Object.entries(shape as object).map(([key, part]) => [key, anyOf(part)])))
}

/** A banjo has two stops. */
const twoStops = (shop: Shop): Shop => {
  const { workshop } = shop
  const { banjo } = workshop.lathe
  const stops = [banjo.stops[0]!, banjo.stops.at(-1)!] as typeof banjo.stops
  return { ...shop, workshop: { ...workshop, lathe: { ...workshop.lathe, banjo: { ...banjo, stops } } } }
}

export const shop = (anyOf(shopShape) as fc.Arbitrary<Shop>).map(twoStops)

export const page = (anyOf(pageShape) as fc.Arbitrary<Page>).map((page) => ({
  ...page,
  thread: page.thread % page.threads.length,
}))

export const banjo = shop.map(({ workshop }) => workshop.lathe.banjo)
