export { type Blank, type BlankCheck, checkBlank } from './blank.js'
export type { Keyway } from './bore.js'
export { type Caution, gearCuttingCautions } from './cautions.js'
export { type Cutter, type CutterSet, chooseCutter, cutter, type OwnedCutter } from './cutter.js'
export { type Angle, type DialPlan, type DialRow, dialIndexing, type RotaryTable } from './dial.js'
export type { GearQuestion } from './gear.js'
export { type Head, indexable } from './head.js'
export {
  type IndexingPlan,
  type IndexingQuestion,
  type IndexMove,
  type IndexRow,
  indexing,
} from './indexing.js'
export { centreDistance, contactRatio, interferes, type MeshQuestion } from './mesh.js'
export { type Circle, type Loop, type Outline, type OutlineQuestion, outline, type Vertex } from './outline.js'
export { type SpurGear, spurGear, undercutLimit } from './spur-gear.js'
export { outlinePath, outlineSvg } from './svg.js'
