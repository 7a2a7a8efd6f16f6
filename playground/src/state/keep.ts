import { hasShape } from './shape.js'
import { blankDrive, blankKind, blankThread, type Typed } from './typed.js'

const KEY = 'trainwright'
const VERSION = 1

const example: Typed = {
  threads: [blankThread()],
  thread: 0,
  workshop: {
    name: '',
    lathe: {
      leadscrew: { pitch: '', hand: 'right' },
      studs: '',
      planes: '',
      centreDistance: '',
      shaftClearance: '',
      room: { input: '', output: '' },
      fixed: { input: '', output: '' },
      drives: [blankDrive()],
      gearbox: [blankDrive()],
      also: {},
    },
    kinds: [blankKind()],
    also: {},
  },
  order: 'fewest gears',
  view: { rotate: 90, mirror: false },
}

/** What was typed when the page was last open, or null when there is nothing or it cannot be read. */
export function recall(storage: () => Storage): Typed | null {
  try {
    const kept: unknown = JSON.parse(storage().getItem(KEY) ?? 'null')
    if (!hasShape({ version: VERSION, typed: example }, kept) || kept.version !== VERSION) return null
    const { typed } = kept
    const usable = typed.threads[typed.thread] !== undefined && typed.workshop.kinds.length > 0
    return usable ? typed : null
  } catch {
    return null
  }
}

/** Keeps what was typed; false when the browser has no room or does not allow it. */
export function keep(storage: () => Storage, typed: Typed): boolean {
  try {
    storage().setItem(KEY, JSON.stringify({ version: VERSION, typed }))
    return true
  } catch {
    return false
  }
}
