import type { Paper } from './paper.js'
import { element, escapeText, lines } from './svg.js'
import type { Box } from './view.js'

/** The scale and the notes that stand under a drawing. */
export interface Foot {
  svg: string[]
  notes: string[]
  right: number
  bottom: number
}

const SMALL = 0.84
const ROUND_LENGTHS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]

export function footOf(paper: Paper, { left, right, bottom }: Box): Foot {
  const { size, wide, narrow } = paper
  const room = (right - left) * 0.45
  const [unit, name] = paper.view.units === 'inch' ? [25.4, 'in'] : [1, 'mm']
  const round = ROUND_LENGTHS.findLast((n) => n * unit <= room) ?? 1
  const length = round * unit
  const y = bottom + size * 1.5
  const ticks = [0, 1, 2, 3, 4, 5].map((i) => tick(left + (length * i) / 5, y, size * (i % 5 ? 0.3 : 0.6)))
  const bar = lines([
    [left, y],
    [left + length, y],
  ])
  const say = (text: string, x: number, at: number) =>
    element('text', { x, y: at, fill: '#000', stroke: 'none', 'font-size': size * SMALL }, escapeText(text))
  const notes = notesOf(paper)
  return {
    svg: [
      element('g', { class: 'scale' }, [
        element('path', { d: bar, 'stroke-width': wide }),
        element('path', { d: ticks.join(''), 'stroke-width': narrow }),
      ]),
      say(`${round} ${name}`, left + length + size * 0.4, y),
      ...notes.map((text, i) => say(text, left, y + size * (1.2 + i))),
    ],
    notes,
    right: left + Math.max(...notes.map((text) => text.length)) * size * SMALL * 0.5,
    bottom: y + size * (0.4 + notes.length),
  }
}

const tick = (x: number, y: number, height: number): string =>
  lines([
    [x, y],
    [x, y - height],
  ])

function notesOf({ drawing, view }: Paper): string[] {
  const notes = [
    `Distances in ${view.units === 'inch' ? 'inches' : 'mm'}`,
    view.mirror ? 'Mirrored, front on the left' : 'Seen from the gear end',
  ]
  if (drawing.schematic) notes.push('Studs placed freely')
  return notes
}
