import type { GearChanges } from '@trainwright/sheet'
import type { LaidOut } from '@trainwright/trains'
import { type BanjoLathe, type ReadBanjo, readBanjo } from './state/read-banjo.js'
import { count, minus } from './words.js'

/** The banjo in few words, for its fold. */
export function banjoSaid(lathe: BanjoLathe): string {
  const { by, slots } = lathe.banjo
  if (by === 'none') return 'not told'
  return `${count(slots.length, 'slot')}, ${readBanjo(lathe).lathe.banjo ? 'used' : 'not used yet'}`
}

/** Whether the banjo is used yet, and what it waits for. */
export function banjoVerdict({ lathe, open, problems }: ReadBanjo): string {
  if (lathe.banjo) return 'Used: trains are shown only if they stand on it.'
  if (problems.length > 0) return 'Not used until what is marked is corrected.'
  const [first] = open
  const where = first === 'centreDistance' ? 'first Input to output shaft, above' : 'marked ? on the drawing'
  return `Not used yet: ${count(open.length, 'figure is', 'figures are')} still to come, ${where}.`
}

/** How the gears that are on now stand, or what keeps them from standing. */
export function standsAs(laid: LaidOut): string {
  if (!laid.ok) return `By the figures it does not go on: ${laid.obstacle.message}`
  const { swing, shafts, clearance } = laid.layout
  const studs = shafts.flatMap(({ slot, along }, i) =>
    slot === null || along === null ? [] : [`stud ${i} in slot ${slot + 1} at ${along.toFixed(2)} mm`],
  )
  const swung = swing === null ? [] : [`banjo swung to ${minus(swing.toFixed(1))}°`]
  const spare = clearance ? [`least clearance ${clearance.mm.toFixed(2)} mm, ${clearance.between}`] : []
  return `Stands on the banjo: ${[...studs, ...swung, ...spare].join('; ')}.`
}

const list = (gears: readonly { teeth: number }[]): string => gears.map(({ teeth }) => teeth).join(', ')

/** What changes on the lathe for a train: 'on 50, 65; off 40'. */
export function changesInWords({ on, off }: GearChanges): string {
  const parts = [...(on.length ? [`on ${list(on)}`] : []), ...(off.length ? [`off ${list(off)}`] : [])]
  return parts.join('; ') || 'on the lathe now'
}
