import type { Problem } from '@trainwright/measures'
import type { Gear, GearProposals, ProposeOptions, ThreadWanted, Train, Workshop } from '@trainwright/trains'
import type { CallOptions, TrainWorker } from '@trainwright/trains/worker'
import type { Asked } from './ask.js'
import { Asking } from './asking.js'
import { type Making, readMaking } from './making.js'
import type { Typed } from './typed.js'
import { readWishes, sameHelix } from './wishes.js'

/** Which gear should be made: for the thread in hand (the first of `wanted`), and for it and the wish list together. */
export interface GearQuestion {
  workshop: Workshop
  wanted: ThreadWanted[]
  options: ProposeOptions
}

export interface GearAnswer {
  /** For the thread in hand alone. */
  one: GearProposals
  /** For all that is wanted; null without a wish list. */
  all: GearProposals | null
}

export type Proposal = GearProposals['proposals'][number]

/** Proposals asked for a thread, and for the list. The longer list is also where it is looked up what else a gear opens. */
const FEW = 10
const MANY = 130

export const gearKey = (make: readonly Gear[]): string => JSON.stringify(make)

async function send(
  worker: Pick<TrainWorker, 'proposeGears'>,
  { workshop, wanted, options }: GearQuestion,
  call: CallOptions,
): Promise<GearAnswer> {
  const { onProgress, ...quiet } = call
  const alone = wanted.length === 1
  const one = await worker.proposeGears(workshop, wanted.slice(0, 1), { ...options, limit: FEW }, alone ? call : quiet)
  return { one, all: alone ? null : await worker.proposeGears(workshop, wanted, { ...options, limit: MANY }, call) }
}

export const gearAsking = (worker: Pick<TrainWorker, 'proposeGears'>): Asking<GearQuestion, GearAnswer> =>
  new Asking((question, call) => send(worker, question, call))

export interface ReadGearQuestion {
  question: GearQuestion
  making: Making
  /** All that is wrong with it: of the workshop and the thread too. */
  problems: Problem[]
  /** What is wrong with the limits and the list, and so is shown beside their fields. */
  own: Problem[]
}

/** The question as it stands on the page. */
export function readGearQuestion(typed: Typed, { question, problems }: Asked): ReadGearQuestion {
  const own: Problem[] = []
  const making = readMaking(typed.workshop.making)
  const wishes = readWishes(typed.wishes, own).filter((wish) => !sameHelix(wish, question.wanted))
  own.push(...making.problems)
  return {
    question: { workshop: question.workshop, wanted: [question.wanted, ...wishes], options: making.options },
    making,
    // A line of the wish list that cannot be read is left out; the rest is answered.
    problems: [...problems, ...making.problems],
    own,
  }
}

export interface Row {
  key: string
  make: Gear[]
  /** How it cuts the thread in hand; null when it does not. */
  train: Train | null
  /** Of the wish list, by their place in `wanted`. */
  opens: GearProposals['already']
  worstErrorPpm: number
}

/** The proposals as they are listed: those for the thread in hand, each with what else it opens; then those for the list. */
export function rowsOf({ one, all }: GearAnswer): { one: Row[]; all: Row[] } {
  const others = new Map(all?.proposals.map((proposal) => [gearKey(proposal.make), proposal]))
  const row = (proposal: Proposal, known?: Proposal): Row => ({
    key: gearKey(proposal.make),
    make: proposal.make,
    train: proposal.opens.find(({ wanted }) => wanted === 0)?.train ?? null,
    opens: (known ?? proposal).opens.filter(({ wanted }) => wanted > 0),
    worstErrorPpm: (known ?? proposal).worstErrorPpm,
  })
  return {
    one: one.proposals.map((proposal) => row(proposal, others.get(gearKey(proposal.make)))),
    all: all?.proposals.slice(0, FEW).map((proposal) => row(proposal)) ?? [],
  }
}
