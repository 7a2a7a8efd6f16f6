import { compare, parsePitch } from '@trainwright/measures'
import { baLimits, isoLimits, series, type ThreadDimensions, threadDimensions } from '@trainwright/threads'
import type { Asked } from './job.js'
import type { Problems } from './problems.js'
import type { ThreadWork } from './thread-work.js'

/** [least, greatest], mm; major and minor null where the class or allowance says nothing of them. */
export interface Limits {
  name: string
  /** The work that lays them down. */
  source: string
  major: [number, number] | null
  effective: [number, number]
  minor: [number, number] | null
}

/** The thread as read: its basic sizes, and its limits when a class or an allowance says them. */
export interface ThreadRead {
  /** All of the work but the diameter, with the pitch: as the functions of threads take it. */
  how: Omit<ThreadWork, 'major' | 'effective'> & { pitch: string; starts: number }
  /** The nut is cut, not the screw. */
  nut: boolean
  sizes: ThreadDimensions
  limits: Limits | null
}

/** Less than any thread or tolerance is made to. */
const LEAST_ALLOWANCE = 1e-5

function baNumber(pitch: string, { major }: ThreadDimensions): number {
  const { mm } = parsePitch(pitch)
  return series('BA').findIndex(
    (one) => compare(parsePitch(one.pitch).mm, mm) === 0 && Math.abs(one.major - major) < 1e-6,
  )
}

function byClass(name: string, { how, nut, sizes }: Omit<ThreadRead, 'limits'>, problems: Problems): Limits | null {
  const { form, pitch } = how
  if (form === 'metric') {
    if (nut !== /[GH]/.test(name)) problems.say('thread.class', 'wrong-class', nut ? 'nut' : 'screw', nut ? '6H' : '6g')
    const limits = problems.from(() => isoLimits({ diameter: sizes.major, pitch, class: name }))
    return limits ? { name, source: 'ISO 965-1', ...limits } : null
  }
  const number = form === 'ba' ? baNumber(pitch, sizes) : -1
  if (number < 0) problems.say('thread.class', form === 'ba' ? 'not-numbered' : 'no-class')
  problems.done()
  const limits = problems.from(() => baLimits({ number, class: name as 'close' | 'normal', nut }))
  return limits ? { name, source: 'BS 93', ...limits } : null
}

function byAllowance(allowance: number, { nut, sizes: { effective } }: Omit<ThreadRead, 'limits'>): Limits {
  const range: [number, number] = nut ? [effective, effective + allowance] : [effective - allowance, effective]
  return { name: 'allowance', source: 'as given', major: null, effective: range, minor: null }
}

/** @throws InputError naming every problem of the thread's sizes, class and allowance. */
export function readThread({ wanted, starts }: Asked, work: ThreadWork, problems: Problems): ThreadRead {
  problems.object(work, 'thread')
  problems.done()
  const { major, effective, ...rest } = work
  const { cut, crest, class: name, allowance } = work
  const how = { ...rest, pitch: wanted.pitch, starts }
  problems.choice(cut, 'thread.cut', ['screw', 'nut'])
  const nut = cut === 'nut'
  if (nut && crest === 'sharp') problems.say('thread.crest', 'crest-of-nut')
  if (name !== undefined && allowance !== undefined) problems.say('thread.allowance', 'class-or-allowance')
  const one = { ...(major !== undefined && { major }), ...(effective !== undefined && { effective }) }
  const sizes = problems.from(() => threadDimensions({ ...how, ...one }))
  if (sizes) problems.number(allowance, 'thread.allowance', LEAST_ALLOWANCE, sizes.pitch / 2)
  problems.done()
  const read = { how, nut, sizes: sizes! }
  const limits =
    name !== undefined ? byClass(name, read, problems) : allowance === undefined ? null : byAllowance(allowance, read)
  problems.done()
  return { ...read, limits }
}
