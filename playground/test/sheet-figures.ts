import type { SetUpSheet } from '@trainwright/sheet'
import type { Units } from '../src/state/typed.js'
import { sentenceInUnit } from '../src/state/units.js'

/** Printed as rows of a table, figure by figure, and not as the sentence that they have. */
const tables =
  /^(job|gears|cutting|gears\.(shafts|meshes)\.\d+|cutting\.(limits|passes\.\d+)|runOut\.speeds\.\d+|mate\.tap\.chamfers\.\d+)$/

/** Said beside the drawing, or by another figure: the verdict says how far the lead is out, a spring pass adds nothing, one start makes pitch and lead one. */
const elsewhere = (sheet: SetUpSheet): RegExp =>
  new RegExp(
    [
      '^gears\\..*(gear|gears\\.\\d+)$',
      '^job\\.pitch$',
      '^lead\\.error\\.over$',
      ...(sheet.cutting?.compound.angle.value === 0
        ? ['^cutting\\.(compound|infeed)$', '^cutting\\.passes\\.\\d+\\.travel$']
        : []),
      ...(sheet.cutting?.passes ?? []).flatMap(({ kind }, i) =>
        kind === 'spring' ? [`^cutting\\.passes\\.${i}\\.deeper$`] : [],
      ),
    ].join('|'),
  )

interface Node {
  text?: string
  inch?: string
  tpi?: string
  verdict?: string
  message?: string
}

/** Every figure and sentence of a sheet, as it is printed in that unit. */
export function figuresOf(sheet: SetUpSheet, units: Units): string[] {
  const skip = elsewhere(sheet)
  const found: string[] = []
  const walk = (value: unknown, path: string): void => {
    if (typeof value !== 'object' || value === null || skip.test(path)) return
    const { text, inch, tpi, verdict, message } = value as Node
    const figure = units === 'inch' ? (inch ?? text) : text
    const sentence = verdict ?? message ?? (tables.test(path) ? undefined : figure)
    if (sentence) found.push(sentenceInUnit(sentence, units))
    if (tpi) found.push(tpi)
    // What a sentence holds is said by it; a verdict, and the run-out, have figures besides.
    if (text && !tables.test(path) && path !== 'runOut') return
    for (const [key, inner] of Object.entries(value)) walk(inner, path ? `${path}.${key}` : key)
  }
  walk(sheet, '')
  return found
}
