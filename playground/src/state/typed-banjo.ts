import type { Banjo, Sense } from '@trainwright/trains'

/** A banjo as it was typed, both ways at once: going from one to the other loses nothing. */
export interface TypedBanjo {
  /** Not told, as measured with rule and calipers, or in the terms of a drawing. */
  by: 'none' | 'measured' | 'drawn'
  pivot: 'output' | 'input'
  slots: TypedSlot[]
  /** Against each stop: the distance to the stud and the side on which it lies, or degrees. */
  stops: TypedStop[]
  /** Diameters of nuts, washers and bushes on the shafts, and the air to leave round them. */
  collars: string
  air: string
  keepOut: TypedKeepOut[]
}

export interface TypedSlot {
  near: string
  far: string
  length: string
  passes: 'left' | 'right'
  fromFirst: string
  lies: Sense
  from: string
  to: string
  offset: string
  angle: string
}

export interface TypedStop {
  toStud: string
  lies: Sense
  swing: string
}

export interface TypedKeepOut {
  x: string
  y: string
  radius: string
}

export const blankSlot = (): TypedSlot => ({
  near: '',
  far: '',
  length: '',
  passes: 'left',
  fromFirst: '',
  lies: 'anticlockwise',
  from: '',
  to: '',
  offset: '',
  angle: '',
})

export const blankStop = (): TypedStop => ({ toStud: '', lies: 'anticlockwise', swing: '' })
export const blankKeepOut = (): TypedKeepOut => ({ x: '', y: '', radius: '' })

export const blankBanjo = (): TypedBanjo => ({
  by: 'none',
  pivot: 'output',
  slots: [blankSlot()],
  stops: [blankStop(), blankStop()],
  collars: '',
  air: '',
  keepOut: [],
})

/** A banjo as a person would have typed it from a drawing. */
export function banjoFrom(banjo: Banjo | undefined): TypedBanjo {
  if (!banjo) return blankBanjo()
  const text = (x: number | undefined): string => (x === undefined ? '' : String(x))
  return {
    ...blankBanjo(),
    by: 'drawn',
    pivot: banjo.pivot ?? 'output',
    slots: banjo.slots.map(({ angle, offset, from, to }) => ({
      ...blankSlot(),
      angle: text(angle),
      offset: text(offset),
      from: text(from),
      to: text(to),
    })),
    stops: banjo.swing.map((swing) => ({ ...blankStop(), swing: text(swing) })),
    keepOut: (banjo.keepOut ?? []).map(({ x, y, radius }) => ({ x: text(x), y: text(y), radius: text(radius) })),
  }
}
