import { type Cut, forms, passes, tappingDrill, threadCut, threadDimensions } from '@trainwright/threads'
import type { Cutting, PassToTake } from './contract.js'
import { amount, both, length, named, range, rounded, span } from './figure.js'
import type { ThreadRead } from './limits.js'
import type { Problems } from './problems.js'
import { PRACTICE } from './sources.js'

const middle = ([least, greatest]: readonly [number, number]): number => rounded((least + greatest) / 2)

/** From what to what the groove is cut, mm: nominal sizes, or the middle of the limits where there are any. */
function grooveOf({ how, nut, sizes, limits }: ThreadRead): Omit<Cut, 'depth'> & { effective: number } {
  const effective = limits ? middle(limits.effective) : sizes.effective
  const cut = threadCut({ ...how, effective })
  if (!nut) {
    const turned = limits?.major ? middle(limits.major) : sizes.major
    return { ...cut, blank: how.crest === 'sharp' ? cut.blank : turned, effective }
  }
  const blank = limits?.minor ? middle(limits.minor) : sizes.internal.minor
  // A given nose reaches as far out from the effective line of a nut as in from that of a screw.
  const root = how.nose ? rounded(2 * effective - cut.root) : threadDimensions({ ...how, effective }).internal.major
  return { blank, root, effective, crestRadius: 0, cautions: [] }
}

/** The hole for the nut by a drill. */
export function drillOf({ how, sizes }: ThreadRead): NonNullable<Cutting['drill']> {
  const { form, pitch, mate } = how
  const found = tappingDrill({ ...mate, form, pitch, major: sizes.major })
  const [hole, engagement] = [length(found.hole, 2), amount(found.engagement * 100, ' %', 0)]
  return {
    label: 'Tapping drill',
    hole,
    engagement,
    text: `${both(hole)}, leaving ${engagement.text} of the depth of thread`,
  }
}

/** A drill instead of boring: the depth is then counted from another hole. */
function drillInstead(read: ThreadRead, root: number): NonNullable<Cutting['drill']> {
  const drill = drillOf(read)
  const depth = length((root - drill.hole.mm) / 2)
  return { ...drill, label: 'Or drill', depth, text: `${drill.text}; the groove is then ${both(depth)} deep` }
}

function limitsOf({ limits }: ThreadRead): Cutting['limits'] {
  if (!limits) return null
  const { name } = limits
  const [major, minor] = [limits.major && range(limits.major), limits.minor && range(limits.minor)]
  const effective = range(limits.effective)
  const parts = [major && `major ${span(major)}`, `effective ${span(effective)}`, minor && `minor ${span(minor)}`]
  return { label: 'Limits', name, major, effective, minor, text: `${name}: ${parts.filter(Boolean).join('; ')}` }
}

const passOf = (
  { kind, radial, travel, deeper }: ReturnType<typeof passes>['passes'][number],
  i: number,
): PassToTake => {
  const pass = { to: length(radial), travel: length(travel), deeper: length(deeper) }
  const slide = radial === travel ? '' : `, slide to ${both(pass.travel)}`
  const added = `${kind === 'spring' ? 'a spring pass, ' : ''}deeper by ${both(pass.deeper)}`
  return { label: `Pass ${i + 1}`, number: i + 1, kind, ...pass, text: `to ${both(pass.to)}${slide}, ${added}` }
}

const QUARTER_TURN = 90

/** What is turned or bored, and how the groove is cut; with it what threads says to mind. */
export function cuttingOf(
  read: ThreadRead,
  problems: Problems,
): { cutting: Cutting; cautions: Cut['cautions'] } | undefined {
  const { how, nut, sizes, limits } = read
  const groove = problems.from(() => grooveOf(read))
  // Without a groove the passes are still judged, by the depth of the form.
  const depth = groove ? rounded(Math.abs(groove.root - groove.blank) / 2) : sizes.depth
  const schedule = problems.from(() => passes({ ...how, nut, depth }))
  const drill = nut ? problems.from(() => drillInstead(read, groove?.root ?? 0), 'thread.mate') : null
  if (!groove || !schedule || drill === undefined) return undefined
  // The last pass stands at full depth.
  const feed = schedule.passes.at(-1)!
  const basic = nut ? sizes.internal : sizes
  const form = {
    name: typeof how.form === 'string' ? how.form : 'own',
    standard: typeof how.form === 'string' ? forms[how.form].standard : 'as given',
    angle: amount(sizes.angle, '°', 2),
  }
  const leadAngle = amount(sizes.leadAngle, '°', 2)
  const compound = how.compound ?? 0
  // The way the carriage goes as it cuts: then the flank that leads is cut, and the other only trails.
  const towards = compound > 0 ? (how.hand === 'left' ? 'tailstock' : 'headstock') : null
  const way = towards ? `; swung to feed into the work and towards the ${towards} (${PRACTICE})` : ''
  const [angle, fromAxis] = [amount(compound, '°', 2), amount(QUARTER_TURN - compound, '°', 2)]
  const fed = { radial: length(feed.radial), travel: length(feed.travel), sideways: length(feed.sideways) }
  const aim = limits ? 'middle of the limits' : 'nominal sizes'
  const cut = nut ? 'nut' : 'screw'
  return {
    cutting: {
      cut,
      form,
      leadAngle,
      aim,
      text: `${nut ? 'Nut' : 'Screw'}, form ${form.name} (${form.standard}), ${form.angle.text}, lead angle ${leadAngle.text}; worked to ${limits ? 'the ' : ''}${aim}`,
      major: named('Major diameter', length(basic.major)),
      effective: named('Effective diameter', length(basic.effective)),
      minor: named('Minor diameter', length(basic.minor)),
      limits: limitsOf(read),
      blank: named(nut ? 'Bore to' : 'Turn the blank to', length(groove.blank)),
      drill,
      depth: named('Depth, straight in', length(depth)),
      root: named('Root diameter then', length(groove.root)),
      effectiveAim: named('Effective diameter then', length(groove.effective)),
      crestRadius: groove.crestRadius > 0 ? named('Crest radius, if rounded', length(groove.crestRadius)) : null,
      compound: {
        angle,
        fromAxis,
        label: 'Feeding slide',
        towards,
        text: `${angle.text} from the cross-slide's line of travel, ${fromAxis.text} from the lathe's axis${way}`,
      },
      infeed: {
        ...fed,
        label: 'Along it',
        text: `${both(fed.travel)}: ${both(fed.radial)} straight in and ${both(fed.sideways)} sideways`,
      },
      passes: schedule.passes.map(passOf),
    },
    cautions: [...groove.cautions, ...schedule.cautions],
  }
}
