import { compare, parsePitch } from '@trainwright/measures'
import { baLimits, isoLimits, series, type ThreadDimensions, threadDimensions } from '@trainwright/threads'
import type { Asked } from './job.js'
import { inThread, type Problems } from './problems.js'
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
  work: ThreadWork
  /** The nut is cut, not the screw. */
  nut: boolean
  sizes: ThreadDimensions
  limits: Limits | null
}

/** The number of the BA thread with this pitch and diameter, or -1. */
function baNumber({ pitch }: Asked, { major }: ThreadDimensions): number {
  return series('BA').findIndex(
    (one) => compare(parsePitch(one.pitch).mm, pitch.mm) === 0 && Math.abs(one.major - major) < 1e-6,
  )
}

function byClass(asked: Asked, read: Omit<ThreadRead, 'limits'>, problems: Problems): Limits | null {
  const { work, nut, sizes } = read
  const name = work.class!
  if (work.form === 'metric') {
    if (nut !== /[GH]/.test(name)) problems.say('thread.class', nut ? 'class-of-screw' : 'class-of-nut')
    const of = { diameter: sizes.major, pitch: asked.wanted.pitch, class: name }
    const at = inThread({ diameter: 'thread.major', pitch: 'wanted.pitch' })
    const limits = problems.from(() => isoLimits(of), at)
    return limits ? { name, source: 'ISO 965-1', ...limits } : null
  }
  const number = work.form === 'ba' ? baNumber(asked, sizes) : -1
  if (number < 0) {
    problems.say('thread.class', work.form === 'ba' ? 'not-numbered' : 'no-class')
    return null
  }
  const limits = problems.from(
    () => baLimits({ number, class: name as 'close' | 'normal', nut }),
    inThread({ number: 'thread.major' }),
  )
  return limits ? { name, source: 'BS 93', ...limits } : null
}

function limitsOf(asked: Asked, read: Omit<ThreadRead, 'limits'>, problems: Problems): Limits | null {
  const { work, nut, sizes } = read
  if (work.class !== undefined) return byClass(asked, read, problems)
  if (work.allowance === undefined) return null
  const { effective } = sizes
  return {
    name: 'allowance',
    source: 'as given',
    major: null,
    effective: nut ? [effective, effective + work.allowance] : [effective - work.allowance, effective],
    minor: null,
  }
}

/** Form, pitch and the one diameter, as the functions of threads take them. */
export const threadOf = (asked: Asked, { form, major, effective }: ThreadWork) => ({
  form,
  pitch: asked.wanted.pitch,
  starts: asked.starts,
  ...(major !== undefined && { major }),
  ...(effective !== undefined && { effective }),
})

/** @throws InputError naming every problem of the thread's sizes, class and allowance. */
export function readThread(asked: Asked, work: ThreadWork, problems: Problems): ThreadRead {
  if (typeof work !== 'object') problems.say('thread', 'object')
  problems.done()
  const nut = work.cut === 'nut'
  problems.choice(work.cut, 'thread.cut', ['screw', 'nut'])
  if (nut && work.crest === 'sharp') problems.say('thread.crest', 'crest-of-nut')
  if (work.class !== undefined && work.allowance !== undefined) problems.say('thread.allowance', 'class-or-allowance')
  if (work.class !== undefined && typeof work.class !== 'string') problems.say('thread.class', 'class-type')
  const at = inThread({ pitch: 'wanted.pitch', starts: 'wanted.starts' })
  const sizes = problems.from(() => threadDimensions(threadOf(asked, work)), at)
  if (sizes) problems.number(work.allowance, 'thread.allowance', 0, sizes.pitch / 2)
  problems.done()
  const limits = limitsOf(asked, { work, nut, sizes: sizes! }, problems)
  problems.done()
  return { work, nut, sizes: sizes!, limits }
}
