import { divide, multiply, parseRatio, rational, toFractionText } from '@trainwright/measures'
import { indexStarts } from '@trainwright/threads'
import type { Starts } from './contract.js'
import { both, length } from './figure.js'
import type { Asked } from './job.js'

/** Teeth that pass in a turn of the spindle on the first gear of the train, when that is a whole number. */
function teethPerTurn({ workshop, train }: Asked): { teeth: number } | null {
  const ratio = parseRatio(workshop.lathe.drives?.[train.drive]?.ratio ?? 1)
  const teeth = multiply(ratio, rational(train.stages[0]!.driver.teeth))
  const count = Number(teeth.n)
  return teeth.d === '1' && count >= 6 && count <= 2000 ? { teeth: count } : null
}

/** How to come from the first start to the others; null for one start. */
export function startsOf(asked: Asked): Starts | null {
  const { train, starts, workshop } = asked
  if (starts === 1) return null
  const { leadscrew, halfNuts } = workshop.lathe
  const gear = teethPerTurn(asked)
  const found = indexStarts({
    // The pitch that is really cut: a carriage moved by the wanted one would come down beside its start.
    pitch: divide(train.lead, rational(starts)),
    starts,
    ...(halfNuts !== false && { leadscrew: leadscrew.pitch }),
    ...(gear && { gear }),
  })
  return {
    count: starts,
    each: found.map(({ start, turn, slide, teeth, carriage }) => {
      const forward = length(slide.mm)
      const moved = carriage && { move: length(carriage.mm), threads: carriage.threads }
      const ways = [
        `the compound slide, parallel to the axis, forward by ${both(forward)}`,
        teeth && `the first gear of the train unmeshed and turned on by ${teeth} teeth`,
        moved &&
          `with the spindle still, half nuts opened and the carriage moved on by ${both(moved.move)}, ${moved.threads === 1 ? '1 thread' : `${moved.threads} threads`} of the leadscrew`,
      ]
      return {
        start,
        turn: toFractionText(turn),
        slide: forward,
        teeth,
        carriage: moved,
        label: `Start ${start}`,
        text: `${toFractionText(turn)} of a turn from the first: ${ways.filter(Boolean).join('; or ')}.`,
      }
    }),
  }
}
