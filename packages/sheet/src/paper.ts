import type { Point } from './chain.js'
import type { TrainDrawing } from './drawing.js'
import type { View } from './view.js'

/** What every part of any drawing shares. */
export interface Pen {
  /** Starts the ids of patterns and descriptions. */
  id: string
  /** From the frame of the layout to paper, y downwards. */
  at: (p: Point) => Point
  /** Height of text, mm; lines take their widths from it, two to one as drawings do. */
  size: number
  wide: number
  narrow: number
}

/** What every part of the drawing of a train shares. */
export interface Paper extends Pen {
  drawing: TrainDrawing
  view: View
}
