import type { DrawnGear, TrainDrawing } from './drawing.js'
import { distance } from './figures.js'
import { turningSeen, type View } from './view.js'

/**
 * What a drawing shows, in sentences: for people who do not see it. One line a shaft, then the
 * centre distances, and on a known banjo its swing and the least clearance.
 */
export function describeDrawing(drawing: TrainDrawing, view: View = {}): string[] {
  const { shafts, meshes, banjo, clearance } = drawing
  const { units } = view
  const letter = (index: number) => shafts[index]!.letter
  const text = [
    ...shafts.map((shaft, i) => {
      const at = shaft.setting ? `; in slot ${shaft.setting.slot} at ${distance(shaft.setting.along, units)} along` : ''
      return `${shaft.letter}, ${shaft.name.toLowerCase()}: ${gearsInWords(drawing, i)}; turns ${turningSeen(shaft.turning, view)}${at}.`
    }),
    `Between centres: ${meshes.map(({ between: [a, b], centreDistance }) => `${letter(a)} to ${letter(b)} ${distance(centreDistance, units)}`).join(', ')}.`,
  ]
  if (banjo) text.push(`Banjo swung to ${degrees(banjo.swing)}.`)
  if (clearance) text.push(`Least clearance ${distance(clearance.mm, units)}: ${clearance.between}.`)
  return text
}

const degrees = (n: number): string => `${Math.round(n * 10) / 10 || 0}°`

/** The gears of a shaft, the driven gear of a pair first, as power flows. */
export const gearsOn = ({ gears }: TrainDrawing, index: number): DrawnGear[] =>
  gears.filter(({ shaft }) => shaft === index).sort((a, b) => Number(b.role === 'driven') - Number(a.role === 'driven'))

/** '60 teeth in plane 1, driven by A, keyed to 30 teeth in plane 2, drives C'. */
export const gearsInWords = (drawing: TrainDrawing, index: number): string =>
  gearsOn(drawing, index)
    .map((gear) => gearInWords(gear, (i) => drawing.shafts[i]!.letter))
    .join(', keyed to ')

function gearInWords({ teeth, size, plane, role, shaft }: DrawnGear, letter: (index: number) => string): string {
  const turned = role === 'driver' ? '' : `, driven by ${letter(shaft - 1)}`
  const turns = role === 'driven' ? '' : `, drives ${letter(shaft + 1)}`
  const idler = role === 'idler' ? ' as an idler' : ''
  return `${teeth} teeth${size ? ` (${size})` : ''} in plane ${plane}${idler}${turned}${turns}`
}
