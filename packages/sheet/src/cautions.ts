import type { Lathe, Train } from '@trainwright/trains'
import type { SheetCaution } from './contract.js'
import { ARMY, JONES, NAVY, PRACTICE } from './sources.js'

type When = SheetCaution['when']
interface Coded {
  code: string
  message: string
}

const caution = (code: string, when: When, source: string, message: string): SheetCaution => ({
  code,
  when,
  message,
  source,
})

/** Also the first checks of a sheet, in this order round the setting of the gears. */
export const beforePower = {
  isolate: caution(
    'isolate',
    'gears',
    ARMY,
    'Isolate the machine before the cover comes off and gears are touched: off, and unplugged or locked off.',
  ),
  byHand: caution(
    'by-hand',
    'gears',
    PRACTICE,
    'Turn the whole train once by hand before power: free all the way round, the carriage going the right way.',
  ),
  cover: caution(
    'cover',
    'power',
    `${ARMY}; chuck key: W. B. Safety code list, metal lathes`,
    'Cover on and fastened, chuck key out, before power and while anything turns.',
  ),
}

const rest: readonly SheetCaution[] = [
  caution(
    'manual',
    'always',
    `${NAVY}; ${PRACTICE}`,
    "The lathe's own manual, the rules posted at it, local codes and licensed practice come before this sheet.",
  ),
  caution(
    'clothing',
    'always',
    `${NAVY}; gloves and hair: ${PRACTICE}`,
    'No gloves, no loose sleeves, no watch, rings or jewellery; hair tied back; goggles or a face shield at the running lathe.',
  ),
  ...Object.values(beforePower),
  caution(
    'withdraw',
    'cutting',
    `${JONES} (backlash); ${PRACTICE}`,
    'Withdraw the tool before anything is reversed, and take up the backlash going forward before it cuts again.',
  ),
  caution(
    'stop-to-measure',
    'cutting',
    `${NAVY}; ${ARMY}`,
    'Stop the lathe to measure, to set the tool and to clear chips; chips by brush or stick, never by hand.',
  ),
]

/** The train's own cautions come before power goes on; all rest on common practice, turning by the leadscrew on Jones too. */
const ofTrain = ({ code, message }: Train['cautions'][number]): SheetCaution =>
  caution(
    code,
    code === 'clearance-assumed' ? 'gears' : 'power',
    code === 'fast-leadscrew' || code === 'steep-step-up' ? `${JONES}; the limit of 3 : 1: ${PRACTICE}` : PRACTICE,
    message,
  )

function ofNose({ screwedNose }: Lathe): SheetCaution[] {
  if (screwedNose === false) return []
  const what = `${screwedNose ? 'The chuck screws on' : 'If the chuck screws on'}: never reverse it under power, or it comes off; turn back by hand.`
  return [caution('screwed-chuck', 'cutting', PRACTICE, what)]
}

const order: readonly When[] = ['always', 'gears', 'power', 'cutting', 'tap']

/** All that is to be minded, in the order in which it matters. */
export function cautionsOf(
  lathe: Lathe,
  train: Train,
  cutting: readonly Coded[],
  tap: readonly Coded[],
): SheetCaution[] {
  const from = (when: When) => (one: Coded) => caution(one.code, when, PRACTICE, one.message)
  const all = [
    ...rest,
    ...ofNose(lathe),
    ...train.cautions.map(ofTrain),
    ...cutting.map(from('cutting')),
    ...tap.map(from('tap')),
  ]
  return order.flatMap((when) => all.filter((one) => one.when === when))
}
