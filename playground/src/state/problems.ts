import type { Problem } from '@trainwright/measures'
import { readKinds } from './ask.js'
import type { Typed } from './typed.js'

/** Fields of the page by the paths of the problems that belong beside them; `$1` is the index of a list. */
const fields: readonly [RegExp, string][] = [
  [/^wanted\.(name|pitch|starts|hand)/, 'wanted.$1'],
  [/^wanted\.tolerance\.(ppm|error|over)/, 'wanted.tolerance.$1'],
  [/^wanted\.tolerance/, 'wanted.tolerance'],
  [/^lathe\.leadscrew\.(pitch|hand)/, 'lathe.leadscrew.$1'],
  [/^lathe\.(room|fixedGears)\.(input|output)/, 'lathe.$1.$2'],
  [/^lathe\.(drives|gearbox)\[(\d+)\]\.(name|ratio)/, 'lathe.$1[$2].$3'],
  [/^lathe\.(drives|gearbox)\[(\d+)\]/, 'lathe.$1[$2].ratio'],
  [/^lathe\.(drives|gearbox|studs|planes|centreDistance|shaftClearance)/, 'lathe.$1'],
  [/^lathe\.(dial\.travel|dial\.lines|dial|speeds|halfNuts|screwedNose)/, 'lathe.$1'],
  [/^(wires|work\..+|measured\..+)/, '$1'],
  [/^thread\.form\.(angle|crest|root)/, 'work.own.$1'],
  [
    /^thread\.(form|cut|engagement|class|allowance|compound|crest|nose|passes|firstCut|springPasses|groove|tool|mate)/,
    'work.$1',
  ],
  [/^thread/, 'work.diameter'],
  [/^lathe\.banjo\.((?:slots|stops|keepOut)\[\d+\]\.\w+|swing\[\d\]|air|collars)/, 'lathe.banjo.$1'],
  [/^lathe\.banjo\.(slots\[\d+\])/, 'lathe.banjo.$1.from'],
  [/^lathe\.banjo\.swing/, 'lathe.banjo.swing[0]'],
  [/^lathe\.banjo/, 'lathe.banjo'],
  [/^mounted\.(drive|gearbox|gears)/, 'mounted.$1'],
  [/^kinds\[(\d+)\]\.(line|size|angle|shafts)/, 'kinds[$1].$2'],
  [/^gears/, 'kinds[0].line'],
  [/^name/, 'name'],
  [/^(making|wishes)\.(\w+)/, '$1.$2'],
]

/** Problems by the field beside which each is shown; those of no field stand under ''. */
export type Placed = ReadonlyMap<string, readonly Problem[]>

/** Says beside which field each problem stands. Gears are counted through all kinds, as the question lists them. */
export function placeProblems(problems: readonly Problem[], typed: Typed): Placed {
  const placed = new Map<string, Problem[]>()
  for (const problem of problems) {
    const path = pathOfKind(problem.path, typed)
    const rule = fields.find(([pattern]) => pattern.test(path))
    const field = rule ? rule[1].replace(/\$(\d)/g, (_, i) => rule[0].exec(path)![Number(i)]!) : ''
    const there = placed.get(field) ?? []
    // A kind with a bad module has as many problems as gears: one is enough to read.
    if (!there.some(({ message }) => message === problem.message)) placed.set(field, [...there, problem])
  }
  return placed
}

const parts: Readonly<Record<string, string>> = { module: 'size', dp: 'size', pressureAngle: 'angle', shafts: 'shafts' }

/** `gears[17].module` is the size of the kind that the eighteenth gear belongs to. */
function pathOfKind(path: string, typed: Typed): string {
  const found = /^gears\[(\d+)\](?:\.(\w+))?/.exec(path)
  if (!found) return path
  let left = Number(found[1])
  const kinds = readKinds(typed.workshop.kinds, [])
  for (const [i, kind] of kinds.entries()) {
    if (kind && left < kind.length) return `kinds[${i}].${parts[found[2] ?? ''] ?? 'line'}`
    left -= kind?.length ?? 0
  }
  return path
}
