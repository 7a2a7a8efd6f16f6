import type { SetUpSheet } from '@trainwright/sheet'
import type { Units } from '../src/state/typed.js'
import { sentenceInUnit } from '../src/state/units.js'

/** Said otherwise on the page: as tables beside the drawing, or not at all because nothing is slanted or left to add. */
const elsewhere = (sheet: SetUpSheet): RegExp => {
  const straight = sheet.cutting?.compound.angle.value === 0
  return new RegExp(
    [
      '^gears\\.(shafts|meshes)\\.\\d+\\.text$',
      '^gears\\..*gear\\.text$',
      '^cutting\\.passes\\.\\d+\\.deeper$',
      ...(straight ? ['^cutting\\.compound', '^cutting\\.infeed', '^cutting\\.passes\\.\\d+\\.travel$'] : []),
      // Sentences hold these.
      '^checks\\.\\d+\\.(?!text)',
      '^job\\.(pitch|tolerance\\.ppm)',
    ].join('|'),
  )
}

/** Every figure and sentence of a sheet as it is printed. */
export function figuresOf(sheet: SetUpSheet, units: Units): string[] {
  const skip = elsewhere(sheet)
  const found: string[] = []
  const walk = (value: unknown, path: string, key: string): void => {
    if (skip.test(path) || value === null) return
    if (typeof value === 'string') {
      if (['text', 'verdict', 'message', 'travelText', 'tpi', 'line'].includes(key))
        found.push(sentenceInUnit(value, units))
    } else if (typeof value === 'object') {
      const { text, inch } = value as { text?: string; inch?: string }
      if (text !== undefined && inch !== undefined) found.push(units === 'inch' ? inch : text)
      else for (const [name, inner] of Object.entries(value)) walk(inner, path ? `${path}.${name}` : name, name)
    }
  }
  walk(sheet, '', '')
  return found
}
