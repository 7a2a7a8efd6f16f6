import { expect } from 'vitest'

/** Start and end tags in balance, every & an entity: enough to tell a file that no XML reader takes. */
export function expectWellFormed(svg: string): void {
  const open: string[] = []
  for (const [tag, slash, name, , self] of svg.matchAll(/<(\/?)([a-z]+)((?:\s[a-zA-Z:-]+="[^"<]*")*)(\/?)>/g)) {
    if (slash) expect(open.pop(), tag).toBe(name)
    else if (!self) open.push(name!)
  }
  expect(open).toEqual([])
  const text = svg.replace(/<[^<>]*>/g, '')
  expect(text).not.toMatch(/[<>]|&(?!(amp|lt|gt|quot|#39);)/)
}
