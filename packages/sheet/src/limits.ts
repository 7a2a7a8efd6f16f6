import {
  baLimits,
  forms,
  isoLimits,
  recogniseThread,
  type ThreadDimensions,
  threadDimensions,
} from '@trainwright/threads'
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
  /** All of the work but the diameter, with pitch, starts and hand: as the functions of threads take it. */
  how: Omit<ThreadWork, 'major' | 'effective'> & { pitch: string; starts: number; hand: 'right' | 'left' }
  /** The nut is cut, not the screw. */
  nut: boolean
  /** All undefined when they are refused. */
  sizes: ThreadDimensions
  limits: Limits | null
}

/** Less than any thread or tolerance is made to. */
const LEAST_ALLOWANCE = 1e-5
/** An effective diameter is known to so much, mm (common practice, no source). */
const DOUBT = 0.01

/**
 * Limits by a class, and the sizes that they count from: those of the nominal diameter. Where that was not given it is the
 * one of the published thread that was measured, worn or not.
 */
function byClass(read: ThreadRead, name: string, measured: boolean, problems: Problems): ThreadRead {
  const { how, nut, sizes } = read
  const { form, pitch } = how
  const metric = form === 'metric'
  const other = /[GH]/.test(name) ? 'screw' : 'nut'
  if (metric && (how.cut ?? 'screw') === other) problems.say('thread.class', 'wrong-class', other, nut ? '6H' : '6g')
  if (!metric && form !== 'ba') {
    if (typeof form === 'object' || Object.hasOwn(forms, form)) problems.say('thread.class', 'no-class')
    return read
  }
  const known = problems.unsized
    ? []
    : recogniseThread({ effective: { value: sizes.effective, doubt: DOUBT }, pitch: { value: pitch, doubt: 0 } })
  const published = known.find(
    ({ thread }) => thread.form === form && (measured || Math.abs(thread.major - sizes.major) < 1e-6),
  )?.thread
  if (!(published || problems.unsized || (metric && !measured))) problems.say('thread.class', 'not-published')
  const basic = published ? threadDimensions({ ...how, major: published.major }) : sizes
  const limits = problems.from(() =>
    metric
      ? isoLimits({ diameter: basic.major, pitch, class: name })
      : baLimits({ number: Number.parseInt(published?.name ?? '0', 10), class: name as 'close' | 'normal', nut }),
  )
  const called = published && measured ? `${published.name}, ${name}` : name
  const source = metric ? 'ISO 965-1' : 'BS 93'
  return { ...read, sizes: basic, limits: limits ? { name: called, source, ...limits } : null }
}

function byAllowance(read: ThreadRead, allowance: number): ThreadRead {
  const { effective } = read.sizes
  const range: [number, number] = read.nut ? [effective, effective + allowance] : [effective - allowance, effective]
  return { ...read, limits: { name: 'allowance', source: 'as given', major: null, effective: range, minor: null } }
}

/** The thread with the limits that its class or allowance says; without either as it is. */
export function withLimits(
  read: ThreadRead,
  { class: name, allowance, effective }: ThreadWork,
  problems: Problems,
): ThreadRead {
  if (name !== undefined && allowance !== undefined) problems.say('thread.allowance', 'class-or-allowance')
  problems.number(allowance, 'thread.allowance', LEAST_ALLOWANCE, read.sizes.pitch / 2 || 10_000)
  if (name !== undefined) return byClass(read, name, effective !== undefined, problems)
  return allowance === undefined ? read : byAllowance(read, allowance)
}
