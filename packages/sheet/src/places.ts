import type { FixedDrive, Gear, Lathe, ShaftName, Train } from '@trainwright/trains'

/** Which way a shaft turns, seen from the gear end of the lathe with the spindle running forward (clockwise). */
export type Turning = 'clockwise' | 'anticlockwise'
/** What a gear does in the train. */
export type Role = 'driver' | 'idler' | 'driven'

/** A gear where it sits. */
export interface PlacedGear {
  gear: Gear
  plane: number
  role: Role
  /** Index of the shaft that this gear turns; null for a driven gear, which turns its own shaft only. */
  turns: number | null
}

/** One shaft of a train with what a person puts on it. */
export interface Place {
  /** 'A' for the input shaft, then on along the train: the same letter on the drawing, in the list and in the text. */
  letter: string
  shaft: ShaftName
  /** 'Input shaft', 'Stud 1', 'Output shaft'. */
  name: string
  turning: Turning
  /** One gear, or a keyed pair: the driven gear first, then the driver. */
  gears: PlacedGear[]
}

const opposite = (turning: Turning): Turning => (turning === 'clockwise' ? 'anticlockwise' : 'clockwise')

const nameOf = (shaft: ShaftName, index: number): string =>
  shaft === 'stud' ? `Stud ${index}` : shaft === 'input' ? 'Input shaft' : 'Output shaft'

/**
 * The shafts of a train in order, with names, letters, turning and what each gear does. Every external mesh reverses;
 * the input shaft turns as the spindle does unless the drive reverses.
 */
export function placesOf(lathe: Lathe, train: Train): Place[] {
  const last = train.shafts.length - 1
  let turning: Turning = lathe.drives?.[train.drive]?.reverses ? 'anticlockwise' : 'clockwise'
  return train.shafts.map(({ shaft, gears }, index) => {
    if (index > 0) turning = opposite(turning)
    const drives = (at: number) => index < last && at === gears.length - 1
    return {
      letter: String.fromCharCode(65 + index),
      shaft,
      name: nameOf(shaft, index),
      turning,
      gears: gears.map(({ gear, plane }, at) => {
        const role = !drives(at) ? 'driven' : index === 0 || gears.length === 2 ? 'driver' : 'idler'
        return { gear, plane, role, turns: drives(at) ? index + 1 : null }
      }),
    }
  })
}

/**
 * What a drive or a setting of the gearbox is called; null for the only way there is, when it goes straight through.
 * @param index of the way, counted from 0 as in a train
 */
export function settingName(ways: readonly FixedDrive[] | undefined, index: number): string | null {
  const way = ways?.[index]
  if (!way) return null
  const { name, ratio, reverses } = way
  if (name || (!ways[1] && ratio === '1' && !reverses)) return name || null
  return `setting ${index + 1} of ${ways.length}, ratio ${ratio}${reverses ? ', reverses' : ''}`
}

/** The module in mm, also of a gear that is known by its diametral pitch. */
export const moduleOf = ({ module = 1, dp }: Partial<Pick<Gear, 'module' | 'dp'>>): number => (dp ? 25.4 / dp : module)

export const pitchRadius = (gear: Gear): number => (moduleOf(gear) * gear.teeth) / 2
export const tipRadius = (gear: Gear): number => (moduleOf(gear) * (gear.teeth + 2)) / 2

/** Whether the train mixes sizes of tooth, so that a gear needs more than its tooth count to be known by. */
export function isMixed(train: Train): boolean {
  const sizes = train.shafts.flatMap((s) => s.gears.map(({ gear }) => `${moduleOf(gear)} ${gear.pressureAngle}`))
  return new Set(sizes).size > 1
}

/** 'module 1', '20 DP', with the angle when it is not 20 degrees. */
export function sizeOf(gear: Gear): string {
  const size = gear.dp ? `${gear.dp} DP` : `module ${gear.module}`
  return gear.pressureAngle === 20 ? size : `${size}, ${gear.pressureAngle}°`
}

/** '24 → 72, 48 → (20) → 80': drivers and driven gears by stage, idlers in brackets. */
export const trainInLine = ({ stages }: Train): string =>
  stages
    .map(({ driver, idlers, driven }) =>
      [driver.teeth, ...idlers.map(({ teeth }) => `(${teeth})`), driven.teeth].join(' → '),
    )
    .join(', ')
