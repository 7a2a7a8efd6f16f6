import { compare, exactly, multiply, parseLength, type Rational, rational, toNumber } from '@trainwright/measures'
import { leadErrorEffect, leadErrorVerdict, leadTolerance } from '@trainwright/threads'
import type { Fit, RealLead } from './contract.js'
import { amount, both, bothWays, length, pitchFigure, trace } from './figure.js'
import { errorFigures } from './figures.js'
import { type Asked, jobOf } from './job.js'
import type { ThreadRead } from './limits.js'
import { inThread, type Problems } from './problems.js'

const RUN_MM = 25

const size = (r: Rational): Rational => ({ ...r, n: r.n.replace('-', '') })
const along = (error: Rational, mm: Rational): number => toNumber(multiply(error, mm))

function verdictOf(asked: Asked): Pick<RealLead, 'code' | 'verdict'> {
  const { train, tolerance } = asked
  const allowed = jobOf(asked).tolerance.text
  const { ppm, over } = errorFigures(train)
  if (train.error.n === '0') return { code: 'exact', verdict: `The lead is ${ppm}.` }
  return compare(size(train.error), tolerance) <= 0
    ? { code: 'within', verdict: `The lead is out by ${ppm}, ${over}: within the tolerance of ${allowed}.` }
    : { code: 'outside', verdict: `The lead is out by ${ppm}, ${over}: outside the tolerance of ${allowed}.` }
}

/** What the error does to the fit over the engagement; null when that is not known. */
function fitOf({ train }: Asked, { work, sizes, limits }: ThreadRead, problems: Problems): Fit | null {
  const { form, engagement } = work
  problems.number(engagement, 'thread.engagement', 0, 10_000)
  if (engagement === undefined || !(engagement > 0 && engagement <= 10_000)) return null
  const base = {
    engagement: length(engagement, 2),
    axial: trace(along(train.error, exactly(engagement)), true),
    tolerance: null,
    share: null,
    stands: null,
    code: 'unjudged' as const,
  }
  if (sizes.angle === 0) {
    const verdict = 'The flanks stand upright: a lead error takes up backlash, and leaves the effective diameter alone.'
    return { ...base, onEffective: null, verdict }
  }
  const error = { form, errorPpm: train.errorPpm, engagement }
  if (!limits) {
    const onEffective = trace(leadErrorEffect(error).onEffective)
    const verdict = `It acts like ${both(onEffective)} on the effective diameter; give a class or an allowance to have that judged.`
    return { ...base, onEffective, verdict }
  }
  const [least, greatest] = limits.effective
  const tolerance = greatest - least
  const found = problems.from(
    () => leadErrorVerdict({ ...error, tolerance }),
    inThread({ tolerance: 'thread.allowance' }),
  )
  const stood = problems.from(() => leadTolerance({ form, allowance: tolerance, engagement }), inThread())
  if (!found || !stood) return null
  return {
    ...base,
    onEffective: trace(found.onEffective),
    tolerance: length(tolerance),
    share: amount(found.share * 100, ' %'),
    stands: { error: lengthOf(stood.error), over: length(engagement, 2) },
    code: found.code,
    verdict: train.error.n === '0' ? 'The lead is right: it takes nothing of the tolerance.' : found.message,
  }
}

const lengthOf = (text: string) => trace(toNumber(parseLength(text).mm))

/** The lead that the train really cuts; with the thread known, what its error does to the fit. */
export function realLeadOf(asked: Asked, read: ThreadRead | null, problems: Problems): RealLead {
  const { train } = asked
  const lead = pitchFigure(train.lead, train.approximate)
  const over =
    train.error.n === '0' ? null : { run: length(RUN_MM, 0), error: trace(along(train.error, rational(RUN_MM)), true) }
  const { code, verdict } = verdictOf(asked)
  return {
    lead,
    hand: train.hand,
    error: { exact: train.error, ppm: { value: train.errorPpm, text: errorFigures(train).ppm }, over },
    code,
    verdict: `Cuts a ${train.hand}-hand thread, lead ${bothWays(lead)}. ${verdict}`,
    fit: read && fitOf(asked, read, problems),
  }
}
