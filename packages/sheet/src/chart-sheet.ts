import type { ChartRow, Lathe, ThreadWanted, Train } from '@trainwright/trains'
import type { ChartLine, ChartSheet, ChartSheetOptions } from './chart-contract.js'
import { bothWays, pitchFigure } from './figure.js'
import { errorFigures } from './figures.js'
import { gearName } from './mount.js'
import { settingName, trainInLine } from './places.js'

const joined = (parts: readonly (string | false | null | undefined)[], by: string): string =>
  parts.filter(Boolean).join(by)

function lineOf(
  wanted: number,
  asked: ThreadWanted,
  train: Train | null,
  closest: Train | null,
  lathe?: Lathe,
): ChartLine {
  const { name, pitch, starts = 1, hand } = asked
  const thread = joined([name, pitch, starts > 1 && `${starts} starts`, hand === 'left' && 'left hand'], ', ')
  const shown = train ?? closest
  const setting =
    train && joined([settingName(lathe?.drives, train.drive), settingName(lathe?.gearbox, train.gearbox)], ', ')
  const lead = shown && pitchFigure(shown.lead, shown.approximate)
  const error = shown && { value: shown.errorPpm, text: errorFigures(shown).ppm }
  const what = shown && joined([trainInLine(shown), setting, `${bothWays(lead!)}, ${error!.text}`], '; ')
  return {
    wanted,
    thread,
    line: train && trainInLine(train),
    setting: setting || null,
    lead,
    error,
    label: thread,
    text: train ? what! : `none within tolerance; ${what ? `closest is ${what}` : 'nothing can be mounted'}`,
  }
}

/**
 * A chart to hang by the headstock, from the rows of makeChart for the same threads; with a proposal of proposeGears also
 * what its gear would add. Plain data; the rows in their order.
 */
export function chartSheet(
  rows: readonly ChartRow[],
  wanted: readonly ThreadWanted[],
  { lathe, proposal }: ChartSheetOptions = {},
): ChartSheet {
  const make = proposal?.make.map(gearName)
  return {
    kind: 'chart',
    title: `Chart of ${rows.length} threads`,
    rows: rows.map((row) => lineOf(row.wanted, wanted[row.wanted]!, row.train, row.closest, lathe)),
    adds: proposal
      ? {
          make: make!,
          text: `Made: ${make!.map(({ text }) => text).join(' and ')}`,
          rows: proposal.opens.map((one) => lineOf(one.wanted, wanted[one.wanted]!, one.train, null, lathe)),
        }
      : null,
  }
}
