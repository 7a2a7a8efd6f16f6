import type { Point } from './chain.js'
import type { TrainDrawing } from './drawing.js'
import type { Units } from './figures.js'
import type { Turning } from './places.js'

/** How a drawing is turned so that it looks like the machine. */
export interface View {
  /** Any number of degrees anticlockwise from the frame of the layout; default 90, which puts the input shaft above the output. */
  rotate?: number
  /** Left for right: a machine whose front is on the left seen from its gear end. Default false. */
  mirror?: boolean
  /** What printed distances are in; default mm. */
  units?: Units
}

/** Which way a shaft turns as it is seen: a mirrored view turns the other way. */
export const turningSeen = (turning: Turning, { mirror = false }: View = {}): Turning =>
  mirror ? (turning === 'clockwise' ? 'anticlockwise' : 'clockwise') : turning

/** From the frame of the layout to paper, mm, y downwards: the one place that flips y. */
export function toPaper({ rotate = 90, mirror = false }: View): (p: Point) => Point {
  const turn = (rotate * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  return ({ x, y }) => ({ x: (mirror ? -1 : 1) * (x * cos - y * sin), y: -(x * sin + y * cos) })
}

export interface Box {
  left: number
  top: number
  right: number
  bottom: number
}

export const around = ({ x, y }: Point, radius: number): Box => ({
  left: x - radius,
  top: y - radius,
  right: x + radius,
  bottom: y + radius,
})

/** What the drawing takes up on paper, labels apart. */
export function extent(drawing: TrainDrawing, paper: (p: Point) => Point): Box {
  const boxes = [
    ...drawing.gears.map((gear) => around(paper(gear), gear.tipRadius)),
    ...drawing.keepOut.map((circle) => around(paper(circle), circle.radius)),
    ...(drawing.banjo?.plate ?? []).map((point) => around(paper(point), 0)),
  ]
  return boxRound(boxes)
}

export const boxRound = (boxes: readonly Box[]): Box => ({
  left: Math.min(...boxes.map((b) => b.left)),
  top: Math.min(...boxes.map((b) => b.top)),
  right: Math.max(...boxes.map((b) => b.right)),
  bottom: Math.max(...boxes.map((b) => b.bottom)),
})
