import { distance } from '../figures.js'
import { turningSeen, type View } from '../view.js'
import type { BanjoDrawing, Dimension } from './banjo-drawing.js'

/** What each line of a drawn banjo is measured between: by the last name in the path of its field. */
export const dimensionMeanings = {
  centreDistance: 'input shaft to output shaft',
  near: 'pivot to stud, pushed to the near end',
  far: 'pivot to stud, pushed to the far end',
  length: 'stud at one end to stud at the other',
  fromFirst: 'far stud of slot 1 to far stud here',
  toStud: 'far stud of slot 1 to the other shaft',
  from: 'along the slot to the near stud',
  to: 'along the slot to the far stud',
  offset: 'sideways from the pivot',
  angle: 'degrees from slot 1',
  swing: 'degrees from the line between the shafts to slot 1',
  x: 'from the output shaft towards the input shaft',
  y: 'sideways from that line',
  radius: 'to its edge',
} as const
/** Every measure of a banjo that a person may put in. */
export type DimensionName = keyof typeof dimensionMeanings

const nameOf = (field: string): DimensionName => /(\w+)(?:\[\d+\])?$/.exec(field)![1] as DimensionName

const sentence = ({ label, field, entry, optional }: Dimension): string =>
  `${label}: ${dimensionMeanings[nameOf(field)]}, ${entry ?? (optional ? 'may stay open' : 'still to measure')}.`

/** What a drawing of a banjo shows, in sentences: one for the machine, then one for each line to measure. */
export function describeBanjo(drawing: BanjoDrawing, { mirror = false }: View = {}): string[] {
  const { pivotName, rest, dimensions, keepOut } = drawing
  const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`
  const out = keepOut.length ? `, ${count(keepOut.length, 'place')} to keep out of` : ''
  return [
    `Banjo of ${count(rest.slots.length, 'slot')}, swinging about the ${pivotName} shaft${out}; drawn half way between its stops, and by thin lines against each. ${mirror ? 'Mirrored, front on the left' : 'Seen from the gear end'}.`,
    ...dimensions.map(sentence),
  ]
}

const degrees = (n: number): string => `${n < 0 ? '−' : ''}${Math.abs(n).toFixed(1)}°`

/** What was worked out from the measures, as it is used: slots, angles and swing. */
export function workedOut(drawing: BanjoDrawing, view: View = {}): string[] {
  const { rest, stops, turns } = drawing
  const round = turningSeen('anticlockwise', view)
  const swings = stops.map(({ swing }) => swing).sort((a, b) => a - b)
  return [
    ...rest.slots.map(({ number }, i) => {
      const { angle, offset, from, to } = turns[i]!
      const aside =
        Math.abs(offset) < 0.005 ? 'pointing at the pivot' : `passing ${distance(Math.abs(offset))} beside the pivot`
      const turned = i > 0 ? `, ${degrees(angle)} ${round} from slot 1` : ''
      return `Slot ${number}: ${distance(from)} to ${distance(to)} along, ${aside}${turned}.`
    }),
    `Swing: ${degrees(swings[0]!)} to ${degrees(swings[1]!)} ${round} of the line between the shafts.`,
  ]
}
