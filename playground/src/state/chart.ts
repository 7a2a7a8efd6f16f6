import { InputError, type Problem } from '@trainwright/measures'
import type { ChartOptions, ChartRow, GearProposals, ProposeOptions, ThreadWanted, Workshop } from '@trainwright/trains'
import type { CallOptions, TrainWorker } from '@trainwright/trains/worker'
import type { Asked } from './ask.js'
import { Asking } from './asking.js'
import { readMaking } from './making.js'
import type { Typed } from './typed.js'
import { readWishes, seriesLines } from './wishes.js'

/** Which gears for each of these threads, and what one gear more would add. */
export interface ChartQuestion {
  /** As in the chart that was typed. */
  of: string
  workshop: Workshop
  wanted: ThreadWanted[]
  options: ChartOptions
  /** Null while the limits cannot be read: the chart does without what could be made. */
  making: ProposeOptions | null
}

export interface ChartAnswer {
  rows: ChartRow[]
  /** For the threads that have no train; their numbers are those of `wanted`. */
  proposals: GearProposals['proposals']
}

/** Limits that the search refuses are told beside their fields; the chart is none the worse for it. */
function refused(error: unknown): GearProposals['proposals'] {
  if (error instanceof InputError) return []
  throw error
}

type Worker = Pick<TrainWorker, 'makeChart' | 'proposeGears'>

const FEW = 6

/** The search goes through the list twice: for trains, then for gears to make. */
function halves({ signal, onProgress }: CallOptions): [CallOptions, CallOptions] {
  const half = (from: number): CallOptions => ({
    signal,
    onProgress: (done, total) => onProgress?.(from * total + done, 2 * total),
  })
  return [half(0), half(1)]
}

async function send(
  worker: Worker,
  { workshop, wanted, options, making }: ChartQuestion,
  call: CallOptions,
): Promise<ChartAnswer> {
  const [first, second] = halves(call)
  const rows = await worker.makeChart(workshop, wanted, options, first)
  const lacking = rows.filter(({ train }) => !train).map((row) => row.wanted)
  if (lacking.length === 0 || !making) return { rows, proposals: [] }
  const asked = lacking.map((i) => wanted[i]!)
  const proposals = await worker
    .proposeGears(workshop, asked, { ...making, limit: FEW }, second)
    .then((answer) => answer.proposals, refused)
  const numbered = proposals.map(({ opens, ...rest }) => ({
    ...rest,
    opens: opens.map(({ wanted, train }) => ({ wanted: lacking[wanted]!, train })),
  }))
  return { rows, proposals: numbered }
}

export const chartAsking = (worker: Worker): Asking<ChartQuestion, ChartAnswer> =>
  new Asking((question, call) => send(worker, question, call))

/** The chart as it is asked for on the page. Lines that cannot be read are told beside the wish list. */
export function readChartQuestion(
  typed: Typed,
  { question, problems }: Asked,
): { question: ChartQuestion; problems: readonly Problem[] } {
  const { chart, wishes, workshop } = typed
  const making = readMaking(workshop.making)
  const list = chart.of === '' ? wishes.list : seriesLines(chart.of).join('\n')
  const wanted = readWishes({ ...wishes, list }, [])
  return {
    question: {
      of: chart.of,
      workshop: question.workshop,
      wanted,
      options: { sequence: chart.sequence, order: typed.order },
      making: making.problems.length > 0 ? null : making.options,
    },
    problems,
  }
}
