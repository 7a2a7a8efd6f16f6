import { type Head, type IndexMove, indexing } from '@trainwright/gearcutting'
import { type Amount, amount } from './figure.js'
import type { GearIndexing } from './gear-contract.js'
import { answered, capital } from './gear-problems.js'
import type { Problems } from './problems.js'

const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`

function moveText({ turns, holes, circle }: IndexMove): string {
  const whole = turns && count(Math.abs(turns), 'turn')
  const part = holes && `${count(Math.abs(holes), 'space')} of the ${circle} circle`
  return (turns + holes < 0 ? 'back ' : '') + [whole, part].filter(Boolean).join(' and ')
}

/** '4 + 16/21': turns and spaces of a circle. */
const placeText = ({ turns, holes, circle }: IndexMove): string =>
  turns + holes < 0 ? `−${-turns} − ${-holes}/${circle}` : `${turns} + ${holes}/${circle}`

/** How to divide a turn on this head; undefined when the head cannot be read. */
export function indexingOf(divisions: number, head: Head, problems: Problems): GearIndexing | undefined {
  const plan = answered(problems, () => indexing({ divisions, head }))
  if (plan === undefined) return undefined
  const none = { plate: null, moves: [], others: [], worst: null, table: [], reminders: [] }
  if (typeof plan === 'string') return { kind: 'impossible', text: plan, ...none }
  const { kind } = plan
  const plate = plan.plate + 1
  const moves = plan.moves.map((move) => ({ ...move, text: moveText(move) }))
  const others = plan.others.map(moveText)
  const worst = plan.worst === '0' ? null : amount(plan.worstDegrees, '° of the work', 4)
  const steps = moves.map(({ text }) => text).join(', then the plate ')
  const same = others.length > 0 ? `; the same: ${others.join('; ')}` : ''
  const uneven = `no equal step, each place by the table of the ${plan.moves[0]!.circle} circle`
  const degrees = (turns: string): Amount | null => {
    const [n, d = 1] = turns.split('/').map(Number)
    return n ? amount(((n / d) * 360) / head.worm, '° of the work', 4) : null
  }
  return {
    kind,
    plate,
    text: `${capital(kind)}, plate ${plate}: ${kind === 'approximate' ? uneven : steps}${same}${worst ? `; at worst ${worst.text} out` : ''}.`,
    moves,
    others,
    worst,
    reminders: plan.reminders.map(({ code, message }) => ({ code, message })),
    table: plan.table.map(({ division, at, error }) => {
      const places = at.map(placeText)
      const out = degrees(error)
      const text = places.join(', plate ') + (out ? `, out by ${out.text}` : '')
      return { division, at: places, error, out, label: String(division), text }
    }),
  }
}
