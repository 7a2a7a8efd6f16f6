import { type Cut, forms, infeed, passes, tappingDrill, threadCut, threadDimensions } from '@trainwright/threads'
import type { Cutting } from './contract.js'
import { amount, both, length, range, rounded } from './figure.js'
import type { Asked } from './job.js'
import { type ThreadRead, threadOf } from './limits.js'
import { pick } from './pick.js'
import { inThread, type Problems } from './problems.js'

const middle = ([least, greatest]: readonly [number, number]): number => rounded((least + greatest) / 2)

/** From what to what the groove is cut, mm: nominal sizes, or the middle of the limits where there are any. */
interface Groove extends Pick<Cut, 'blank' | 'root' | 'crestRadius' | 'cautions'> {
  effective: number
}

function grooveOf(asked: Asked, { work, nut, sizes, limits }: ThreadRead): Groove {
  const effective = limits ? middle(limits.effective) : sizes.effective
  const at = threadOf(asked, { form: work.form, effective })
  const cut = threadCut({ ...at, ...pick(work, 'nose', 'crest') })
  if (nut) {
    const blank = limits?.minor ? middle(limits.minor) : sizes.internal.minor
    // A given nose reaches as far out from the effective line of a nut as in from that of a screw.
    const root = work.nose ? rounded(2 * effective - cut.root) : threadDimensions(at).internal.major
    return { blank, root, effective, crestRadius: 0, cautions: [] }
  }
  const turned = limits?.major ? middle(limits.major) : sizes.major
  return { ...cut, blank: work.crest === 'sharp' ? cut.blank : turned, effective }
}

/** The hole for the nut by a drill. */
export function drillOf({ wanted }: Asked, { work, sizes }: ThreadRead): NonNullable<Cutting['drill']> {
  const thread = { form: work.form, pitch: wanted.pitch, major: sizes.major }
  const { hole, engagement } = tappingDrill({ ...thread, ...pick(work.mate ?? {}, 'engagement') })
  return { hole: length(hole, 2), engagement: amount(engagement * 100, ' %', 0) }
}

const limitsFigures = ({ limits }: ThreadRead): Cutting['limits'] =>
  limits && {
    name: limits.name,
    major: limits.major && range(limits.major),
    effective: range(limits.effective),
    minor: limits.minor && range(limits.minor),
  }

function formFigures({ work, sizes }: ThreadRead): Cutting['form'] {
  const angle = amount(sizes.angle, '°', 2)
  if (typeof work.form !== 'string') return { name: 'own', standard: 'as given', angle }
  return { name: work.form, standard: forms[work.form].standard, angle }
}

const QUARTER_TURN = 90

/** What is turned or bored, and how the groove is cut; with it what threads says to mind. */
export function cuttingOf(
  asked: Asked,
  read: ThreadRead,
  problems: Problems,
): { cutting: Cutting; cautions: Cut['cautions'] } | undefined {
  const { work, nut, sizes, limits } = read
  const groove = problems.from(() => grooveOf(asked, read), inThread())
  if (!groove) return undefined
  const { form, compound = 0 } = work
  const depth = rounded(Math.abs(groove.root - groove.blank) / 2)
  const feed = problems.from(() => infeed({ form, depth, compound }), inThread())
  const how = pick(work, 'passes', 'firstCut', 'springPasses', 'nose')
  const schedule = problems.from(() => passes({ form, pitch: asked.wanted.pitch, depth, compound, ...how }), inThread())
  const drill = nut
    ? problems.from(() => drillOf(asked, read), inThread({ engagement: 'thread.mate.engagement' }))
    : null
  if (!feed || !schedule || drill === undefined) return undefined
  const { internal } = sizes
  const compoundAngle = amount(compound, '°', 2)
  const cutting: Cutting = {
    cut: nut ? 'nut' : 'screw',
    form: formFigures(read),
    leadAngle: amount(sizes.leadAngle, '°', 2),
    major: length(nut ? internal.major : sizes.major),
    effective: length(sizes.effective),
    minor: length(nut ? internal.minor : sizes.minor),
    limits: limitsFigures(read),
    aim: limits ? 'middle of the limits' : 'nominal',
    blank: length(groove.blank),
    drill,
    depth: length(depth),
    root: length(groove.root),
    effectiveAim: length(groove.effective),
    crestRadius: groove.crestRadius > 0 ? length(groove.crestRadius) : null,
    compound: { angle: compoundAngle, fromAxis: amount(QUARTER_TURN - compound, '°', 2) },
    infeed: { radial: length(feed.radial), travel: length(feed.travel), sideways: length(feed.sideways) },
    passes: schedule.passes.map(({ kind, radial, travel, deeper }, i) => ({
      number: i + 1,
      kind,
      to: length(radial),
      travel: length(travel),
      deeper: length(deeper),
    })),
    text: '',
  }
  return { cutting: { ...cutting, text: inWords(cutting) }, cautions: [...groove.cautions, ...schedule.cautions] }
}

function inWords({ cut, blank, drill, depth, compound, infeed }: Cutting): string {
  const start =
    cut === 'screw'
      ? `Turn the blank to ${both(blank)}`
      : `Bore to ${both(blank)}, or drill ${both(drill!.hole)}, which leaves ${drill!.engagement.text} of the depth of thread`
  const way =
    compound.angle.value === 0
      ? 'straight in by the cross-slide'
      : `or ${both(infeed.travel)} by the compound slide at ${compound.angle.text} from the cross-slide's line of travel (${compound.fromAxis.text} from the lathe's axis)`
  return `${start}. The groove is ${both(depth)} deep, ${way}.`
}
