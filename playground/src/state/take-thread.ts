import type { SeriesThread } from '@trainwright/threads'
import type { TypedThread } from './typed.js'

/**
 * The thread with everything that a published one says of it. A name that a person gave stays; one that only names
 * another published thread (`isThread`) gives way.
 */
export function takePublished(
  thread: TypedThread,
  { name, form, pitch, major }: SeriesThread,
  isThread: (name: string) => boolean,
): TypedThread {
  const { work } = thread
  const named = thread.name.trim() !== '' && !isThread(thread.name)
  // A class means nothing in another form.
  const limits = work.limits === 'class' && work.form !== form ? 'none' : work.limits
  return {
    ...thread,
    name: named ? thread.name : name,
    pitch,
    work: { ...work, form, by: 'major', diameter: `${major} mm`, limits },
  }
}

/** The thread as it was measured: a form of the owner's own. What was not measured stays as it is. */
export function takeMeasured(thread: TypedThread): TypedThread {
  const { work } = thread
  const { pitch, angle, major, effective } = work.measured
  const by = effective.value.trim() ? 'effective' : 'major'
  return {
    ...thread,
    pitch: pitch.value.trim() || thread.pitch,
    work: {
      ...work,
      form: 'own',
      own: { ...work.own, angle: angle.value.trim() || work.own.angle },
      by,
      diameter: (by === 'effective' ? effective : major).value.trim() || work.diameter,
      limits: work.limits === 'class' ? 'none' : work.limits,
    },
  }
}
