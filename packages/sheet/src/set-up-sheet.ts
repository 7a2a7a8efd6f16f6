import type { ThreadWanted, Train, Workshop } from '@trainwright/trains'
import { cautionsOf } from './cautions.js'
import { checksOf } from './checks.js'
import type { SetUpSheet, SheetOptions } from './contract.js'
import { cuttingOf } from './cutting.js'
import { jobOf, readAsked } from './job.js'
import { mateOf } from './mate.js'
import { gearsOf } from './mount.js'
import { Problems } from './problems.js'
import { realLeadOf } from './real-lead.js'
import { runOutOf } from './run-out.js'
import { startsOf } from './starts.js'
import { readThread } from './thread-read.js'
import type { ThreadWork } from './thread-work.js'

function checkOptions({ mounted, diameters }: SheetOptions, problems: Problems): void {
  const listed =
    mounted === undefined || (Array.isArray(mounted) && mounted.every((ref) => Number.isInteger(ref?.teeth)))
  if (!listed) problems.say('options.mounted', 'mounted')
  for (const shaft of ['input', 'stud', 'output'] as const)
    problems.number(diameters?.[shaft], `options.diameters.${shaft}`, 0.1, 1000)
}

/**
 * All of a job as one plain object, in the order in which it is done: what is wanted, gears by place, the lead that the
 * train really cuts, blank and passes, checks, run-out, starts, the mating part, cautions. `train` is one that was found
 * for this thread on this lathe; without `thread` (null) the sheet holds the train and what follows from the lead alone.
 *
 * Figures are mm, degrees and rev/min, with their print in mm and inches beside them; nothing is left to be worked out.
 * @throws InputError naming every problem of workshop, wanted thread, train (stale ones too), thread and options, each with
 * its path ('thread.nose.flat', 'wanted.pitch', 'options.diameters.stud'); what only follows from another is left out.
 */
export function setUpSheet(
  workshop: Workshop,
  wanted: ThreadWanted,
  train: Train,
  thread: ThreadWork | null = null,
  options: SheetOptions = {},
): SetUpSheet {
  const problems = new Problems()
  const asked = readAsked(workshop, wanted, train, problems)
  const read = thread && readThread(asked, thread, problems)
  const cut = read && cuttingOf(read, problems)
  const mate = read && mateOf(read, problems)
  checkOptions(options, problems)
  problems.done()
  // Each value is sound by now; that they go together shows when they are used.
  const sheet = problems.from((): SetUpSheet => {
    const [job, gears] = [jobOf(asked), gearsOf(asked, options)]
    return {
      kind: 'set-up',
      title: `Set-up sheet: ${job.name ? `${job.name}, ` : ''}${job.wanted}`,
      job,
      gears,
      lead: realLeadOf(asked, read),
      cutting: cut?.cutting ?? null,
      checks: checksOf(asked, gears, read && { read, aim: cut!.cutting.effectiveAim.mm }),
      runOut: runOutOf(asked, thread),
      starts: startsOf(asked),
      mate: mate?.mate ?? null,
      cautions: cautionsOf(workshop.lathe, train, cut?.cautions ?? [], mate?.cautions ?? []),
    }
  })
  problems.done()
  return sheet!
}
