import { compare, exactly, multiply, parseLength, type Rational, toNumber } from '@trainwright/measures'
import { leadErrorEffect, leadErrorVerdict, leadTolerance } from '@trainwright/threads'
import type { Fit, RealLead } from './contract.js'
import { amount, both, bothWays, length, named, pitchFigure, trace } from './figure.js'
import { errorFigures } from './figures.js'
import { type Asked, jobOf } from './job.js'
import type { ThreadRead } from './limits.js'

const RUN_MM = 25

const along = (error: Rational, mm: number) => trace(toNumber(multiply(error, exactly(mm))), true)

/** What the error does to the fit over the engagement; null when that is not known. */
function fitOf({ train }: Asked, { how, sizes, limits }: ThreadRead): Fit | null {
  const { form, engagement } = how
  if (engagement === undefined) return null
  const over = length(engagement, 2)
  const fit: Fit = {
    code: 'unjudged',
    verdict: 'The flanks stand upright: a lead error takes up backlash only.',
    engagement: named('Engagement', over),
    axial: named('Lead error over it', along(train.error, engagement)),
    onEffective: null,
    tolerance: null,
    share: null,
    stands: null,
  }
  if (sizes.angle === 0) return fit
  const error = { form, errorPpm: train.errorPpm, engagement }
  fit.onEffective = named('On the effective diameter', trace(leadErrorEffect(error).onEffective))
  fit.verdict = 'Give a class or an allowance to judge it.'
  if (!limits) return fit
  const [least, greatest] = limits.effective
  const tolerance = greatest - least
  const { share, code, message } = leadErrorVerdict({ ...error, tolerance })
  const all = leadTolerance({ form, allowance: tolerance, engagement })
  const most = trace(toNumber(parseLength(all.error).mm))
  return {
    ...fit,
    code,
    verdict: train.error.n === '0' ? 'The lead is right: it takes nothing of the tolerance.' : message,
    tolerance: named('Tolerance of the effective diameter', length(tolerance)),
    share: named('Share of it taken', amount(share * 100, ' %')),
    stands: { label: 'All of it would be taken by', error: most, over, text: `${both(most)} over ${both(over)}` },
  }
}

const size = (r: Rational): Rational => ({ ...r, n: r.n.replace('-', '') })

/** The lead that the train really cuts; with the thread known, what its error does to the fit. */
export function realLeadOf(asked: Asked, read: ThreadRead | null): RealLead {
  const { train, tolerance } = asked
  const lead = pitchFigure(train.lead, train.approximate)
  const exact = train.error.n === '0'
  const code = exact ? 'exact' : compare(size(train.error), tolerance) <= 0 ? 'within' : 'outside'
  const { ppm, over, inch } = errorFigures(train)
  const [run, error] = [length(RUN_MM, 1), along(train.error, RUN_MM)]
  const out = exact ? ppm : `${ppm}, ${over} (${inch}): ${code} the tolerance of ${jobOf(asked).tolerance.text}`
  return {
    code,
    verdict: `Cuts a ${train.hand}-hand thread, lead ${bothWays(lead)}; ${out}.`,
    lead,
    hand: train.hand,
    error: {
      exact: train.error,
      ppm: { value: train.errorPpm, text: ppm },
      over: exact ? null : { label: 'Lead error', run, error, text: `${both(error)} over ${both(run)}` },
    },
    fit: read && fitOf(asked, read),
  }
}
