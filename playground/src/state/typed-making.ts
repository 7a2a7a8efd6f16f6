import type { ChartOptions, Head } from '@trainwright/trains'

/** Teeth of the gears commonly made, where the owner sets no limits. */
export const LEAST = 20
export const MOST = 127

/** What the owner can make, as it was typed. */
export interface TypedMaking {
  /** How many gears at once. */
  gears: '1' | '2'
  least: string
  most: string
  module: string
  /** Dividing head: crank turns for one of the work, and for each plate a line of its circles. */
  worm: string
  plates: string
  /** Whether only counts are asked for that the head divides exactly. */
  exactly: boolean
  bore: string
  keywayWidth: string
  keywayDepth: string
  wall: string
  /** A line for each kind of cutter owned: its size, and the ranges stamped on them. */
  cutters: string
}

/** The owner's wish list: a thread a line, and what each may be out. */
export interface TypedWishes {
  list: string
  ppm: string
}

/** What the chart is of: '' for the wish list, else the name of a published series. */
export interface TypedChart {
  of: string
  sequence: NonNullable<ChartOptions['sequence']>
}

export const blankMaking = (): TypedMaking => ({
  gears: '1',
  least: '',
  most: '',
  module: '',
  worm: '',
  plates: '',
  exactly: true,
  bore: '',
  keywayWidth: '',
  keywayDepth: '',
  wall: '',
  cutters: '',
})

export const blankWishes = (): TypedWishes => ({ list: '', ppm: '' })

export const blankChart = (): TypedChart => ({ of: '', sequence: 'as given' })

/** A head as a person would have typed it. */
export const makingFrom = (head: Head | undefined): TypedMaking => ({
  ...blankMaking(),
  ...(head && { worm: String(head.worm), plates: head.plates.map((circles) => circles.join(' ')).join('\n') }),
})

/** The plates as far as they can be read: what is no number is NaN, and a line without numbers a plate without circles. */
export const platesOf = (plates: string): number[][] =>
  plates
    .split(/[\n;|]/)
    .filter((line) => line.trim() !== '')
    .map((line) =>
      line
        .split(/[\s,]+/)
        .filter((word) => /\w/.test(word))
        .map(Number),
    )

/** The head, when all of it can be read: trains are found without one, so a half-typed head hinders nothing. */
export function headOf({ worm, plates }: TypedMaking): Head | undefined {
  const head = { worm: Number(worm), plates: platesOf(plates) }
  const whole = (n: number, least: number) => Number.isInteger(n) && n >= least && n <= 1000
  const sound = head.plates.every((circles) => circles.length > 0 && circles.every((n) => whole(n, 2)))
  return sound && head.plates.length > 0 && whole(head.worm, 1) ? head : undefined
}
