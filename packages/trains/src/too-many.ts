import type { Problem } from '@trainwright/measures'
import type { ThreadWanted } from './contract.js'
import { obstacle } from './messages.js'
import { type Bench, stagesOf } from './search/bench.js'
import { type Refusal, refuseTooMany } from './search/engine.js'
import { makeQuestion } from './search/question.js'
import { WorkshopError } from './workshop-error.js'

/** @throws WorkshopError naming every thread (`wanted[3]`) that is refused. */
export function refuseThreads(threads: readonly number[], refusal: (thread: number) => Refusal | null): void {
  const problems: Problem[] = []
  for (const i of threads) {
    const refused = refusal(i)
    if (!refused) continue
    const { code, message } = obstacle.tooMany(refused)
    problems.push({ path: `wanted[${i}]`, code, message })
  }
  if (problems.length > 0) throw new WorkshopError(problems)
}

/** @throws WorkshopError naming every thread for which the box holds too many pairs within the tolerance. */
export function refuseTooManyOf({ lathe, tables }: Bench, wanted: readonly ThreadWanted[], stages?: number): void {
  const most = stagesOf(lathe, stages)
  refuseThreads([...wanted.keys()], (i) => refuseTooMany(tables, makeQuestion(lathe, wanted[i]), most))
}
