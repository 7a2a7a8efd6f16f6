import { toHundredth } from './figures.js'

/** The few pieces of SVG that the drawings need. Text is escaped and numbers are rounded here and nowhere else. */
type Value = string | number | undefined

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Characters that XML does not allow are dropped: a name pasted from anywhere still gives a well-formed file. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that XML forbids.
const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu

export const escapeText = (text: string): string => text.replace(forbidden, '').replace(/[&<>"']/g, (c) => entities[c]!)

/** Two decimals of a millimetre, without trailing zeros. */
export const figure = (n: number): string => String(toHundredth(n))

/** Several figures, as attributes such as viewBox take them. */
export const figures = (...numbers: number[]): string => numbers.map(figure).join(' ')

/** An element; `children` is SVG already, text goes through escapeText first. */
export function element(
  name: string,
  attributes: Readonly<Record<string, Value>>,
  children?: string | string[],
): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? figure(value) : escapeText(String(value))}"`)
    .join('')
  const inside = Array.isArray(children) ? children.join('') : children
  return inside === undefined ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`
}

/** A path through points given as [x, y], by straight lines. */
export const lines = (points: readonly (readonly [number, number])[], closed = false): string =>
  points.map(([x, y], i) => `${i ? 'L' : 'M'}${figure(x)} ${figure(y)}`).join('') + (closed ? 'Z' : '')
