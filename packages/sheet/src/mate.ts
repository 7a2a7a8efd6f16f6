import { type Chamfer, homeMadeTap } from '@trainwright/threads'
import type { Mate, TapToMake } from './contract.js'
import { drillOf } from './cutting.js'
import { amount, length, named, range, span } from './figure.js'
import type { ThreadRead } from './limits.js'
import type { Problems } from './problems.js'

interface Coded {
  code: string
  message: string
}

const FLUTES = 4

function chamferOf({ name, threads, length: along, angle }: Chamfer): TapToMake['chamfers'][number] {
  const angles = [amount(angle[0], '°'), amount(angle[1], '°')] as [
    ReturnType<typeof amount>,
    ReturnType<typeof amount>,
  ]
  const long = range(along, 2)
  const text = `${threads.join(' to ')} threads chamfered, ${span(long)}, at ${angles[0].text} to ${angles[1].text}`
  return { name, threads, length: long, angle: angles, label: `Chamfer, ${name} tap`, text }
}

function tapOf({ how: { form, pitch, mate }, sizes: { major } }: ThreadRead): { tap: TapToMake; cautions: Coded[] } {
  const asked = typeof mate?.tap === 'object' ? mate.tap : {}
  const { cautions, ...tap } = homeMadeTap({ ...mate, ...asked, form, pitch, major })
  const { flutes = FLUTES } = asked
  const effective = range(tap.effective)
  return {
    cautions,
    tap: {
      flutes,
      major: named('Tap, major diameter at least', length(tap.major)),
      effective: { label: 'Tap, effective diameter', range: effective, text: span(effective) },
      minor: named('Tap, minor diameter at most', length(tap.minor)),
      hole: named('Hole for the tap', length(tap.hole, 2)),
      point: named('Point of the tap', length(tap.point, 2)),
      core: named(`Core between ${flutes} flutes`, length(tap.core, 2)),
      chamfers: tap.chamfers.map(chamferOf),
    },
  }
}

function partOf(read: ThreadRead): NonNullable<Mate['part']> {
  const { nut, sizes } = read
  const [is, of] = nut ? (['screw', sizes] as const) : (['nut', sizes.internal] as const)
  return {
    is,
    major: named(`The ${is}, major diameter`, length(of.major)),
    effective: named(`The ${is}, effective diameter`, length(of.effective)),
    minor: named(`The ${is}, minor diameter`, length(of.minor)),
    drill: nut ? null : drillOf(read),
  }
}

/** The other part, and a tap for it, as far as they are asked for; with it what threads says to mind. */
export function mateOf(read: ThreadRead, problems: Problems): { mate: Mate | null; cautions: Coded[] } {
  const { part, tap } = read.how.mate ?? {}
  const other = part ? problems.from(() => partOf(read), 'thread.mate') : null
  const made = tap ? problems.from(() => tapOf(read), 'thread.mate') : null
  return {
    mate: part || tap ? { part: other ?? null, tap: made?.tap ?? null } : null,
    cautions: made?.cautions ?? [],
  }
}
