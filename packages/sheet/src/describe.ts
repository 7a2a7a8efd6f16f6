import type { Lathe, Train } from '@trainwright/trains'
import { type DrawnGear, drawTrain, type TrainDrawing } from './drawing.js'
import { errorFigures, leadFigures, millimetres } from './figures.js'
import { turningSeen, type View } from './view.js'

/**
 * What a drawing shows, in sentences: for people who do not see it, and for the terminal. One line a shaft, then the
 * centre distances, and on a known banjo its swing and the least clearance.
 */
export function describeDrawing(drawing: TrainDrawing, view: View = {}): string[] {
  const { shafts, meshes, banjo, clearance } = drawing
  const letter = (index: number) => shafts[index]!.letter
  const text = [
    ...shafts.map((shaft, i) => {
      const gears = drawing.gears.filter((gear) => gear.shaft === i).sort(byRole)
      const at = shaft.setting ? `; in slot ${shaft.setting.slot} at ${millimetres(shaft.setting.along)} along` : ''
      const what = gears.map((gear) => gearInWords(gear, letter)).join(', keyed to ')
      return `${shaft.letter}, ${shaft.name.toLowerCase()}: ${what}; turns ${turningSeen(shaft.turning, view)}${at}.`
    }),
    `Between centres: ${meshes.map(({ between: [a, b], centreDistance }) => `${letter(a)} to ${letter(b)} ${millimetres(centreDistance)}`).join(', ')}.`,
  ]
  if (banjo) text.push(`Banjo swung to ${degrees(banjo.swing)}.`)
  if (clearance) text.push(`Least clearance ${millimetres(clearance.mm)}: ${clearance.between}.`)
  return text
}

const degrees = (n: number): string => `${Math.round(n * 10) / 10 || 0}°`

/** The driven gear of a pair first, as power flows. */
const byRole = (a: DrawnGear, b: DrawnGear): number => Number(b.role === 'driven') - Number(a.role === 'driven')

function gearInWords({ teeth, size, plane, role, shaft }: DrawnGear, letter: (index: number) => string): string {
  const turned = role === 'driver' ? '' : `, driven by ${letter(shaft - 1)}`
  const turns = role === 'driven' ? '' : `, drives ${letter(shaft + 1)}`
  const idler = role === 'idler' ? ' as an idler' : ''
  return `${teeth} teeth${size ? ` (${size})` : ''} in plane ${plane}${idler}${turned}${turns}`
}

/** A train as a person would set it up, one line each: the shafts, the distances, what it cuts, what to mind. */
export function describeTrain(lathe: Lathe, train: Train): string[] {
  const { mm, tpi } = leadFigures(train)
  const { ppm, over } = errorFigures(train)
  const named = [lathe.drives?.[train.drive]?.name, lathe.gearbox?.[train.gearbox]?.name].filter(Boolean)
  return [
    ...(named.length ? [`Set ${named.join(' and ')}.`] : []),
    ...describeDrawing(drawTrain(lathe, train)),
    `Cuts a ${train.hand}-hand thread, lead ${mm} (${tpi}), ${over ? `${ppm}: ${over}` : ppm}.`,
    ...train.cautions.map(({ message }) => `Mind: ${message}`),
  ]
}
