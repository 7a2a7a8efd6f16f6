import { homeMadeTap } from '@trainwright/threads'
import type { Mate, TapToMake } from './contract.js'
import { drillOf } from './cutting.js'
import { amount, length, range } from './figure.js'
import type { Asked } from './job.js'
import type { ThreadRead } from './limits.js'
import { pick } from './pick.js'
import { inThread, type Problems } from './problems.js'

const FLUTES = 4

function tapOf(
  { wanted }: Asked,
  { work, sizes }: ThreadRead,
): { tap: TapToMake; cautions: { code: string; message: string }[] } {
  const asked = typeof work.mate?.tap === 'object' ? work.mate.tap : {}
  const { cautions, ...tap } = homeMadeTap({
    form: work.form,
    pitch: wanted.pitch,
    major: sizes.major,
    ...pick(asked, 'flutes', 'tolerance'),
    ...pick(work.mate ?? {}, 'engagement'),
  })
  return {
    cautions,
    tap: {
      major: length(tap.major),
      effective: range(tap.effective),
      minor: length(tap.minor),
      hole: length(tap.hole, 2),
      point: length(tap.point, 2),
      core: length(tap.core, 2),
      flutes: asked.flutes ?? FLUTES,
      chamfers: tap.chamfers.map(({ name, threads, length: along, angle }) => ({
        name,
        threads,
        length: range(along, 2),
        angle: [amount(angle[0], '°'), amount(angle[1], '°')],
      })),
    },
  }
}

function partOf(asked: Asked, read: ThreadRead): Mate['part'] {
  const { nut, sizes } = read
  const of = nut ? sizes : sizes.internal
  return {
    is: nut ? 'screw' : 'nut',
    major: length(of.major),
    effective: length(of.effective),
    minor: length(of.minor),
    drill: nut ? null : drillOf(asked, read),
  }
}

/** The other part, and a tap for it, as far as they are asked for; with it what threads says to mind. */
export function mateOf(
  asked: Asked,
  read: ThreadRead,
  problems: Problems,
): { mate: Mate | null; cautions: { code: string; message: string }[] } {
  const { part, tap } = read.work.mate ?? {}
  if (!part && !tap) return { mate: null, cautions: [] }
  const at = inThread({
    engagement: 'thread.mate.engagement',
    flutes: 'thread.mate.tap.flutes',
    tolerance: 'thread.mate.tap.tolerance',
  })
  const other = part ? problems.from(() => partOf(asked, read), at) : null
  const made = tap ? problems.from(() => tapOf(asked, read), at) : null
  return { mate: { part: other ?? null, tap: made?.tap ?? null }, cautions: made?.cautions ?? [] }
}
