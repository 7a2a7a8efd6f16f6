import { isPlain } from './shape.js'
import { workshopFrom } from './typed-from.js'

/**
 * A workshop as it was kept by a page that passed on, under `also`, what it did not ask for: what is asked for by now
 * is lifted from there to where it is typed, unless something is typed there already. What cannot be lifted stays.
 */
export function lifted(x: unknown): unknown {
  if (!isPlain(x) || !isPlain(x.workshop)) return x
  const { also = {}, lathe = {}, ...typed } = x.workshop
  if (!isPlain(lathe)) return x
  const { also: ofLathe = {}, ...typedLathe } = lathe
  if (!isPlain(also) || !isPlain(ofLathe) || Object.keys({ ...also, ...ofLathe }).length === 0) return x
  try {
    const others = { ...ofLathe, leadscrew: { pitch: '' } }
    const { kinds: _, ...found } = workshopFrom({ ...also, lathe: others, gears: [] })
    return { ...x, workshop: { ...found, ...typed, lathe: { ...found.lathe, ...typedLathe } } }
  } catch {
    return x
  }
}
