export { type GearChanges, gearChanges } from './changes.js'
export type { ChartLine, ChartSheet, ChartSheetOptions } from './chart-contract.js'
export { chartSheet } from './chart-sheet.js'
export type * from './contract.js'
export { describeDrawing } from './describe.js'
export { type DrawnGear, type DrawnMesh, type DrawnShaft, drawTrain, type TrainDrawing } from './drawing.js'
export type { Amount, Labelled, Length, PitchFigure, Range } from './figure.js'
export { distance, type ErrorFigures, errorFigures, leadFigures, type Units } from './figures.js'
export { type AnySheet, type SheetPart, sheetLines, sheetParts } from './lines.js'
export {
  isMixed,
  moduleOf,
  type Place,
  type PlacedGear,
  placesOf,
  type Role,
  settingName,
  sizeOf,
  type Turning,
  trainInLine,
} from './places.js'
export { setUpSheet } from './set-up-sheet.js'
export type { ThreadWork } from './thread-work.js'
export { turningSeen, type View } from './view.js'
