import type { Sense } from '@trainwright/trains'
import { lifted } from './lifted.js'
import { type Bounds, fill, listOf, oneOf, type Shape } from './shape.js'
import { blankDrive, blankKind, blankMounted, blankThread, SHAFTS, type Typed } from './typed.js'
import {
  blankBanjo,
  blankKeepOut,
  blankSlot,
  blankStop,
  type TypedBanjo,
  type TypedSlot,
  type TypedStop,
} from './typed-banjo.js'
import { blankChart, blankMaking, blankWishes } from './typed-making.js'
import { blankWork, FORMS, type TypedWork } from './typed-work.js'

/**
 * The version of what is kept, saved and linked. New parts of what is typed do not change it: they are filled from
 * their blanks when an older page wrote it, and stay untouched when a newer one did. A change that this does not cover
 * raises it, and `migrate` learns the way.
 */
export const VERSION = 2

type Turned = Pick<Typed['view'], 'rotate' | 'mirror'>

/** A workshop as it is kept: a lathe with its box, and how its drawing is turned to look like it. */
export interface Shop extends Pick<Typed, 'workshop'> {
  view: Turned
}

/** What belongs to the page whichever workshop is open: a thread wanted is asked of one lathe and then of another. */
export interface Page extends Omit<Typed, keyof Shop> {
  view: Omit<Typed['view'], keyof Turned>
}

const hand = oneOf('right', 'left')
const yesNo = oneOf('unknown', 'yes', 'no')
const drives = [{ ...blankDrive(), belt: oneOf('none', 'toothed', 'plain') }]

const sense = oneOf<Sense>('anticlockwise', 'clockwise')
const banjoShape: Shape<TypedBanjo> = {
  ...blankBanjo(),
  by: oneOf('none', 'measured', 'drawn'),
  pivot: oneOf('output', 'input'),
  slots: listOf<TypedSlot>({ ...blankSlot(), passes: oneOf('left', 'right'), lies: sense }, [blankSlot()]),
  stops: listOf<TypedStop>({ ...blankStop(), lies: sense }, [blankStop(), blankStop()]),
  keepOut: [blankKeepOut()],
}

export const shopShape: Shape<Shop> = {
  workshop: {
    name: '',
    lathe: {
      leadscrew: { pitch: '', hand },
      studs: '2',
      planes: '2',
      centreDistance: '',
      shaftClearance: '',
      room: { input: '', output: '' },
      fixed: { input: '', output: '' },
      drives,
      gearbox: drives,
      halfNuts: yesNo,
      dial: { travel: '', lines: '' },
      screwedNose: yesNo,
      speeds: '',
      banjo: banjoShape,
    },
    kinds: listOf(
      { ...blankKind(), by: oneOf('module', 'dp'), shafts: listOf(oneOf('input', 'stud', 'output'), SHAFTS) },
      [blankKind()],
    ),
    wires: '',
    mounted: blankMounted(),
    making: { ...blankMaking(), gears: oneOf('1', '2') },
    also: {},
  },
  view: { rotate: 90, mirror: false },
}

const blank = blankWork()
const workShape: Shape<TypedWork> = {
  ...blank,
  form: oneOf('', ...FORMS),
  by: oneOf('major', 'effective'),
  cut: oneOf('screw', 'nut'),
  limits: oneOf('none', 'class', 'allowance'),
  nose: { ...blank.nose, shape: oneOf('form', 'flat', 'radius') },
  crest: oneOf('form', 'sharp'),
  passes: { ...blank.passes, by: oneOf('pitch', 'count', 'first cut') },
  mate: { ...blank.mate, flutes: oneOf('4', '3', '2') },
}

export const pageShape: Shape<Page> = {
  threads: listOf(
    { ...blankThread(), hand, tolerance: { ...blankThread().tolerance, by: oneOf('ppm', 'length') }, work: workShape },
    [blankThread()],
  ),
  thread: 0,
  wishes: blankWishes(),
  chart: { ...blankChart(), sequence: oneOf('as given', 'fewest changes') },
  order: oneOf('fewest gears', 'closest'),
  view: { units: oneOf('mm', 'inch') },
}

export function splitTyped({ workshop, view, ...page }: Typed): { shop: Shop; page: Page } {
  const { rotate, mirror, ...seen } = view
  return { shop: { workshop, view: { rotate, mirror } }, page: { ...page, view: seen } }
}

export const joinTyped = ({ workshop, view }: Shop, page: Page): Typed => ({
  ...page,
  workshop,
  view: { ...page.view, ...view },
})

export const blankShop = (): Shop => fill<Shop>(shopShape, undefined, [])

/** What the first version kept in one piece, in two. */
export function migrate(x: { typed?: unknown }): { shop: unknown; page: unknown } {
  const { workshop, view, ...page } = Object(x.typed) as Partial<Typed>
  return { shop: { workshop, view }, page }
}

/** Reads a workshop that was kept; parts that cannot be read are blank, and `wrong` names them. */
export function readShop(x: unknown, wrong: string[] = [], bounds?: Bounds): Shop {
  const shop = fill<Shop>(shopShape, lifted(x), wrong, '', bounds)
  const { workshop } = shop
  let { kinds, lathe } = workshop
  if (kinds.length === 0) {
    wrong.push('workshop.kinds')
    kinds = [blankKind()]
  }
  if (lathe.banjo.slots.length === 0 || lathe.banjo.stops.length !== 2) {
    wrong.push('workshop.lathe.banjo')
    lathe = { ...lathe, banjo: blankBanjo() }
  }
  return { ...shop, workshop: { ...workshop, kinds, lathe } }
}

/** Reads what belongs to the page; parts that cannot be read are blank, and `wrong` names them. */
export function readPage(x: unknown, wrong: string[] = [], bounds?: Bounds): Page {
  const page = fill<Page>(pageShape, x, wrong, '', bounds)
  if (page.threads[page.thread]) return page
  wrong.push('thread')
  const threads = page.threads.length > 0 ? page.threads : [blankThread()]
  return { ...page, threads, thread: 0 }
}
