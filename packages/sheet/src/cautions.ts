import type { Lathe, Train } from '@trainwright/trains'
import type { SheetCaution } from './contract.js'
import { ARMY, ARMY_LATHES, JONES, NAVY, PRACTICE } from './sources.js'

type When = SheetCaution['when']
type Row = readonly [code: string, when: When, source: string, message: string]

const first: readonly Row[] = [
  [
    'manual',
    'always',
    `${NAVY} (posted rules); the rest ${PRACTICE}`,
    "The lathe's own manual, the rules posted at it, local codes and licensed practice come before this sheet.",
  ],
  [
    'clothing',
    'always',
    `${NAVY}; gloves and hair: ${PRACTICE}`,
    'No gloves, no loose sleeves, no watch, rings or jewellery; long hair tied back.',
  ],
  ['eyes', 'always', NAVY, 'Goggles or a face shield at and near the running lathe.'],
  ['isolate', 'gears', ARMY, 'Isolate the machine before gears are touched: off, and unplugged or locked off.'],
  ['by-hand', 'gears', PRACTICE, 'Turn the whole train once by hand before power goes on.'],
  ['cover', 'power', ARMY, 'Cover on and fastened while anything turns.'],
  [
    'secure',
    'power',
    `W. B. Safety code list, metal lathes`,
    'Chuck key out; tailstock, tool holder and work clamped; tool and hands clear of chuck and dog.',
  ],
  [
    'withdraw',
    'cutting',
    `${JONES} (backlash); the rest ${PRACTICE}`,
    'Withdraw the tool before anything is reversed, and take up the backlash going forward before it cuts again.',
  ],
  [
    'stop-to-measure',
    'cutting',
    ARMY_LATHES,
    'Stop the lathe to measure, to set the tool, and to clear chips: never by hand, never in motion.',
  ],
]

const screwedNose: Row = [
  'screwed-chuck',
  'cutting',
  PRACTICE,
  'The chuck screws on: never reverse it under power, it comes off. Turn back by hand.',
]
const perhapsScrewed: Row = [
  'screwed-chuck',
  'cutting',
  PRACTICE,
  'If the chuck screws on, never reverse it under power, it comes off: turn back by hand.',
]

const asData = ([code, when, source, message]: Row): SheetCaution => ({ code, when, message, source })

const ofTrain: Readonly<Record<Train['cautions'][number]['code'], [When, string]>> = {
  'plain-belt': ['cutting', PRACTICE],
  'fast-leadscrew': ['power', `${JONES}; the limit of 3 : 1: ${PRACTICE}`],
  'steep-step-up': ['power', `${JONES}; the limit of 3 : 1: ${PRACTICE}`],
  'clearance-assumed': ['gears', PRACTICE],
}

const order: readonly When[] = ['always', 'gears', 'power', 'cutting', 'tap']

/** All that is to be minded, in the order in which it matters. */
export function cautionsOf(
  lathe: Lathe,
  train: Train,
  cutting: readonly { code: string; message: string }[],
  tap: readonly { code: string; message: string }[],
): SheetCaution[] {
  const nose = lathe.screwedNose === false ? [] : [lathe.screwedNose ? screwedNose : perhapsScrewed]
  const all: SheetCaution[] = [
    ...[...first, ...nose].map(asData),
    ...train.cautions.map(({ code, message }) => ({ code, when: ofTrain[code][0], message, source: ofTrain[code][1] })),
    ...cutting.map(({ code, message }) => ({ code, when: 'cutting' as const, message, source: PRACTICE })),
    ...tap.map(({ code, message }) => ({ code, when: 'tap' as const, message, source: PRACTICE })),
  ]
  return order.flatMap((when) => all.filter((caution) => caution.when === when))
}
