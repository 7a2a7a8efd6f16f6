import type { Gear, Lathe, Train } from '@trainwright/trains'
import { type DrawnSlot, pivotOf, plateOf, slotsOf } from './banjo.js'
import { bendChain, type Point } from './chain.js'
import {
  isMixed,
  moduleOf,
  type Place,
  pitchRadius,
  placesOf,
  type Role,
  sizeOf,
  type Turning,
  tipRadius,
} from './places.js'

/**
 * A train drawn to scale: plain data in mm, seen from the gear end of the lathe, output shaft at the origin and input
 * shaft on the positive x axis. Nothing here is rounded for print; drawingToSvg does that.
 */
export interface TrainDrawing {
  /** True when the positions of the studs are not known and the chain is placed to be seen well. */
  schematic: boolean
  shafts: DrawnShaft[]
  /** Further planes later, so that drawing in this order puts the gears nearest to the eye on top. */
  gears: DrawnGear[]
  meshes: DrawnMesh[]
  /** The banjo as it stands, when it is known. */
  banjo: { swing: number; pivot: Point; plate: Point[]; slots: DrawnSlot[] } | null
  keepOut: { x: number; y: number; radius: number }[]
  /** The smallest to spare, mm, and what it is `between`, in words. */
  clearance: { mm: number; between: string } | null
}

/** A shaft where it is drawn; x and y in mm. */
export interface DrawnShaft extends Point {
  /** 'A' for the input shaft, then on along the train. */
  letter: string
  name: string
  turning: Turning
  /** Slot counted from 1 and mm along it, for a stud on a known banjo. */
  setting: { slot: number; along: number } | null
}

/** A gear where it is drawn; x, y and radii in mm. */
export interface DrawnGear extends Point {
  /** Index into `shafts`. */
  shaft: number
  teeth: number
  /** 'module 1.5', said only when the train mixes sizes. */
  size: string | null
  plane: number
  role: Role
  turning: Turning
  pitchRadius: number
  tipRadius: number
}

/** Where two gears touch; x, y and the distance of their centres in mm. */
export interface DrawnMesh extends Point {
  /** Indices into `shafts`; the pitch circles touch at x, y. */
  between: [number, number]
  plane: number
  centreDistance: number
}

/** How much of the straight length a chain without known positions spans, most bent first. */
const SPANS = [0.8, 0.85, 0.9, 0.95, 1]
const nothing: readonly never[] = []

/** Draws a train of this lathe, from its layout when it has one. */
export function drawTrain(lathe: Lathe, train: Train): TrainDrawing {
  const places = placesOf(lathe, train)
  const { layout } = train
  const points = layout ? layout.shafts.map(({ x, y }) => ({ x, y })) : positions(lathe, places)
  const banjo = layout && layout.swing !== null && lathe.banjo ? lathe.banjo : null
  const centreDistance = points[0]!.x
  return {
    schematic: !layout,
    shafts: places.map(({ letter, name, turning }, i) => ({
      letter,
      name,
      turning,
      ...points[i]!,
      setting: setting(train, i),
    })),
    gears: gears(places, points, isMixed(train)),
    meshes: meshes(places, points),
    banjo: banjo && plate(banjo, layout!.swing!, centreDistance),
    keepOut: [...(layout ? (lathe.banjo?.keepOut ?? nothing) : nothing)],
    clearance: layout?.clearance ?? null,
  }
}

function setting(train: Train, index: number): DrawnShaft['setting'] {
  const shaft = train.layout?.shafts[index]
  return shaft && shaft.slot !== null && shaft.along !== null ? { slot: shaft.slot + 1, along: shaft.along } : null
}

function plate(banjo: NonNullable<Lathe['banjo']>, swing: number, centreDistance: number): TrainDrawing['banjo'] {
  const slots = slotsOf(banjo, swing, centreDistance)
  const pivot = pivotOf(banjo, centreDistance)
  return { swing, pivot, plate: plateOf(pivot, slots), slots }
}

const gears = (places: readonly Place[], points: readonly Point[], mixed: boolean): DrawnGear[] =>
  places
    .flatMap((place, shaft) =>
      place.gears.map(({ gear, plane, role }) => ({
        ...points[shaft]!,
        shaft,
        teeth: gear.teeth,
        size: mixed ? sizeOf(gear) : null,
        plane,
        role,
        turning: place.turning,
        pitchRadius: pitchRadius(gear),
        tipRadius: tipRadius(gear),
      })),
    )
    .sort((a, b) => a.plane - b.plane)

/** The gear of a place that turns the next place, and the gear of a place that is turned. */
const turns = (place: Place) => place.gears.at(-1)!
const turned = (place: Place) => place.gears[0]!
const touch = (driver: Gear, driven: Gear): number => pitchRadius(driver) + pitchRadius(driven)

const meshes = (places: readonly Place[], points: readonly Point[]): DrawnMesh[] =>
  places.slice(1).map((place, i) => {
    const [from, to] = [points[i]!, points[i + 1]!]
    const { gear, plane } = turns(places[i]!)
    const share = pitchRadius(gear) / touch(gear, turned(place).gear)
    return {
      x: from.x + (to.x - from.x) * share,
      y: from.y + (to.y - from.y) * share,
      between: [i, i + 1],
      plane,
      centreDistance: Math.hypot(to.x - from.x, to.y - from.y),
    }
  })

/** Positions when none are known: the given centre distance, else the most bent chain in which nothing fouls. */
function positions(lathe: Lathe, places: readonly Place[]): Point[] {
  const links = places.slice(1).map((place, i) => touch(turns(places[i]!).gear, turned(place).gear))
  const straight = links.reduce((a, b) => a + b, 0)
  if (lathe.centreDistance !== undefined) return bendChain(links, lathe.centreDistance)
  const tried = SPANS.map((part) => bendChain(links, straight * part))
  return tried.find((points) => !fouls(lathe, places, points)) ?? tried.at(-1)!
}

/** Whether gears that do not mesh come within 0.5 mm in one plane, or a tip too near to a shaft it has no business with. */
function fouls(lathe: Lathe, places: readonly Place[], points: readonly Point[]): boolean {
  return places.some((a, i) =>
    places.some((b, j) => {
      if (i === j) return false
      const apart = Math.hypot(points[i]!.x - points[j]!.x, points[i]!.y - points[j]!.y)
      return a.gears.some((mine) => {
        const meshing = (mine.turns === j && turned(b)) || (turns(b).turns === i && mine === turned(a) && turns(b))
        const room = lathe.shaftClearance ?? 6.5 * moduleOf(mine.gear)
        if (!meshing && apart < tipRadius(mine.gear) + room) return true
        return b.gears.some(
          (other) =>
            other !== meshing &&
            other.plane === mine.plane &&
            apart < tipRadius(mine.gear) + tipRadius(other.gear) + 0.5,
        )
      })
    }),
  )
}
