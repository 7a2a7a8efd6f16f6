import type { FindOptions, Hand, ShaftName, Workshop } from '@trainwright/trains'
import type { TypedBanjo } from './typed-banjo.js'
import type { TypedChart, TypedMaking, TypedWishes } from './typed-making.js'
import { blankWork, type TypedWork } from './typed-work.js'

/** Everything on the page exactly as it was typed: nothing is lost, not even what cannot be read. */
export interface Typed {
  threads: TypedThread[]
  /** Index of the thread in hand. */
  thread: number
  workshop: TypedWorkshop
  wishes: TypedWishes
  chart: TypedChart
  order: NonNullable<FindOptions['order']>
  /** How the drawing is turned, and the unit that printed lengths are in. */
  view: { rotate: number; mirror: boolean; units: Units }
}

export type Units = 'mm' | 'inch'

export interface TypedThread {
  name: string
  pitch: string
  starts: string
  hand: Hand
  tolerance: { by: 'ppm' | 'length'; ppm: string; error: string; over: string }
  work: TypedWork
}

export interface TypedWorkshop {
  name: string
  lathe: TypedLathe
  kinds: TypedKind[]
  /** Measuring wires owned. */
  wires: string
  mounted: TypedMounted
  making: TypedMaking
  /** What the page does not ask for yet, kept and passed on as it came. */
  also: Omit<Workshop, 'name' | 'lathe' | 'gears' | 'wires' | 'head'>
}

export interface TypedLathe {
  leadscrew: { pitch: string; hand: Hand }
  studs: string
  planes: string
  centreDistance: string
  shaftClearance: string
  room: { input: string; output: string }
  /** Teeth, or teeth and module ('40 1.5'); empty when nothing is fixed. */
  fixed: { input: string; output: string }
  drives: TypedDrive[]
  gearbox: TypedDrive[]
  halfNuts: TypedYesNo
  /** Travel of one turn of the chasing dial, and its lines; blank where there is none. */
  dial: { travel: string; lines: string }
  screwedNose: TypedYesNo
  speeds: string
  banjo: TypedBanjo
}

export type TypedYesNo = 'yes' | 'no' | 'unknown'

export interface TypedDrive {
  name: string
  ratio: string
  reverses: boolean
  belt: 'none' | 'toothed' | 'plain'
}

/** What is on the lathe now: the setting by its place in the lists of the lathe, the gears as '24:72 48:80'. */
export interface TypedMounted {
  drive: number
  gearbox: number
  gears: string
}

/** Gears that are alike but for their teeth: a line of counts, and what holds for all of them. */
export interface TypedKind {
  line: string
  by: 'module' | 'dp'
  size: string
  angle: string
  shafts: ShaftName[]
}

export const SHAFTS: readonly ShaftName[] = ['input', 'stud', 'output']

export const blankThread = (): TypedThread => ({
  name: '',
  pitch: '',
  starts: '1',
  hand: 'right',
  tolerance: { by: 'ppm', ppm: '500', error: '0.005 mm', over: '25 mm' },
  work: blankWork(),
})

export const blankKind = (): TypedKind => ({ line: '', by: 'module', size: '1', angle: '20', shafts: [...SHAFTS] })

export const blankMounted = (): TypedMounted => ({ drive: 0, gearbox: 0, gears: '' })

export const blankDrive = (): TypedDrive => ({ name: '', ratio: '1', reverses: false, belt: 'none' })
