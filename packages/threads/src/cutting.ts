import type { PitchText } from '@trainwright/measures'
import { Checks } from './checks.js'
import { checkCore, readThread } from './dimensions.js'
import { type Form, type Profile, profileOf } from './forms.js'
import { type Caution, caution } from './messages.js'
import { cot, degrees, radians, rounded } from './rounding.js'

/** The tool's nose, mm: a flat (0 for a point) or a radius, from 0 to what the groove of the thread holds. */
export type Nose = { flat: number } | { radius: number }

/** What to turn, and how deep to go; lengths in mm. */
export interface Cut {
  /** Turn the blank to this diameter, mm. */
  blank: number
  /** From the blank to the root, straight in, mm. */
  depth: number
  /** Diameter at the root that this nose leaves, mm. */
  root: number
  /** Of the form's round crest, mm, given by chaser or file; 0 where the form's crest is flat or sharp. */
  crestRadius: number
  cautions: Caution[]
}

/** From the effective line to where this nose cuts, default the form's root, when the groove there is half a pitch wide, and its flat. */
function noseOf(nose: unknown, profile: Profile, p: number, ask: Checks, nut = false): { below: number; flat: number } {
  const { half, sharpHeight } = profile
  const below = nut ? profile.nutAddendum : profile.dedendum
  if (nose === undefined) return { below, flat: Math.max(0, p / 2 - 2 * below * Math.tan(half)) }
  if (half === 0) ask.say('nose', 'no-flanks')
  const given = ask.one('nose', 'nose.flat', 'nose.radius')
  if (given === 'nose.flat') {
    const flat = ask.number('nose.flat', 0, 0.499 * p)
    return { below: ((p / 2 - flat) / 2) * cot(half), flat }
  }
  const cosec = 1 / Math.sin(half)
  // The rounding may reach up the flank to the effective line, no further.
  const radius = given ? ask.number(given, 0, sharpHeight / 2 / (cosec - Math.sin(half))) : 0
  return { below: sharpHeight / 2 - radius * (cosec - 1), flat: 0 }
}

/**
 * Blank diameter and depth of cut for a thread, by the crest wanted and the nose of the tool: the groove goes as deep as
 * brings the effective diameter right, by geometry. `crest` 'form' starts from the nominal major diameter, 'sharp' from the crests of the
 * sharp triangle.
 * @throws InputError as threadDimensions, and for a nose too broad for the groove.
 */
export function threadCut(q: {
  form: Form
  /** As text, 0.001 to 1000 mm. */
  pitch: PitchText
  /** Diameter, mm, above 0, up to 10000: exactly one of the two. */
  major?: number
  /** As measured, mm, up to 10000. */
  effective?: number
  /** 'form': flat as the blank leaves it, or rounded afterwards. Default 'form'. */
  crest?: 'form' | 'sharp'
  /** Default: the form's own root. */
  nose?: Nose
}): Cut {
  const { ask, pitch, profile, path, effective } = readThread(q)
  const crest = ask.choice('crest', profile.half === 0 ? ['form'] : ['form', 'sharp'])
  const { below } = noseOf(q.nose, profile, pitch, ask)
  checkCore(effective, { ...profile, dedendum: below }, ask, path)
  ask.done()
  const above = crest === 'sharp' ? profile.sharpHeight / 2 : profile.addendum
  return rounded({
    blank: effective + 2 * above,
    depth: above + below,
    root: effective - 2 * below,
    crestRadius: profile.radius,
    cautions: below < profile.nutDedendum - 1e-9 ? [caution('nut-crest')] : [],
  })
}

/** Slide settings for one depth. */
export interface Infeed {
  /** Straight in, mm. */
  radial: number
  /** Travel of the slide that feeds: the compound at its angle, or the cross-slide, mm. */
  travel: number
  /** How far the tool moves along the work meanwhile, mm. */
  sideways: number
}

export interface Pass extends Infeed {
  kind: 'cut' | 'spring'
  /** What this pass goes deeper, straight in, mm; 0 for a spring pass. */
  deeper: number
  /** Cross-section of the chip, mm^2. */
  area: number
}

const MOST_PASSES = 200

/**
 * A schedule of passes that take even chip area: cumulative settings, then spring passes at full depth. Give the number
 * of passes, or the first cut in mm straight in. By default 4 + 4 p passes, p in mm: 12 at 2 mm, 14 at 2.5 and 16 at 3 as
 * in Sumitomo's general catalogue 2019-20, p. 404; a few more than there at finer pitches.
 * @throws InputError for over 200 passes (naming the least first cut), a nose too broad, a compound angle too large, or both
 * passes and a first cut.
 */
export function passes(q: {
  form: Form
  /** As text, 0.001 to 1000 mm. */
  pitch: PitchText
  /** Full depth straight in, mm, above 0; threadCut gives it. */
  depth: number
  /** Passes to full depth, 1 to 200. */
  passes?: number
  /** Straight in, mm, up to `depth`; instead of `passes`. */
  firstCut?: number
  /** Passes more at full depth, 0 to 20; default 2 (common practice, no source). */
  springPasses?: number
  /** Degrees from the cross-slide's line of travel, up to half the thread angle; default 0, straight in. */
  compound?: number
  /** Default: the form's own root. */
  nose?: Nose
  /** The thread in a nut is cut: without a nose its groove ends in the form's root of the nut. Default false. */
  nut?: boolean
}): { passes: Pass[]; cautions: Caution[] } {
  const ask = new Checks(q)
  const p = ask.mm('pitch')
  const profile = profileOf(q.form, p, ask)
  const depth = ask.number('depth')
  const { flat } = noseOf(q.nose, profile, p, ask, ask.choice('nut', [false, true]))
  // Past half the thread angle the compound would cut a wrong flank.
  const angle = Math.min(profile.half, radians(ask.number('compound', 0, degrees(profile.half) + 1e-9, 0)))
  const springs = ask.whole('springPasses', 0, 20, 2)
  const slope = Math.tan(profile.half)
  const area = (x: number): number => (flat + slope * x) * x
  const depthOf = (area: number): number => (2 * area) / (flat + Math.sqrt(flat * flat + 4 * slope * area))
  const whole = area(depth)
  const count =
    ask.one(null, 'passes', 'firstCut') === 'firstCut'
      ? Math.ceil(whole / area(ask.number('firstCut', depthOf(whole / MOST_PASSES), depth)) - 1e-9)
      : ask.whole('passes', 1, MOST_PASSES, Math.ceil(4 + 4 * p))
  ask.done()
  const all: Pass[] = []
  for (let i = 1, before = 0; i <= count + springs; i++) {
    const radial = i < count ? depthOf((whole * i) / count) : depth
    all.push({
      kind: i > count ? 'spring' : 'cut',
      radial,
      travel: radial / Math.cos(angle),
      sideways: radial * Math.tan(angle),
      deeper: radial - before,
      area: area(radial) - area(before),
    })
    before = radial
  }
  return rounded({ passes: all, cautions: angle > 0 && angle === profile.half ? [caution('flanks')] : [] })
}

/**
 * What to feed for a depth of `depth` mm, above 0: straight in by the cross-slide, or along the flank by the compound slide set at `compound`
 * degrees from the cross-slide's line of travel (default 0: parallel to it). Geometry.
 * @throws InputError for a compound set past half the thread angle, where it would cut a wrong flank.
 */
export function infeed(q: { form: Form; depth: number; compound?: number }): Infeed {
  const [{ radial, travel, sideways }] = passes({ ...q, pitch: '1', passes: 1 }).passes
  return { radial, travel, sideways }
}
