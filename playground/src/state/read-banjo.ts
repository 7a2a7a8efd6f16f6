import { gather, type Problem } from '@trainwright/measures'
import type { RoughBanjo, RoughMeasures } from '@trainwright/sheet/banjo'
import { type Banjo, type Lathe, type MeasuredBanjo, measureBanjo } from '@trainwright/trains'
import { given, lengthTexts, millimetres, number, zeroOr } from './read-text.js'
import type { TypedLathe } from './typed.js'

/** What of a lathe the banjo is read from. */
export type BanjoLathe = Pick<TypedLathe, 'banjo' | 'centreDistance'>

/** Where the field of a path of the banjo stands on the page: the centre distance belongs to the lathe. */
export const fieldOf = (path: string): string => (path === 'centreDistance' ? `lathe.${path}` : `lathe.banjo.${path}`)
const placed = (problem: Problem): Problem => ({ ...problem, path: fieldOf(problem.path) })

const MINUS = /^\s*[-−]/
/** A length to one side or the other. */
const signed = (read: (text: string) => number | undefined) => (text: string) => {
  const size = zeroOr(read)(text.replace(MINUS, ''))
  return size && MINUS.test(text) ? -size : size
}
const degrees = (text: string): number => number(text.replace('−', '-'))

/** The centre distance for the banjo; problems of it are told where the lathe is read. */
export const readCentres = ({ centreDistance }: BanjoLathe) =>
  given('centreDistance', centreDistance, millimetres([], ''))

/** What rule and calipers told, texts to numbers; what is blank is left out. Paths are those of the banjo. */
export function readMeasures(lathe: BanjoLathe, problems: Problem[]): RoughMeasures {
  const { pivot, slots, stops, collars, air } = lathe.banjo
  const mm = (path: string) => millimetres(problems, path)
  return {
    ...readCentres(lathe),
    pivot,
    slots: slots.map(({ near, far, length, passes, fromFirst, lies }, i) => ({
      ...given('near', near, mm(`slots[${i}].near`)),
      ...given('far', far, mm(`slots[${i}].far`)),
      ...given('length', length, mm(`slots[${i}].length`)),
      passes,
      ...(i > 0 && { ...given('fromFirst', fromFirst, mm(`slots[${i}].fromFirst`)), lies }),
    })),
    stops: stops.map(({ toStud, lies }, i) => ({ ...given('toStud', toStud, mm(`stops[${i}].toStud`)), lies })),
    collars: lengthTexts(collars).flatMap((text) => mm('collars')(text) ?? []),
    ...given('air', air, zeroOr(mm('air'))),
  }
}

/** What a drawing told. */
export function readDrawn({ banjo }: BanjoLathe, problems: Problem[]): RoughBanjo {
  const { pivot, slots, stops } = banjo
  const mm = (path: string) => millimetres(problems, path)
  const [a, b] = stops.map(({ swing }) => given('swing', swing, degrees).swing)
  return {
    pivot,
    swing: [a, b],
    slots: slots.map(({ from, to, offset, angle }, i) => ({
      ...given('angle', angle, degrees),
      ...given('offset', offset, signed(mm(`slots[${i}].offset`))),
      ...given('from', from, zeroOr(mm(`slots[${i}].from`))),
      ...given('to', to, zeroOr(mm(`slots[${i}].to`))),
    })),
  }
}

/** Places to keep out of: a row that is blank is none, one half filled is a problem. */
export function readKeepOut({ banjo }: BanjoLathe, problems: Problem[]): Pick<Banjo, 'keepOut'> {
  const keepOut = banjo.keepOut.flatMap((place, i) => {
    if (Object.values(place).every((text) => !text.trim())) return []
    const mm = (key: string) => millimetres(problems, `keepOut[${i}].${key}`)
    const x = signed(mm('x'))(place.x)
    const y = signed(mm('y'))(place.y)
    const radius = mm('radius')(place.radius)
    return x === undefined || y === undefined || radius === undefined ? [] : [{ x, y, radius }]
  })
  return keepOut.length ? { keepOut } : {}
}

type Entry = [path: string, text: string]

/** The fields that a banjo of this kind cannot do without, and what stands in them. */
export function neededFields({ banjo, centreDistance }: BanjoLathe): Entry[] {
  const { slots, stops } = banjo
  const measured = banjo.by === 'measured'
  const names = measured ? (['near', 'far', 'fromFirst'] as const) : (['from', 'to', 'angle'] as const)
  return [
    ['centreDistance', centreDistance],
    ...slots.flatMap((slot, i) =>
      names.slice(0, i > 0 ? 3 : 2).map((name): Entry => [`slots[${i}].${name}`, slot[name]]),
    ),
    ...stops.map(({ toStud, swing }, i): Entry => (measured ? [`stops[${i}].toStud`, toStud] : [`swing[${i}]`, swing])),
  ]
}

export interface ReadBanjo {
  /** For the lathe: nothing until all that is needed is there. */
  lathe: Pick<Lathe, 'banjo' | 'shaftClearance'>
  problems: Problem[]
  /** Paths of the fields that still have to be filled in, without `lathe.banjo`. */
  open: string[]
}

/** The banjo as typed: used once everything that is needed is there, so that the answer stands until then. */
export function readBanjo(lathe: BanjoLathe): ReadBanjo {
  const { by } = lathe.banjo
  if (by === 'none') return { lathe: {}, problems: [], open: [] }
  const open = neededFields(lathe).flatMap(([path, text]) => (text.trim() ? [] : [path]))
  const problems: Problem[] = []
  const keepOut = readKeepOut(lathe, problems)
  const made = by === 'measured' ? measured(lathe, problems, open) : { banjo: readDrawn(lathe, problems) as Banjo }
  const ready = made && open.length === 0 && problems.length === 0
  return {
    lathe: ready ? { ...made, banjo: { ...made.banjo, ...keepOut } } : {},
    problems: problems.map(placed),
    open,
  }
}

function measured(
  lathe: BanjoLathe,
  problems: Problem[],
  open: readonly string[],
): (ReadBanjo['lathe'] & { banjo: Banjo }) | undefined {
  const measures = readMeasures(lathe, problems)
  if (open.length > 0 || problems.length > 0 || measures.centreDistance === undefined) return undefined
  const { banjo, shaftClearance } = gather(problems, () => measureBanjo(measures as MeasuredBanjo)) ?? {}
  return banjo && { banjo, ...(shaftClearance === undefined ? {} : { shaftClearance }) }
}
