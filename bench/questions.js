// The questions that are measured, read from test-data.
import { readFileSync } from 'node:fs'
import { parseBox } from '@trainwright/trains'

const read = (name) => JSON.parse(readFileSync(new URL(`../test-data/${name}.json`, import.meta.url), 'utf8'))
const data = read('bench-questions')
const lists = read('wish-lists')

export const boxText = data.boxes
export const wantedText = '254/195'

const box = (name) => parseBox(data.boxes[name])

/** Workshop, thread and options of the plain question on one of the boxes. */
export const sets = (name) => [
  { lathe: data.sets.lathe, gears: box(name) },
  data.sets.wanted,
  { stages: data.sets.stages },
]

export function hard() {
  const { lathe, module, shafts, wanted, stages } = data.hard
  const gears = box(data.hard.box).map((gear) => {
    const kept = shafts.find(({ teeth }) => teeth.includes(gear.teeth))
    const coarse = module.teeth.includes(gear.teeth) ? { module: module.module } : {}
    return { ...gear, ...coarse, ...(kept && { shafts: kept.shafts }) }
  })
  return [{ lathe, gears }, wanted, { stages }]
}

export function banjo(kind, name) {
  const { drives, wanted } = data.banjos
  const lathe = { leadscrew: { pitch: '1 mm' }, studs: 2, drives, ...data.banjos[kind] }
  return [{ lathe, gears: box(name) }, wanted, {}]
}

/** Which gear to make: the 12-gear box with one stud and a mixed list, or the 20-gear box with two and module pitches. */
export function wishes(name) {
  const [list, studs] = name === '12' ? ['mixed', 1] : ['modules', 2]
  const wanted = lists[list].pitches.map((pitch) => ({ pitch, tolerance: { ppm: 50 } }))
  return [{ lathe: { leadscrew: { pitch: '1 mm' }, studs }, gears: box(name) }, wanted]
}
