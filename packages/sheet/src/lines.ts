import type { ChartSheet } from './chart-contract.js'
import type { SetUpSheet } from './contract.js'
import type { GearSheet } from './gear-contract.js'

/** A part of a sheet as it is printed: its heading and its lines. */
export interface SheetPart {
  /** Its key in the sheet. */
  key: string
  title: string
  /** As they are printed. */
  lines: string[]
}
/** Whatever can be printed as a sheet. */
export type AnySheet = SetUpSheet | GearSheet | ChartSheet

/** Headings by key; a part without one stands under the heading before it. */
const headings: Readonly<Record<string, string>> = {
  job: 'The job',
  gears: 'Gears',
  lead: 'What the train really cuts',
  cutting: 'Blank and passes',
  checks: 'Checks, in this order',
  runOut: 'Run-out',
  starts: 'Several starts',
  mate: 'The mating part',
  cautions: 'Mind',
  gear: 'Blank and cutter',
  indexing: 'Indexing',
  baseTangent: 'Measure',
  rows: 'Threads',
  adds: 'With a gear to be made',
}

/** Whatever in a sheet may be printed. */
interface Printed {
  label?: string
  text?: string
  verdict?: string
  message?: string
  inch?: string
  tpi?: string
  source?: string
}

/**
 * What a node says in print, then what it holds: all but what a sentence above it has said already. So no figure of a
 * sheet can be left out, and none is printed twice.
 */
function linesOf(node: unknown, said = ''): string[] {
  if (typeof node !== 'object' || node === null) return []
  const { label, text, verdict, message, inch, tpi, source } = node as Printed
  const sentence = text ?? verdict ?? message
  const other = inch ?? tpi
  const own = sentence && sentence + (other ? ` (${other})` : '')
  const below = Object.values(node).flatMap((part) => linesOf(part, said + (own ?? '')))
  if (!own || said.includes(own)) return below
  return [(label ? `${label}: ` : '') + own + (source ? ` [${source}]` : ''), ...below]
}

/** A sheet as headings and lines, every figure in it; for print and for people who read no drawing. */
export function sheetParts(sheet: AnySheet): SheetPart[] {
  const parts: SheetPart[] = []
  for (const [key, part] of Object.entries(sheet)) {
    const lines = linesOf(part)
    const title = headings[key]
    if (lines.length > 0 && (title || parts.length === 0)) parts.push({ key, title: title ?? key, lines })
    else parts.at(-1)?.lines.push(...lines)
  }
  return parts
}

/** The same as plain text, for the terminal. */
export const sheetLines = (sheet: AnySheet): string[] => [
  sheet.title,
  ...sheetParts(sheet).flatMap(({ title, lines }) => ['', title, ...lines.map((line) => `  ${line}`)]),
]
