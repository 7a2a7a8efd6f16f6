import type { Gear, Layout, Train } from '@trainwright/trains'

export const gear = (teeth: number, module = 1, more: Partial<Gear> = {}): Gear => ({
  teeth,
  module,
  pressureAngle: 20,
  ...more,
})

/**
 * A train by hand. Each stage is a driver, its idlers and its driven gear; planes go 1, 2, 1, 2. Lead and error are
 * not worked out: they are what `more` says.
 */
export function trainOf(stages: readonly (readonly (number | Gear)[])[], more: Partial<Train> = {}): Train {
  const built = stages.map((stage) => stage.map((g) => (typeof g === 'number' ? gear(g) : g)))
  const shafts: Train['shafts'] = [{ shaft: 'input', gears: [{ gear: built[0]![0]!, plane: 1 }] }]
  built.forEach((stage, i) => {
    const plane = (i % 2) + 1
    if (i > 0) shafts.at(-1)!.gears.push({ gear: stage[0]!, plane })
    for (const next of stage.slice(1)) shafts.push({ shaft: 'stud', gears: [{ gear: next, plane }] })
  })
  shafts.at(-1)!.shaft = 'output'
  return {
    drive: 0,
    gearbox: 0,
    shafts,
    stages: built.map((stage) => ({ driver: stage[0]!, idlers: stage.slice(1, -1), driven: stage.at(-1)! })),
    ratio: { n: '1', d: '1' },
    lead: { n: '1', d: '1' },
    error: { n: '0', d: '1' },
    errorPpm: 0,
    approximate: false,
    hand: 'right',
    cautions: [],
    layout: null as Layout | null,
    ...more,
  }
}
