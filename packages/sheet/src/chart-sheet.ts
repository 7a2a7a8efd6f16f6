import type { ChartRow, Lathe, ThreadWanted, Train } from '@trainwright/trains'
import type { ChartLine, ChartSheet, ChartSheetOptions } from './chart-contract.js'
import { bothWays, pitchFigure } from './figure.js'
import { errorFigures } from './figures.js'
import { gearName, settingName } from './mount.js'
import { trainInLine } from './places.js'

function threadText({ name, pitch, starts = 1, hand = 'right' }: ThreadWanted): string {
  const parts = [name, String(pitch), starts > 1 && `${starts} starts`, hand === 'left' && 'left hand']
  return parts.filter(Boolean).join(', ')
}

function settingOf(lathe: Lathe | undefined, { drive, gearbox }: Train): string | null {
  const named = lathe && [settingName(lathe.drives, drive), settingName(lathe.gearbox, gearbox)].filter(Boolean)
  return named?.length ? named.join(', ') : null
}

function lineOf(
  wanted: number,
  thread: ThreadWanted,
  train: Train | null,
  closest: Train | null,
  lathe?: Lathe,
): ChartLine {
  const shown = train ?? closest
  const line: ChartLine = {
    wanted,
    thread: threadText(thread),
    line: train && trainInLine(train),
    setting: train && settingOf(lathe, train),
    lead: shown && pitchFigure(shown.lead, shown.approximate),
    error: shown && { value: shown.errorPpm, text: errorFigures(shown).ppm },
    text: 'nothing can be mounted',
  }
  if (!shown) return line
  const what = `${bothWays(line.lead!)}, ${line.error!.text}`
  return {
    ...line,
    text: train
      ? [line.line, line.setting, what].filter(Boolean).join('; ')
      : `none within tolerance; closest is ${trainInLine(shown)}; ${what}`,
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
  const make = proposal?.make.map((gear) => gearName(gear, true))
  return {
    kind: 'chart',
    title: `Chart of ${rows.length} threads`,
    rows: rows.map((row) => lineOf(row.wanted, wanted[row.wanted]!, row.train, row.closest, lathe)),
    adds: proposal
      ? {
          make: make!,
          rows: proposal.opens.map(({ wanted: at, train }) => lineOf(at, wanted[at]!, train, null, lathe)),
        }
      : null,
  }
}
