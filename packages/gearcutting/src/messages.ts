const given = (value: unknown): string => {
  const text = String(typeof value === 'object' ? typeof value : value)
  return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`
}
const list = (values: readonly (number | string)[]): string => values.join(', ')

/** Every refusal of this package, by code: what is wrong and the way out. */
export const sentences = {
  missing: (what: string) => `nothing was given; expected ${what}.`,
  'not-a-number': (value: unknown, what: string) => `${given(value)} is not a number; expected ${what}.`,
  'not-whole': (value: unknown, what: string) => `${given(value)} is not a whole number; expected ${what}.`,
  range: (value: unknown, what: string) => `${given(value)} is out of range; expected ${what}.`,
  'no-size': () => 'the size of the teeth is missing: give a module in mm, or a diametral pitch (dp).',
  'two-sizes': (module: number, dp: number) =>
    `module ${module} and ${dp} dp are not the same size (${dp} dp is module 25.4/${dp}): give one of them.`,
  pointed: () => 'the teeth come to a point below their tip: take less shift, more teeth or a smaller pressure angle.',
  depth: () =>
    'no cutter is that deep at this pressure angle, its tip would be a point: take a smaller depth or angle.',
  severed: () => 'undercutting eats through these teeth or leaves no flank: take more teeth or a positive shift.',
  span: (k: number, from: number, to: number) =>
    `the jaws do not touch flanks over ${k} teeth; measure over ${from === to ? from : `${from} to ${to}`}.`,
  'shift-sum': () => 'two gears with so much negative shift cannot mesh without play: take a larger sum of shifts.',
  unknown: (value: unknown, choices: readonly string[]) =>
    `${given(value)} is not known here; expected one of: ${list(choices)}.`,
  'no-cutter': (teeth: number) =>
    `no cutter of a set of eight cuts ${teeth} teeth, they begin at 12; generate such a gear, print it or cut it from an outline.`,
  'not-owned': (wanted: string, angle: number, owned: readonly string[], bought: string) =>
    `no cutter of ${wanted}, ${angle}° is among those owned (${list(owned) || 'none'}); get ${bought}, or make the gear in a size that is owned if its mates are.`,
  'wrong-range': (teeth: number, wanted: string, ranges: readonly string[], bought: string) =>
    `the cutters of ${wanted} that are owned cut ${list(ranges)}, not ${teeth} teeth; get ${bought}.`,
  'no-plates': () =>
    'the head has no plates, so it cannot divide: list the circles of each, such as [[15, 16, 17]]; with worm 1 a change gear is a plate of one circle; a table with a degree scale is divided by dialIndexing.',
  'no-circles': () => 'this plate has no circles of holes: list their hole counts, or leave the plate out.',
  'too-many': (count: number, most: number) => `${count} are more than any head has; at most ${most} are taken.`,
  'cannot-divide': (divisions: number, most: number) =>
    `this head has at most ${most} places in a turn of the work, too few for ${divisions} divisions: use a plate with more holes, or a change gear whose teeth are a multiple of ${divisions}.`,
  'upside-down': (from: number, to: number) =>
    `the range runs from ${from} down to ${to}: write the smaller count first.`,
  dial: (worm: number, reading: number) =>
    `a turn of the handwheel is 360/${worm} degrees, no whole number of readings of ${reading} seconds: give a finer reading, or use plates.`,
  'bore-too-big': (most: number) =>
    `only ${most} mm would be left for it inside the root: take a smaller one, or more teeth.`,
  'keyway-too-wide': (bore: number) => `a keyway is narrower than its bore of ${bore} mm.`,
  'pin-place': (from: number, to: number) =>
    to > from
      ? `the pin hole must lie between bore and root: its centre ${from} to ${to} mm from the gear's centre.`
      : 'there is no room for that pin hole between bore and root: take a smaller one.',
  'pin-keyway': () => 'the pin hole breaks into the keyway: turn it to another angle.',
} as const satisfies Record<string, (...data: never[]) => string>
export type Code = keyof typeof sentences

/** What a plan reminds of, by code. All common practice, no source. */
export const reminders = {
  'one-way': () =>
    'Turn the crank one way only. Past the hole: go back half a turn and come up to it again, so that the play of the worm is always on one side.',
  'from-zero': () => 'Set each place from the table, not from the one before: then nothing adds up.',
  'plate-turns': () =>
    'The second move turns the plate with the crank pinned to it; the pin behind holds the plate in its second circle. Approach by turning forward: a backward move goes past its hole and comes up again.',
  approximate: (degrees: number) =>
    `No circle divides this exactly; a place is out by ${degrees}° of the work at most. A plate of so many holes, drilled by this table and then used on the head, has its errors divided by the worm.`,
} as const satisfies Record<string, (...data: never[]) => string>
export type ReminderCode = keyof typeof reminders
