import type { GearProposals, Lathe } from '@trainwright/trains'
import type { GearName } from './contract.js'
import type { Amount, Labelled, PitchFigure } from './figure.js'

/** A chart to hang by the headstock. */
export interface ChartSheet {
  kind: 'chart'
  title: string
  rows: ChartLine[]
  /** What a gear (or two) yet to be made would add. */
  adds: (Labelled & { make: GearName[]; rows: ChartLine[] }) | null
}

export interface ChartLine extends Labelled {
  /** Index into the threads wanted. */
  wanted: number
  /** Name and pitch as typed, starts and hand where they are not the usual. */
  thread: string
  /** Null when nothing within tolerance can be mounted; `text` then tells of the closest. */
  line: string | null
  /** Drive and gearbox by their names; null where there is nothing to choose. */
  setting: string | null
  lead: PitchFigure | null
  error: Amount | null
}

/** What else a chart is to tell. */
export interface ChartSheetOptions {
  /** To name drive and gearbox. */
  lathe?: Lathe
  /** A proposal that proposeGears gives for the same threads, of any error in ppm; `wanted` is an index from 0. */
  proposal?: GearProposals['proposals'][number]
}
