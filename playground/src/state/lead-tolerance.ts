import { compare, InputError, parsePitch } from '@trainwright/measures'
import type { ThreadWork } from '@trainwright/sheet'
import {
  baLimits,
  type LeadTolerance,
  leadTolerance,
  leadToleranceOfClass,
  series,
  threadDimensions,
} from '@trainwright/threads'

/** The lead may eat half of the tolerance; the rest is for everything else (common practice, no source). */
const SHARE = 0.5

/** The tolerance of a BA thread's effective diameter; NaN for a thread that has no number. */
function toleranceOfBa({ class: name, cut }: ThreadWork, pitch: string, major: number): number {
  const { mm } = parsePitch(pitch)
  const number = series('BA').findIndex(
    (one) => Math.abs(one.major - major) < 1e-6 && compare(parsePitch(one.pitch).mm, mm) === 0,
  )
  if (number < 0) return Number.NaN
  const [least, greatest] = baLimits({ number, class: name as 'close' | 'normal', nut: cut === 'nut' }).effective
  return greatest - least
}

/**
 * The lead error that a thread stands by its class or allowance over its engagement, for `ThreadWanted.tolerance`.
 * @throws InputError when the thread's class, allowance, engagement or sizes do not say it.
 */
export function leadToleranceOf(work: ThreadWork, pitch: string): LeadTolerance {
  const { form, engagement = Number.NaN, class: name, allowance = Number.NaN, major, effective } = work
  const diameter = threadDimensions({
    form,
    pitch,
    ...(major !== undefined && { major }),
    ...(effective !== undefined && { effective }),
  }).major
  if (name !== undefined && form === 'metric') return leadToleranceOfClass({ diameter, pitch, class: name, engagement })
  const tolerance = name === undefined ? allowance : form === 'ba' ? toleranceOfBa(work, pitch, diameter) : Number.NaN
  if (name !== undefined && Number.isNaN(tolerance)) {
    const message = 'No classes are kept for this thread: give an allowance.'
    throw new InputError([{ path: 'class', code: 'no-class', message }])
  }
  return leadTolerance({ form, allowance: SHARE * tolerance, engagement })
}
