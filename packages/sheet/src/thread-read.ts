import { scratchPass, threadDimensions, wireSizes } from '@trainwright/threads'
import type { Asked } from './job.js'
import { type ThreadRead, withLimits } from './limits.js'
import type { Problems } from './problems.js'
import { checkRunOut } from './run-out.js'
import type { ThreadWork } from './thread-work.js'

const LONGEST_MM = 10_000

/** Reads the thread, and names what is wrong with it but for what cuttingOf and mateOf judge. */
export function readThread(asked: Asked, work: ThreadWork, problems: Problems): ThreadRead | null {
  if (!problems.object(work, 'thread')) return null
  const { starts = 1, hand = 'right', pitch } = asked.wanted ?? {}
  const { major: _, effective: __, ...rest } = work
  const { cut, crest, engagement, crests } = work
  const how = { ...rest, pitch, starts, hand }
  problems.choice(cut, 'thread.cut', ['screw', 'nut'])
  const nut = cut === 'nut'
  if (nut && crest === 'sharp') problems.say('thread.crest', 'crest-of-nut')
  problems.number(engagement, 'thread.engagement', 1e-6, LONGEST_MM)
  checkRunOut(asked, work, problems)
  if (crests !== undefined) problems.from(() => scratchPass({ wanted: '1', cut: '1', crests }))
  const sizes = problems.from(() => threadDimensions({ ...work, ...how }))
  problems.unsized = !sizes
  if (sizes && sizes.angle > 0 && !nut) problems.from(() => wireSizes(how))
  // Refused sizes are undefined, and so is what is reckoned from them: nobody judges that.
  const read = { how, nut, sizes: sizes ?? ({ internal: {} } as ThreadRead['sizes']), limits: null }
  return withLimits(read, work, problems)
}
